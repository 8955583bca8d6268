#pragma once
// One instance, solved against a clock by one searcher or by several side by side, each with a seed of its own; they exchange
// nothing, and all stop when one has a proof.
//   Units    seconds since the start of the race, by the clock named: wall, or CPU time of the thread (for machines that do
//            other work meanwhile)

#include <string>
#include <vector>

#include "common/schedule/solve.h"

namespace squeezeout::schedule::testing {

enum class RaceClock { wall, cpu };

struct Race {
  double seconds = 1;  // deadline
  RaceClock clock = RaceClock::wall;
  int threads = 1;
  std::uint64_t seed = 1;
  // With an always open calendar and a floor's horizon: the same schedules, but generation is GeneralSearch, as for floors.
  bool as_floor = false;
};

struct Finish {
  Outcome outcome;  // the best of all; proven when one has proven it
  double first_seconds = 0, best_seconds = 0, seconds = 0;
  std::vector<std::string>
      faults;  // of every schedule that any searcher told, by the checker; and where answers contradict
};

[[nodiscard]] Finish race(Problem problem, const Race& race);

}  // namespace squeezeout::schedule::testing
