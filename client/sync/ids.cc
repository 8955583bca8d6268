#include "client/sync/ids.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>

namespace squeezeout {
namespace {

template <class Tag>
Id128<Tag> random_id() {
  std::random_device system;
  Id128<Tag> id;
  for (std::size_t i = 0; i < id.bytes.size(); i += 4) {
    const std::uint32_t word = system();
    for (std::size_t k = 0; k < 4; ++k)
      id.bytes[i + k] = static_cast<std::uint8_t>(word >> (8 * k));
  }
  return id;
}

}  // namespace

CommandId new_command_id() { return random_id<CommandTag>(); }

DeviceId device_id(const std::string& file) {
  DeviceId id;
  const auto size = static_cast<std::streamsize>(id.bytes.size());
  auto* const bytes = reinterpret_cast<char*>(id.bytes.data());
  std::ifstream kept(file, std::ios::binary);
  if (kept.read(bytes, size) && kept.gcount() == size) return id;

  id = random_id<DeviceTag>();
  const auto folder = std::filesystem::path(file).parent_path();
  std::error_code ignored;  // a device that cannot keep its id is a new device next time, and works
                            // all the same
  if (!folder.empty()) std::filesystem::create_directories(folder, ignored);
  std::ofstream(file, std::ios::binary | std::ios::trunc).write(bytes, size);
  return id;
}

std::string device_file(const std::string& name) {
  if (const char* state = std::getenv("XDG_STATE_HOME"); state && *state)
    return std::string(state) + "/squeezeout/" + name;
  if (const char* home = std::getenv("HOME"); home && *home)
    return std::string(home) + "/.local/state/squeezeout/" + name;
  return {};
}

}  // namespace squeezeout
