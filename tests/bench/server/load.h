#pragma once
// Benches that press: reserve a plate joint at a time of their own, cancel it, again and again.

#include <poll.h>

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <string>
#include <vector>

#include "tests/support/server/ws_client.h"

namespace squeezeout::bench {

using Clock = std::chrono::steady_clock;

inline double microseconds(Clock::duration d) {
  return std::chrono::duration<double, std::micro>(d).count();
}
inline double seconds(Clock::duration d) { return std::chrono::duration<double>(d).count(); }

// The value that a share of all values does not exceed.
inline double quantile(std::vector<double> values, double share) {
  if (values.empty()) return 0;
  std::sort(values.begin(), values.end());
  return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))];
}

// First byte of a ServerFrame: which of its kinds it is (wire.proto).
inline bool is_delta(std::string_view frame) { return !frame.empty() && frame[0] == '\x1a'; }
inline bool is_answer(std::string_view frame) { return !frame.empty() && frame[0] == '\x22'; }

// A shop of `benches` benches, each with its builder, always open, with gear for all.
[[nodiscard]] std::string shop_text(int benches);

// One bench with at most one command on its way.
class Presser {
 public:
  Presser(std::uint16_t port, std::uint32_t bench);
  void press();  // sends its next command
  // Reads what came; true: the answer to press() is among it.
  bool answered();
  int fd() const { return client_.fd(); }
  int deltas() const { return deltas_; }

 private:
  test::WsClient client_;
  std::uint32_t bench_;
  Instant next_{};
  GlueUpId mine_;
  std::uint64_t pressed_ = 0;
  int deltas_ = 0;
};

// Waits until one of the sockets can be read; the indexes of those that can.
[[nodiscard]] std::vector<std::size_t> readable(std::vector<pollfd>& sockets);

}  // namespace squeezeout::bench
