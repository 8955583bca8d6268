#pragma once
// The app: wires replica, connection, session and a window (or none), and draws on change.

#include "client/options.h"

namespace squeezeout {

// Runs as the options say and returns the exit code: 0 done, 2 the shop does not know a name, 3 no server within 10 s,
// 4 no window or picture.
[[nodiscard]] int run(const Options& options);

}  // namespace squeezeout
