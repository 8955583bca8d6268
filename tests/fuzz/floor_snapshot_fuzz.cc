// A snapshot from a damaged file: refused, or a floor that encodes to the same bytes twice.

#include <cstdint>
#include <string_view>

#include "proto/codec.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes{reinterpret_cast<const char*>(data), size};
  if (const auto floor = squeezeout::decode_floor(bytes)) {
    CHECK(squeezeout::encode_floor(*floor) == squeezeout::encode_floor(*floor));
  }
  return 0;
}
