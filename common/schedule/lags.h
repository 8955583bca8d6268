#pragma once
// Longest paths over lags: how early and how late each task can start, and the proof when it cannot be at all.
//   Shape    a start lag is exact; a ready lag counts with the shortest mode's least length from the earliest start
//            (lengths by hour only grow the bound: begin + at(begin) never falls)
//   Refuses  Cycle: tasks whose lags ask each to start after itself; the sum of its lags is positive
//   Source   Bellman-Ford; for calendars, next_open is monotone, so longest paths stay exact for least lags

#include <variant>

#include "common/schedule/problem.h"

namespace squeezeout::schedule {

struct Cycle {
  std::vector<Lag> lags;  // each `to` is the next `from`
};
// A task that cannot start within its bounds and the horizon: its own calendars, or what its lags ask of it, leave it no room.
struct NoRoom {
  int task = 0;
};
struct Bounds {
  std::vector<Tick> earliest,
      latest;  // of starts; latest as far as lags and `latest` of others bound it, else kFar
};

[[nodiscard]] std::variant<Bounds, Cycle, NoRoom> bounds_of(const Problem& problem);

}  // namespace squeezeout::schedule
