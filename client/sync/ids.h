#pragma once
// Ids that a client makes: the Ids seam of a real program. Tests make their own.

#include <string>

#include "common/base/ids.h"

namespace squeezeout {

// Random ids from the system's generator.
[[nodiscard]] CommandId new_command_id();
// This device's id: made once, kept in the given file (folder is made); a new random one when the
// file cannot be kept.
[[nodiscard]] DeviceId device_id(const std::string& file);
// Where a user's device ids are kept: $XDG_STATE_HOME/squeezeout/NAME, or
// ~/.local/state/squeezeout/NAME; empty: nowhere.
[[nodiscard]] std::string device_file(const std::string& name);

}  // namespace squeezeout
