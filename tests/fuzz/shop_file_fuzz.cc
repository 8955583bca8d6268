// A shop file: mistakes, or a shop whose file reads back as the same shop.

#include <cstdint>
#include <string_view>

#include "proto/shop_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes{reinterpret_cast<const char*>(data), size};
  if (const auto shop = squeezeout::read_shop_file("fuzz", bytes)) {
    const auto again = squeezeout::read_shop_file("again", squeezeout::write_shop_file(*shop));
    CHECK(again.has_value() && *again == *shop);
  }
  return 0;
}
