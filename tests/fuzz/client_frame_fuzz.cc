// What anybody may send: never a crash; what is taken is encoded and taken again.

#include <cstdint>
#include <string_view>

#include "proto/codec.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes{reinterpret_cast<const char*>(data), size};
  if (const auto frame = squeezeout::decode_client_frame(bytes)) {
    CHECK(squeezeout::decode_client_frame(squeezeout::encode(*frame)).has_value());
  }
  return 0;
}
