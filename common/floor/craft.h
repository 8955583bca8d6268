#pragma once
// The craft on the floor: what a recipe asks of the slot finder for one builder, one build and one bottle, in the weather that
// is known. Between the floor's records and craft/.

#include <memory>
#include <string>

#include "common/floor/refusal.h"
#include "common/floor/state.h"

namespace squeezeout {

struct CraftWanted {
  const Recipe& recipe;
  const AdhesiveSheet* sheet = nullptr;  // null: without glue
  BuilderId builder;
  BuildId build;
  LotId lot;
  std::string reason;  // why the glue although it does not suit
  // Whether the reason speaks for a glue that skins first as well: as it was planned; none: when it does so at the hour asked.
  std::optional<SlotQuery::Open> open_time{};
  std::shared_ptr<Climate> climate{};  // as climate_of() says; null: made for this query
};

// The query with lengths, needs and curing; hours, earlier steps and what to ignore are the caller's.
//   Refuses  NotPossible: blocked (below the floor at any hour, stale bottle in a structural joint), or unfit without a reason
[[nodiscard]] Result<SlotQuery, Refusal> craft_query(const Floor& floor, const CraftWanted& wanted,
                                                     Instant after, Instant now);

}  // namespace squeezeout
