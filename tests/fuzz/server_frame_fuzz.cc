// What a server (or whoever stands in its place) sends to a client: never a crash.

#include <cstdint>
#include <string_view>

#include "proto/codec.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes{reinterpret_cast<const char*>(data), size};
  (void)squeezeout::decode_server_frame(bytes);
  return 0;
}
