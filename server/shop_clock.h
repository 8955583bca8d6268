#pragma once
// The shop's clock: the system's, or one that starts at a given time and may run faster (demo and tests).
//   Monotone   now() never goes back, whatever is done to the system's clock
//   Thread     any

#include <atomic>
#include <chrono>
#include <cstdint>
#include <optional>

#include "common/time/clock.h"

namespace squeezeout {

class ShopClock final : public Clock {
 public:
  struct Start {
    std::optional<Instant> at;  // none: the system's time
    double speed = 1;
  };
  explicit ShopClock(Start start);

  Instant now() override {
    return Instant{std::chrono::floor<Seconds>(std::chrono::milliseconds{now_ms()})};
  }
  std::int64_t now_ms();
  double speed() const { return speed_; }
  // How long to wait until the shop's clock shows t; zero when it does already.
  std::chrono::steady_clock::duration until(Instant t);

 private:
  std::optional<std::chrono::milliseconds> start_;
  double speed_;
  std::chrono::steady_clock::time_point began_;
  std::atomic<std::int64_t> highest_;
};

}  // namespace squeezeout
