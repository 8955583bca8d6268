#pragma once
// Files that others read while they are written.

#include <string>

namespace squeezeout {

// Puts the text in place of the file at once: who reads it never sees half. False: it could not.
[[nodiscard]] bool replace_file(const std::string& path, const std::string& text);

}  // namespace squeezeout
