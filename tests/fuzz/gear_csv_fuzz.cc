// A gear table: mistakes, or gear whose table reads back as the same gear.

#include <cstdint>
#include <string_view>

#include "proto/shop_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes{reinterpret_cast<const char*>(data), size};
  if (const auto gear = squeezeout::read_gear_csv("fuzz", bytes)) {
    const auto again = squeezeout::read_gear_csv("again", squeezeout::write_gear_csv(*gear));
    CHECK(again.has_value() && *again == *gear);
  }
  return 0;
}
