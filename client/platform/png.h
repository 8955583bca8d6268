#pragma once
// Pictures as files.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace squeezeout::platform {

struct Picture {
  int width = 0, height = 0;
  std::vector<std::uint8_t> rgb;  // top row first
};

// Writes a PNG; a message when the file cannot be written.
[[nodiscard]] std::optional<std::string> write_png(const std::string& path, const Picture& picture);

}  // namespace squeezeout::platform
