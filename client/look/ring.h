#pragma once
// The ring: the arrow keys walk over all that can be pressed, Enter presses what the ring stands around. Any other key, and the
// mouse, takes it away.

#include <string>

#include "client/look/frame.h"

namespace squeezeout::look {

[[nodiscard]] bool is_arrow(int key);

// The press that the ring goes to: the nearest in the arrow's direction, or where it stands when there is none. From nowhere: to
// the first that has no key of its own, the tiles and rows of a screen; without such, to the first of all. Empty: nothing to press.
[[nodiscard]] std::string walk(const Frame& frame, const std::string& from, int arrow);

}  // namespace squeezeout::look
