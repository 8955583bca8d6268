#pragma once
// Files that a verb is given.
//   Stops   Exit::wrong_use: it cannot be read, or it is wrong (each mistake with file and line)

#include <string>
#include <vector>

#include "proto/shop_file.h"

namespace squeezeout::cli {

[[nodiscard]] std::string read_file(const std::string& file);
[[noreturn]] void stop_for(const std::vector<FileMistake>& mistakes);

}  // namespace squeezeout::cli
