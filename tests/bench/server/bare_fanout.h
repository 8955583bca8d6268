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
  std::size_t clients() const;  // who are connected and get what is published
  void publish(std::string message);

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace squeezeout::bench
