#pragma once
// The network: one thread that listens on 127.0.0.1, upgrades /v1 to a WebSocket, answers GET /healthz, and carries frames
// between clients and the hub. Beast and Asio stay behind this header.
//   Limits   a frame in: kMaxClientFrame; handshake: 5 s; silence: 10 s with pings between; no compression

#include <cstdint>
#include <functional>
#include <memory>
#include <string>

#include "server/net/hub.h"

namespace squeezeout {

class Net {
 public:
  // port 0: any. The hub is used from the thread that calls run(), and must live as long.
  //   Refuses  port_in_use, network
  [[nodiscard]] static Result<std::unique_ptr<Net>, Trouble> listen(
      std::uint16_t port, Hub& hub, std::function<std::string()> health_json);
  virtual ~Net() = default;

  virtual std::uint16_t port() const = 0;
  // Serves until a SIGTERM or SIGINT, then calls `stopping` (the last answers are made in it), lets what waits go out
  // for at most a second, and returns.
  virtual void run(std::function<void()> stopping) = 0;
  // From any thread: runs the task on the network's thread, in order.
  virtual void post(std::function<void()> task) = 0;
};

}  // namespace squeezeout
