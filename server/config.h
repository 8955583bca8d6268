#pragma once
// What the person who starts the server asked for.

#include <cstdint>
#include <optional>
#include <string>
#include <variant>

#include "common/time/span.h"

namespace squeezeout {

struct Config {
  std::string data;
  std::uint16_t port = 7733;
  std::string port_file;  // empty: none
  std::string shop_file;  // empty: none
  bool demo = false;
  bool verify = false;
  bool rate_limit = true;
  std::optional<Instant> clock;
  double speed = 1;
};

// The program ends at once: after --help, --version, or a mistake that was told.
struct Leave {
  int exit_code = 0;
};

[[nodiscard]] std::variant<Config, Leave> read_arguments(int argc, char** argv);

}  // namespace squeezeout
