#pragma once
// One talk with the server: a client without a window. It mirrors the floor, asks its own mirror, and sends commands.
//   Stops   Exit::lost when the server is not reached, or does not answer, within the time given

#include <condition_variable>
#include <functional>
#include <mutex>

#include "client/sync/connection.h"
#include "client/words/words.h"

namespace squeezeout::cli {

class Session {
 public:
  // Waits until the mirror holds the floor.
  Session(const Address& server, std::chrono::milliseconds wait);

  const Replica& replica() const { return replica_; }
  const Floor& floor() const { return replica_.floor(); }
  // The shop, or a stop that says how to load one.
  const Shop& shop() const;
  Instant now() const { return replica_.now(std::chrono::steady_clock::now()); }
  words::Context context() const { return {floor(), now()}; }

  // Sends the command and waits until the mirror holds its effect. The reply is done or refused.
  Reply ask(Body body);

 private:
  // Exchanges frames until `done` or until the time is over; says whether it was done.
  bool run_until(const std::function<bool()>& done);
  [[noreturn]] void stop(const std::string& what) const;

  std::chrono::milliseconds wait_;
  std::mutex mutex_;
  std::condition_variable woken_;
  bool awake_ = false;
  Replica replica_;
  Connection connection_;  // last: its thread wakes the members above
};

}  // namespace squeezeout::cli
