#include "server/shop_clock.h"

#include <algorithm>

namespace squeezeout {

using std::chrono::milliseconds;

ShopClock::ShopClock(Start start)
    : speed_(start.speed), began_(std::chrono::steady_clock::now()), highest_(INT64_MIN) {
  const bool own = start.at || start.speed != 1;
  if (!own) return;
  const auto system =
      std::chrono::floor<milliseconds>(std::chrono::system_clock::now()).time_since_epoch();
  start_ = start.at ? milliseconds{start.at->time_since_epoch()} : system;
}

std::int64_t ShopClock::now_ms() {
  std::int64_t now = 0;
  if (start_) {
    const std::chrono::duration<double, std::milli> gone =
        std::chrono::steady_clock::now() - began_;
    now = start_->count() + static_cast<std::int64_t>(gone.count() * speed_);
  } else {
    now = std::chrono::floor<milliseconds>(std::chrono::system_clock::now())
              .time_since_epoch()
              .count();
  }
  std::int64_t highest = highest_.load();
  while (highest < now && !highest_.compare_exchange_weak(highest, now)) {
  }
  return std::max(highest, now);
}

std::chrono::steady_clock::duration ShopClock::until(Instant t) {
  const auto left = milliseconds{t.time_since_epoch()}.count() - now_ms();
  if (left <= 0) return {};
  const std::chrono::duration<double, std::milli> wait{static_cast<double>(left) / speed_};
  return std::chrono::ceil<milliseconds>(
      std::min<std::chrono::duration<double, std::milli>>(wait, std::chrono::hours{1}));
}

}  // namespace squeezeout
