#pragma once
// Report: how far the planner's work in the background is, and what it found. Data, handed over whole.

#include <cstdint>
#include <optional>
#include <vector>

#include "common/floor/replan.h"
#include "common/floor/what_if.h"

namespace squeezeout::plan_ahead {

enum class Task {
  repair,   // what lost its place, and as few others as can be
  replan,   // all that has not started
  what_if,  // what more gear or longer hours would save
};

struct Report {
  Task task = Task::repair;
  enum class State {
    idle,     // nothing was asked, or it was put away
    running,  // `progress`, or `steps`, say how far
    done,
    stopped,      // by a person: what was found until then
    out_of_time,  // by kLongest: what was found until then
  } state = State::idle;
  std::uint64_t revision = 0;        // of the floor that it looked at
  Instant asked_at{};                // the shop's time of that floor
  schedule::Progress progress;       // of repair and replan
  std::int64_t work_most = 0;        // they end when progress.work gets there
  int steps = 0, steps_most = 0;     // of what_if: replays
  std::optional<Proposal> proposal;  // of repair and replan, when they have ended
  std::vector<WhatIf> what_if;       // of what_if, when it has ended, ranked
  Span demand;                       // of what_if: over which span
};

inline constexpr Seconds kLongest{60};
inline const Report kNothing{};

}  // namespace squeezeout::plan_ahead
