#pragma once
// One connection: an HTTP request first, then, for /v1, a WebSocket until it ends.
//   Thread   the network's
//   Writing  everything goes out through the outbox, by one writer: frames that wait are sent together, and what Beast itself
//            writes (handshake, pong, ping, close) waits its turn there. Beast reads, checks and times the connection.

#include <boost/asio/awaitable.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <functional>
#include <string>

#include "server/net/hub.h"

namespace squeezeout {

// The hub and the function must outlive it.
boost::asio::awaitable<void> serve_connection(boost::asio::ip::tcp::socket socket, Hub& hub,
                                              const std::function<std::string()>& health_json);

}  // namespace squeezeout
