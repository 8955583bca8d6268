#include "server/net/origin.h"

namespace squeezeout {

bool may_connect(std::string_view host, std::string_view origin) {
  std::string_view name = host;
  if (const auto colon = name.rfind(':'); colon != std::string_view::npos && name.back() != ']') {
    name = name.substr(0, colon);
  }
  if (name != "127.0.0.1" && name != "localhost" && name != "[::1]") return false;
  if (origin.empty()) return true;
  constexpr std::string_view kScheme = "http://";
  return origin.starts_with(kScheme) && origin.substr(kScheme.size()) == host;
}

}  // namespace squeezeout
