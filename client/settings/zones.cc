#include "client/settings/zones.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace squeezeout::settings {
namespace {

constexpr std::string_view kFolder = "zoneinfo/";

std::string_view part_of_the_world(std::string_view zone) { return zone.substr(0, zone.find('/')); }

}  // namespace

std::string own_zone() {
  if (const char* tz = std::getenv("TZ"); tz != nullptr && *tz != '\0')
    return tz + (*tz == ':' ? 1 : 0);
  std::error_code error;
  const std::string link = std::filesystem::read_symlink("/etc/localtime", error).string();
  if (const std::size_t at = link.find(kFolder); at != std::string::npos)
    return link.substr(at + kFolder.size());
  std::string name;
  std::ifstream("/etc/timezone") >> name;
  return name.empty() ? "UTC" : name;
}

std::shared_ptr<const std::vector<std::string>> zones_from(std::vector<std::string> names,
                                                           const std::string& own) {
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  std::erase(names, own);
  std::stable_partition(names.begin(), names.end(), [&](const std::string& name) {
    return part_of_the_world(name) == part_of_the_world(own);
  });
  names.insert(names.begin(), own);
  return std::make_shared<const std::vector<std::string>>(std::move(names));
}

std::shared_ptr<const std::vector<std::string>> zones_of_this_system() {
  std::vector<std::string> names{"UTC"};
  std::ifstream table("/usr/share/zoneinfo/zone1970.tab");
  for (std::string line; std::getline(table, line);) {
    if (line.empty() || line.front() == '#') continue;
    std::istringstream cells(line);
    std::string countries, place, name;
    if (cells >> countries >> place >> name) names.push_back(name);
  }
  return zones_from(std::move(names), own_zone());
}

}  // namespace squeezeout::settings
