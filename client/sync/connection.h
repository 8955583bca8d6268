#pragma once
// The connection: one WebSocket to the server on a thread of its own, reconnecting from 0.25 s to 5 s with jitter.
//   Thread   all members may be called from the one thread that made it; `wake` is called from the network thread

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "client/sync/replica.h"

namespace squeezeout {

struct Address {
  std::string host = "127.0.0.1";
  std::string port = "7733";
};

class Connection {
 public:
  Connection(Address server, std::function<void()> wake);
  ~Connection();
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  // Moves what came in into the replica, and what it wants sent out. Call on each wake and at least every second.
  void exchange(Replica& replica);
  // Why the last attempt failed, in words: what, why. Empty while connected.
  std::string trouble() const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

// Random ids from the system's generator.
[[nodiscard]] CommandId new_command_id();
// This device's id: made once, kept in the given file (folder is made); a new random one when the file cannot be kept.
[[nodiscard]] DeviceId device_id(const std::string& file);

}  // namespace squeezeout
