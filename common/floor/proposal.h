#pragma once
// From wished starts to a proposal that the floor would take as it is now.

#include "common/floor/as_problem.h"
#include "common/floor/replan.h"
#include "common/floor/trial.h"

namespace squeezeout {

// Not started: reserved or displaced, by id.
[[nodiscard]] std::vector<GlueUpId> not_started(const Floor& floor);

// Moves that AdoptPlan takes, and the records that it would make of them.
struct Adoptable {
  std::vector<Adopted> moves;
  std::vector<GlueUp> records;
  bool as_wished = true;  // no start had to be later than it was wished
};
// Each at its start, or at the earliest moment after it that the floor has. nullopt: not all of them find a place, or somebody
// who stays would have to give way.
[[nodiscard]] std::optional<Adoptable> adoptable(const Floor& floor, std::vector<Adopted> wished,
                                                 Instant now);

// What the plan costs with these records in place of what is on the floor, in minutes from `now`. Who has no place is late from
// now on, until the horizon.
[[nodiscard]] schedule::Cost cost_with(const Floor& floor, const std::vector<GlueUp>& records,
                                       Instant now);

// Shifts and costs; what is proven is the caller's to say.
[[nodiscard]] Proposal proposal_of(const Floor& floor, const Adoptable& plan,
                                   std::vector<GlueUpId> no_place, Instant now);

// Of what lost its place: those that find none within the horizon, were all the others out of the way.
[[nodiscard]] std::vector<GlueUpId> without_place(const Floor& floor, Instant now);

}  // namespace squeezeout
