#pragma once
// Random problems small enough for a judge that tries everything, with every feature of the model: calendars, least and most
// lags from start and from ready, substitution, modes, elastic parts, lengths by hour, waits, windows of starts, gear taken, due
// dates, announced starts. About a third cannot be done.
//   Shape    the same seed and sizes give the same problem on every machine; starts are never before 0

#include "common/schedule/problem.h"

namespace squeezeout::schedule::testing {

struct Sizes {
  int tasks = 4;
  int resources = 3;                    // at least 2
  int modes = 2, parts = 3, needs = 2;  // at most
  Tick horizon = 20;                    // about
};

[[nodiscard]] Problem random_problem(std::uint64_t seed, const Sizes& sizes);

}  // namespace squeezeout::schedule::testing
