#pragma once
// What every way of searching has: the best so far, how many schedules it took, and when to end. Improver chooses one by what
// the problem needs.

#include <cstdint>
#include <functional>
#include <optional>

#include "common/schedule/problem.h"

namespace squeezeout::schedule {

class Search {
 public:
  virtual ~Search() = default;
  bool run(std::int64_t most, const std::function<bool()>& stop) {
    const auto before = best_ ? std::optional(best_->cost) : std::nullopt;
    for (const std::int64_t until = work() + most; work() < until && !done_ && !(stop && stop());)
      step();
    return best_ && (!before || best_->cost < *before);
  }
  virtual std::int64_t work() const = 0;  // see Improver
  virtual void take(const Schedule& better) = 0;
  const std::optional<Schedule>& best() const { return best_; }
  std::int64_t schedules() const { return schedules_; }

 protected:
  virtual void step() = 0;  // about a millisecond or less; counts its schedules
  std::optional<Schedule> best_;
  std::int64_t schedules_ = 0;
  bool done_ = false;  // nothing better is possible, or nothing is left to try
};

}  // namespace squeezeout::schedule
