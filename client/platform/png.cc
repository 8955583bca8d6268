#include "client/platform/png.h"

#include <stb/stb_image_write.h>

#include <cerrno>
#include <cstring>

namespace squeezeout::platform {

std::optional<std::string> write_png(const std::string& path, const Picture& picture) {
  errno = 0;
  if (stbi_write_png(path.c_str(), picture.width, picture.height, 3, picture.rgb.data(),
                     picture.width * 3) != 0)
    return std::nullopt;
  return "No picture: " + path + " cannot be written (" + std::strerror(errno) +
         "). Next: name a file in a folder that you may write to.";
}

}  // namespace squeezeout::platform
