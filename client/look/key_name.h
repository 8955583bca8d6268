#pragma once
// What stands on a key.

#include <string>

namespace squeezeout::look {

// "Space", "Esc", "F1", "R", "+".
[[nodiscard]] std::string key_name(int key);

}  // namespace squeezeout::look
