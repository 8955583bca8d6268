#pragma once
// The planner: from a problem to the best schedule that a budget allows, with what is proven about it.
//   Shape    anytime: calls on_better whenever it knows a better one; reproducible by seed and work, when `stop` does not cut in
//   Units    work is counted, not timed: the elementary steps of both searchers, scaled so that a unit is very roughly a
//            microsecond of one core; no clock in here
//   Refuses  nothing: an infeasible problem is an answer, with its proof

#include <functional>

#include "common/schedule/lags.h"
#include "common/schedule/problem.h"

namespace squeezeout::schedule {

struct Progress {
  std::int64_t work = 0;
  std::int64_t tried = 0;  // schedules generated, and conflicts learned from
  std::optional<Cost> best;
  Cost lower_bound;
};

struct Budget {
  std::uint64_t seed = 1;
  std::int64_t work = 1'000'000;
  std::function<bool()> stop;                      // asked every few milliseconds; empty: never
  std::function<void(const Progress&)> progress;   // told every few milliseconds
  std::function<void(const Schedule&)> on_better;  // each better schedule, when it is found
};

struct Outcome {
  enum class Status {
    optimal,     // best->cost is proven
    feasible,    // best is the best found
    infeasible,  // proven: none exists
    unknown      // none found, none excluded
  } status = Status::unknown;
  std::optional<Schedule> best;
  Cost lower_bound;               // no schedule costs less
  std::optional<Cycle> cycle;     // infeasible by its lags alone
  std::optional<NoRoom> no_room;  // infeasible: this task is left no room
  std::int64_t work = 0;
};

[[nodiscard]] Outcome solve(const Problem& problem, const Budget& budget);

}  // namespace squeezeout::schedule
