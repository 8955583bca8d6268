#pragma once
// What Beast alone can do: one thread that accepts WebSockets and sends every message to all of them, one async_write after
// the other for each, as its documentation shows it. No journal, no queue bounds, no decision.

#include <cstdint>
#include <memory>
#include <string>

namespace squeezeout::bench {

class BareFanout {
 public:
  BareFanout();
  ~BareFanout();
  BareFanout(const BareFanout&) = delete;
  BareFanout& operator=(const BareFanout&) = delete;
  std::uint16_t port() const;
  void publish(std::string message);  // to all who are connected by now

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace squeezeout::bench
