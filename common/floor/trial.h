#pragma once
// A floor to try things on: what counts from `since` on (what holds gear then, what has no place, and the steps beside those),
// without the years of glue-ups that were over by then. What undo would bring back is left out, and the plans.
// Several glue-ups can change their places on it at once: first each lets go of its place, then each gets another. So places can
// be swapped, and gear is free before it is taken.

#include <optional>
#include <vector>

#include "common/floor/ask.h"

namespace squeezeout {

[[nodiscard]] Floor trial_of(const Floor& floor, Instant since);

class Trial {
 public:
  // `since`: nothing is placed that begins before; left out: `at`.
  Trial(const Floor& floor, Instant at) : Trial(floor, at, at) {}
  Trial(const Floor& floor, Instant at, Instant since)
      : floor_(trial_of(floor, since)), at_(at), climate_(climate_of(floor_, at)) {}

  const Floor& floor() const { return floor_; }
  const SharedClimate& climate() const { return climate_; }

  // It stands as displaced, and holds nothing; where it was stays on record.
  void set_aside(GlueUpId id);
  // The record with the place that it would have at that start, with that glue, of one that was set aside.
  //   Refuses  as Move does
  [[nodiscard]] Result<GlueUp, Refusal> at_start(const Adopted& move) const;
  // The record gets its place, when nobody has to give way for it.
  [[nodiscard]] std::optional<PlanStale> place(GlueUp g);
  // The record as it is, whatever becomes of others: what was set aside comes back.
  void put(GlueUp g);

  const std::vector<Event>& events() const { return events_; }  // of all but put()

 private:
  void take(Event e);

  Floor floor_;
  const Instant at_;
  const SharedClimate climate_;
  std::vector<Event> events_;
};

}  // namespace squeezeout
