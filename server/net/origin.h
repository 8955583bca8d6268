#pragma once
// Who may open a socket: a page of a foreign site in the same computer's browser may not.
//   host      the request's Host: this computer by name or number, with or without a port (no DNS rebinding)
//   origin    the request's Origin; empty: not a browser. A browser's must be of the same host and port.

#include <string_view>

namespace squeezeout {

[[nodiscard]] bool may_connect(std::string_view host, std::string_view origin);

}  // namespace squeezeout
