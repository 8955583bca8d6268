#pragma once
// Proposals: what should move, from when to when. Nothing moves until a person accepts (AdoptPlan); one press takes it back
// (UndoPlan). What has started never moves.
//   repair   after facts: only what lost its place and as few others as can be; fewest moved, then the least shift
//   replan   all that has not started: weighted lateness of builds, then disturbance, then makespan
//   Whole    whatever lost its place is in one of `shifts`, `no_place` and `put_off`
//   Proven   of a repair: all others stay as they are on record, those that move start at whole minutes, and no such plan moves
//            fewer, or as few by less. Of a replan: no plan of its problem (as_problem.h) costs less
//   Shape    pure: a mirror can ask it. A stop (budget.stop) is heard within a fraction of a second, and places for those that lost
//            theirs are looked for all the same, as far as that goes; the budget is kept to but for these

#include <optional>
#include <vector>

#include "common/floor/state.h"
#include "common/schedule/solve.h"

namespace squeezeout {

struct Shift {
  GlueUpId glue_up;
  std::optional<Instant> from;  // none: it had lost its place
  PhaseTimes to;
  SheetId sheet;  // as before, or another that its recipe allows
  friend bool operator==(const Shift&, const Shift&) = default;
};

struct Proposal {
  std::vector<Shift> shifts;       // least harm first
  std::vector<GlueUpId> no_place;  // nothing within the horizon, or nothing was found
  std::vector<GlueUpId>
      put_off;  // not looked at: one plan moves kMaxMoves, those that stood first; ask again
  schedule::Cost before, after,
      lower_bound;         // in minutes; `before` counts who has no place as late from now on
  bool optimal = false;    // proven
  bool cancelled = false;  // budget.stop cut in; what it says holds all the same
};

[[nodiscard]] Proposal repair(const Floor& floor, Instant now, const schedule::Budget& budget);
[[nodiscard]] Proposal replan(const Floor& floor, Instant now, const schedule::Budget& budget);

// Builds that will not be ready when they are due, as the plan and the weather stand: steps that have no place yet are placed at
// their earliest; one that has none makes it ready at the horizon. Days ahead.
struct AtRisk {
  BuildId build;
  Instant due{}, ready{};
  GlueUpId last;  // the glue-up that makes it late; 0: a step that is not reserved yet
  friend bool operator==(const AtRisk&, const AtRisk&) = default;
};
[[nodiscard]] std::vector<AtRisk> builds_at_risk(const Floor& floor, Instant now);

}  // namespace squeezeout
