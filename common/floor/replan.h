#pragma once
// Proposals: what should move, from when to when. Nothing moves until a person accepts (AdoptPlan); one press takes it back
// (UndoPlan). What has started never moves.
//   repair   after facts: only what lost its place and as few others as can be; fewest moved, then the least shift
//   replan   all that has not started: weighted lateness of builds, then disturbance, then makespan
//   Whole    whatever lost its place is in `shifts` or in `no_place`, and never in both
//   Shape    pure: a mirror can ask it; runs until the budget ends, cancellable (budget.stop), with progress

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
