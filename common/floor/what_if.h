#pragma once
// What if the shop had more: the demand on record and the plan ahead, placed again with a change, and the hours of waiting for
// gear that it would have saved.
//   Shape    pure and deterministic. Demand: every glue-up that stands in the span, but the cancelled (a spoiled one used its
//            gear, too), in the order in which they were asked for, each with its own builder, glue and lengths as on record,
//            each from when it was wanted and after the step before it, on a floor with nothing on it but the outages. Each is
//            placed at its earliest: so the replay without the change is the yardstick, and the model's own error cancels.
//            What stands in the span but has no place in the yardstick is left out.
//   Waiting  of one glue-up: its start less its start in a replay with unlimited gear and the hours as they are, nights
//            included. A step counts it all, also what the steps before it waited. Longer hours may start it before even that:
//            then it is negative, and so can the sum be.
//   Limits   - what was asked for was asked by people who saw what was free: who gave up, or chose Friday since Thursday was
//              full, is not in it, so savings come out too small rather than too large
//            - a builder with hours of his own keeps them when the shop's change
//            - more gear can make a glue-up start LATER, and even the sum larger (Graham, SIAM J. Applied Math. 17 (1969)): one
//              that comes sooner takes a builder, a piece of another kind, or a gap that one asked for later had. It never does
//              where all wait for pieces of one kind, one piece each, first come first served, with nothing else in common
//              (Kiefer, Wolfowitz, Trans. AMS 78 (1955)). `later` counts them.

#include <functional>
#include <map>
#include <variant>
#include <vector>

#include "common/floor/state.h"

namespace squeezeout {

struct MoreGear {
  GearKindId kind;
  int more = 1;  // negative: fewer
  friend bool operator==(const MoreGear&, const MoreGear&) = default;
};
struct
    LongerHours {  // the shop opens so much earlier and closes so much later, each day on which it is open
  Minutes earlier{}, later{};
  friend bool operator==(const LongerHours&, const LongerHours&) = default;
};
struct OpenOn {     // this weekday, with the hours of the weekday that is open longest
  int weekday = 6;  // 0 = Sunday
  friend bool operator==(const OpenOn&, const OpenOn&) = default;
};
struct BuilderAway {  // nothing of his is attended then
  BuilderId builder;
  Span away;
  friend bool operator==(const BuilderAway&, const BuilderAway&) = default;
};
using Hypothesis = std::variant<MoreGear, LongerHours, OpenOn, BuilderAway>;

struct WhatIf {
  Hypothesis change;
  Seconds waited{}, would_wait{};  // sums over the glue-ups, without the change and with it
  int glue_ups = 0;                // that were replayed
  int sooner = 0, later = 0;       // of them
  int no_place = 0;  // of them: with the change there is none within kHorizon; in neither sum
  Seconds saved() const { return waited - would_wait; }
  friend bool operator==(const WhatIf&, const WhatIf&) = default;
};

inline constexpr Seconds kLookBack = std::chrono::hours{24 * 28},
                         kLookAhead = std::chrono::hours{24 * 14};
inline constexpr int kLittleDemand = 10;  // fewer glue-ups than this say little
// The span of the demand: from kLookBack ago, but not before the record is whole (a mirror's: Replica::since()), to kLookAhead.
[[nodiscard]] Span demand_span(Instant now, Instant whole_since);

// The yardstick: where each starts when the demand is placed again without a change. Those with no place are not in it.
[[nodiscard]] std::map<GlueUpId, Instant> replayed(const Floor& floor, Span demand);

// One more of each kind, an hour earlier, an hour later, each closed weekday.
[[nodiscard]] std::vector<Hypothesis> usual_hypotheses(const Floor& floor);
// Ranked: those that leave none without a place first, then by hours saved; in the order of the question where equal. `stop` is
// asked before each replay: when it says so, the answers are those to the changes that were replayed by then.
[[nodiscard]] std::vector<WhatIf> what_if(const Floor& floor, Span demand,
                                          const std::vector<Hypothesis>& changes,
                                          const std::function<bool()>& stop = {});

}  // namespace squeezeout
