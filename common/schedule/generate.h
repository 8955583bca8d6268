#pragma once
// A schedule from a priority list: one task at a time, each at its earliest; what stands in the way of a most lag moves later.
//   Source   serial generation with unscheduling: Franck, Neumann, Schwindt, OR Spektrum 23 (2001)

#include <optional>

#include "common/schedule/lags.h"
#include "common/schedule/problem.h"
#include "common/schedule/timetable.h"

namespace squeezeout::schedule {

// What a generation tries, task by task: what the search turns.
struct Plan {
  std::vector<int> order;  // all tasks, the first in line first
  std::vector<int> mode;   // of each task: -1: the best one where it comes
  // At its announced start: no matter; when that costs no lateness; whatever it costs.
  enum class Keep : char { no, unless_late, always };
  std::vector<Keep> keep;  // of each task
};

// The lag orders its tasks: `from` is placed first.
inline bool orders(const Lag& lag) { return lag.after == Lag::After::ready || lag.ticks >= 0; }

class Generator {
 public:
  Generator(const Problem& problem, Bounds bounds);

  // Nothing when lags or the horizon could not be met within the allowed unschedulings; then failed() is where it ended.
  std::optional<Schedule> generate(const Plan& plan);
  int failed() const { return failed_; }
  std::int64_t placings() const { return placings_; }  // tried so far
  // When task i should be ready for its own due date and for all that follow it; kFar: any time.
  const std::vector<Tick>& due() const { return due_; }

 private:
  struct Choice {
    Placed placed;
    std::int64_t late = 0, disturbed = 0;
    Tick ready = 0;
  };
  std::optional<Choice> choose(int task, const Plan& plan);
  int next(const Plan& plan) const;
  void put(int task, Placed placed);
  void take_back(int task);
  void reset_bounds();
  void spread(int task);
  struct InTheWay {
    int task = -1;  // placed, and too early; -1: none
    Tick by = 0;
  };
  InTheWay broken_by(int task) const;
  bool make_way(InTheWay early);
  Tick least_ready(int task) const;
  Tick ready(int task) const;

  const Problem& problem_;
  const Bounds bounds_;
  const Timetable empty_;
  std::vector<std::vector<int>> in_, out_;  // lags by task
  std::vector<Tick> least_length_;
  std::vector<Tick> due_;  // of its own and of what follows it
  std::vector<int> weight_;

  Timetable timetable_;
  std::vector<std::optional<Placed>> placed_;
  std::vector<Tick> floor_, earliest_, latest_;
  std::vector<int> latest_by_;  // the placed task that bounds `latest_`; -1: none
  std::vector<int> queue_;
  int left_ = 0;
  int failed_ = -1;
  std::int64_t placings_ = 0;
};

}  // namespace squeezeout::schedule
