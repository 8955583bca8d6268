#pragma once
// The solvent sheet: what goes into the shop's air on one day, and what that comes to against the limits.
//   Shape    a day is local midnight to local midnight. Glue-ups count that were spread on it, whatever became of them, and
//            those that are reserved to be; each evaporates whole (AdhesiveSheet::solvent), in the shop's room
//   Limits   local codes and the safety data sheet decide; see trade/exposure.h. Only what runs through squeezeout is in it:
//            finishing, cleaning and wiping are not
//   Source   trade/SOURCES.md#exposure_limits, #mass_from_ppm, #exposure_twa, #exposure_mixture, #dilution

#include <vector>

#include "common/floor/state.h"
#include "common/trade/exposure.h"

namespace squeezeout {

struct SolventLine {
  GlueUpId glue_up;
  Instant spread{};  // fact, or plan
  double grams = 0;
  const SolventFacts* solvent = nullptr;  // null: not one that we know; it is NOT in the sums
  friend bool operator==(const SolventLine&, const SolventLine&) = default;
};
struct SolventSheet {
  Span span;                       // the day
  std::vector<SolventLine> lines;  // by when they are spread, ties by id
  // Refused: the shop does not say how large its room is or how it is aired, or one use is no bench work.
  Result<DayOfSolvent, OutOfRange> sums;
};
// CHECKs that a shop is loaded.
[[nodiscard]] SolventSheet solvent_sheet(const Floor& floor, Date date);

}  // namespace squeezeout
