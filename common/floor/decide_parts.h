#pragma once
// The parts of decide(), one file each, and what they share.
//   decide.cc         one glue-up: requests and facts
//   decide_things.cc  gear, air, bottles and pots
//   decide_plan.cc    proposals that are accepted, and taken back

#include "common/floor/ask.h"
#include "common/floor/decide.h"

namespace squeezeout {

using Decided = Result<std::vector<Event>, Refusal>;
[[nodiscard]] inline Unexpected<Refusal> no(Refusal r) { return Unexpected<Refusal>{std::move(r)}; }

[[nodiscard]] Decided answer_to(const Floor& floor, const GearBroken& c, Instant at);
[[nodiscard]] Decided answer_to(const Floor& floor, const GearMended& c, Instant at);
[[nodiscard]] Decided answer_to(const Floor& floor, const SetStock& c, Instant at);
[[nodiscard]] Decided answer_to(const Floor& floor, const ClimateReading& c, Instant at);
[[nodiscard]] Decided answer_to(const Floor& floor, const ReadClimate& c, Instant at);
[[nodiscard]] Decided answer_to(const Floor& floor, const SetForecast& c, Instant at);
[[nodiscard]] Decided answer_to(const Floor& floor, const PutLot& c, Instant at);
[[nodiscard]] Decided answer_to(const Floor& floor, const MixPot& c, Instant at);
// All moves or none. Those that move give up their places first; then each is tried at its start, in order of starts.
//   Refuses  PlanStale: a place is taken, or somebody else would have to give way
[[nodiscard]] Decided answer_to(const Floor& floor, const AdoptPlan& c, Instant at);
// All that it moved is as it was before.
//   Refuses  PlanStale: one of them has had a press since, or its old place is taken
[[nodiscard]] Decided answer_to(const Floor& floor, const UndoPlan& c, Instant at);

// The glue-up gets what was granted. A mix that no longer binds it is forgotten: a fresh one will be stirred.
void take(GlueUp& g, Quote quote);
// Who holds the gear that it claims.
[[nodiscard]] DoesNotFit taken_since(const Floor& floor, const GlueUp& g);

}  // namespace squeezeout
