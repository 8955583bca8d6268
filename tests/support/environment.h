#pragma once
// A whole number that a run is given in its environment: how many, from which seed.
//   Refuses  std::invalid_argument, when the variable is set to anything else: a typing error must not pass for a shorter run

#include <charconv>
#include <cstdint>
#include <cstdlib>
#include <stdexcept>
#include <string>

namespace squeezeout::testing {

[[nodiscard]] inline std::uint64_t number_from_environment(const char* variable,
                                                           std::uint64_t usual) {
  const char* set = std::getenv(variable);
  if (!set) return usual;
  const std::string text = set;
  std::uint64_t number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || end != text.data() + text.size())
    throw std::invalid_argument(std::string{variable} + " is '" + text +
                                "' and no whole number; set it to one such as 1000");
  return number;
}

}  // namespace squeezeout::testing
