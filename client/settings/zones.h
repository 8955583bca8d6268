#pragma once
// The time zones of this system, in the order in which a person here would look for them.
//   Shape   the machine's own first, then those of its part of the world, then the others; each part by name
//   Source  zone1970.tab of the system's tz data; UTC alone when it is not there

#include <memory>
#include <string>
#include <vector>

namespace squeezeout::settings {

[[nodiscard]] std::string own_zone();
[[nodiscard]] std::shared_ptr<const std::vector<std::string>> zones_from(
    std::vector<std::string> names, const std::string& own);
[[nodiscard]] std::shared_ptr<const std::vector<std::string>> zones_of_this_system();

}  // namespace squeezeout::settings
