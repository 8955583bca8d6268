#pragma once
// The connection: one WebSocket to the server on a thread of its own, reconnecting from 0.25 s to 5
// s with jitter.
//   Thread   all members may be called from the one thread that made it; `wake` is called from the
//   network thread Limits   10 s without a frame: the connection is given up and made anew

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "client/sync/ids.h"
#include "client/sync/replica.h"

namespace squeezeout {

struct Address {
  std::string host = "127.0.0.1";
  std::string port = "7733";
  friend bool operator==(const Address&, const Address&) = default;
};
// "shop.local:7733", "192.168.1.5", ":7800", "[::1]:7733"; what is left out keeps its default.
// nullopt: no address.
[[nodiscard]] std::optional<Address> parse_address(std::string_view text);

class Connection {
 public:
  Connection(Address server, std::function<void()> wake);
  ~Connection();
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  // Moves what came in into the replica, and what it wants sent out. Call on each wake and at least
  // every second.
  void exchange(Replica& replica);
  // Why the last attempt failed, in words: what, why. Empty while connected.
  std::string trouble() const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace squeezeout
