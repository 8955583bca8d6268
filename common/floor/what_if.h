#pragma once
// What if the shop had more: the recorded demand and the plan ahead, placed again with a change, and the hours of waiting for gear
// that it would have saved.
//   Shape    pure; demand is every glue-up reserved in the window, in the order in which it was asked for, each placed at its
//            earliest; the same replay without the change is the yardstick, so the model's own error cancels

#include <functional>
#include <string>
#include <variant>
#include <vector>

#include "common/floor/state.h"

namespace squeezeout {

struct MoreGear {
  GearKindId kind;
  int more = 1;  // negative: fewer
};
struct LongerHours {  // attended hours of the shop, each open day
  Minutes earlier{}, later{};
};
struct OpenOn {     // this weekday, with the hours of the longest open one
  int weekday = 6;  // 0 = Sunday
};
struct BuilderAway {
  BuilderId builder;
  Span away;
};
using Hypothesis = std::variant<MoreGear, LongerHours, OpenOn, BuilderAway>;

struct WhatIf {
  Hypothesis change;
  Seconds waited{},
      would_wait{};  // sums over the demand: later than with unlimited gear and the hours as they are
  int glue_ups = 0;           // that were replayed
  int sooner = 0, later = 0;  // of them
  Seconds saved() const { return waited - would_wait; }
};

inline constexpr Seconds kLookBack = std::chrono::hours{24 * 28},
                         kLookAhead = std::chrono::hours{24 * 14};

// One more of each kind, an hour earlier, an hour later, each closed weekday.
[[nodiscard]] std::vector<Hypothesis> usual_hypotheses(const Floor& floor);
// Ranked by hours saved; the order of the question where equal. `stop` is asked between replays: what was done by then.
[[nodiscard]] std::vector<WhatIf> what_if(const Floor& floor, Instant now,
                                          const std::vector<Hypothesis>& changes,
                                          const std::function<bool()>& stop = {});

}  // namespace squeezeout
