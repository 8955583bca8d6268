#pragma once
// The optimum of a very small problem by trying everything: each mode, each mix of pieces, each begin of each part.
//   Shape    what is left out: a task's placements that differ in nothing that constrains or costs are tried once; a branch ends
//            when some task has no placement left beside those placed, or when it cannot cost less than the best
//   Refuses  too_large: more than kMostNodes branches; nothing is known then. CHECK: a horizon beyond kMostHorizon, a start < 0

#include "common/schedule/problem.h"

namespace squeezeout::schedule::testing {

inline constexpr long kMostNodes = 2'000'000;
inline constexpr Tick kMostHorizon = 60;

struct Exhausted {
  enum class Status { optimal, infeasible, too_large } status = Status::infeasible;
  std::optional<Schedule> best;  // with optimal
  long nodes = 0;
};

[[nodiscard]] Exhausted try_everything(const Problem& problem);

}  // namespace squeezeout::schedule::testing
