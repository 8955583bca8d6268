#pragma once
// Mending the plan around a fact: the fact stands, and what was only planned gives way.
//   Shape   events in the order in which they are applied: what gives way first, then the changed glue-up itself
//   Rules   only reserved glue-ups give way, the latest start first; what has started never moves. A build's later steps give
//           way when the earlier one is no longer ready in time. Each that gives way becomes a snag, never silently replanned.

#include <optional>
#include <vector>

#include "common/floor/event.h"
#include "common/floor/state.h"

namespace squeezeout {

// The change of one glue-up and what follows from it. nullopt: even with all reserved ones out of the way it does not fit
// (possible only when `after` takes gear that it does not hold now: an undo, an early start).
[[nodiscard]] std::optional<std::vector<Event>> change(const Floor& floor, Change what,
                                                       GlueUp after, Snag snag_of_others);
// Room for an outage that begins now: what gives way, then the outage. nullopt: running glue-ups hold too many.
[[nodiscard]] std::optional<std::vector<Event>> take_out(const Floor& floor, const Outage& outage);

// Works out release and ready again: the first release that can be (hours open, builder free) once the least dwell is over, and
// not before `from`. Lengths come from g.demand.
void plan_release(const Floor& floor, GlueUp& g, Instant from = Instant::min());
// The clamps are still on although the plan ended at or before `at`: the claim grows to a release that can be, each time by one
// kOverrunStep more, and never beyond kMaxClaim.
void hold_on(const Floor& floor, GlueUp& g, Instant at);

}  // namespace squeezeout
