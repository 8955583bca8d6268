#pragma once
// The floor: the whole state of the shop. It changes by apply() alone.

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "common/floor/event.h"
#include "common/floor/glue_up.h"
#include "common/floor/shop.h"
#include "common/gear/ledger.h"
#include "common/plan/slot.h"
#include "common/time/hours.h"

namespace squeezeout {

struct Floor {
  std::optional<Shop> shop;
  std::map<GlueUpId, GlueUp> glue_ups;  // all, also those that are over
  std::map<GlueUpId, GlueUp> before;    // the record before the last press: what undo brings back
  std::map<OutageId, Outage> outages;   // those that are on, and those that ended
  std::map<GearKindId, StockSet>
      stock;  // pieces owned of each kind, and since when: as counted last, in the shop file or at a bench
  ClimateRead climate{};  // the latest reading
  std::vector<AirPoint>
      readings;  // of the last kReadingsKept, instants rising; the latest is `climate`
  std::vector<AirPoint> forecast;  // as last set
  std::map<LotId, Lot> lots;
  std::map<PotId, Pot> pots;           // of kPotsKept
  std::map<PlanId, PlanRecord> plans;  // the last kPlansKept
  // How long spreading to the last clamp took: recipe and builder -> glue-up -> time; the last kSamplesKept.
  std::map<std::pair<RecipeId, BuilderId>, std::map<GlueUpId, Seconds>> assembly;
  std::uint32_t last_glue_up = 0, last_outage = 0, last_lot = 0, last_pot = 0, last_plan = 0;

  // Kept by apply() from the records above.
  GearLedger gear;  // stock and claims
  BuilderLedger builders;
  std::size_t live_count = 0;  // of glue-ups that are not over
  std::map<BuildId, std::map<int, GlueUpId>>
      chain;                       // build -> step -> its glue-up that is not cancelled or spoiled
  std::set<GlueUpId> displaced;    // those that lost their place and have no new one
  std::map<GlueUpId, Span> fumes;  // when solvent hangs, or will hang, in the air
  std::multimap<Instant, GlueUpId>
      due;  // when a live one next needs a look without a press: see settle()
  std::optional<Zone> zone;

  // Look-ups. The pointer is null when there is no such thing.
  const GlueUp* glue_up(GlueUpId id) const;
  const GearKind* kind(GearKindId id) const;
  const Recipe* recipe(RecipeId id) const;
  const AdhesiveSheet* sheet(SheetId id) const;
  const Builder* builder(BuilderId id) const;
  const Bench* bench(BenchId id) const;
  const Build* build(BuildId id) const;
  const Lot* lot(LotId id) const;
  const Pot* pot(PotId id) const;
  // The glue-up of that step that is not cancelled or spoiled.
  const GlueUp* step_of(BuildId build, int step) const;

  Hours hours_for(BuilderId builder) const;  // CHECKs that a shop is loaded
};

inline constexpr std::size_t kMaxLiveGlueUps = 20'000;
inline constexpr Seconds kStartGrace =
    Minutes{15};  // reserved and not started this long after its time: displaced
inline constexpr Seconds kOverrunStep =
    Minutes{5};  // clamps still on past the plan: the claim grows by at least this
inline constexpr Seconds kOpenStep = Minutes{
    1};  // glue still wet past the plan: the open phase grows by this, each time by one more
inline constexpr Seconds kAskSlack =
    Minutes{2};  // a start asked for may lie this far back: people read before they press
inline constexpr std::size_t kMaxBefore =
    2'048;  // at least so many of the last presses can be undone
inline constexpr Seconds kUndoWindow = Minutes{60};
inline constexpr Seconds kReadingsKept = std::chrono::hours{48};
inline constexpr std::size_t kMaxAirPoints = 2'000;  // of readings, of a forecast, and of a command
inline constexpr Seconds kForecastAhead = std::chrono::hours{24 * 14};
inline constexpr std::size_t kSamplesKept = 32;
inline constexpr Seconds kPotsKept = std::chrono::hours{48};
inline constexpr std::size_t kPlansKept = 32;
inline constexpr std::size_t kMaxLots = 2'000, kMaxPots = 500;
inline constexpr Seconds kFactBack = std::chrono::hours{24 * 7};  // a fact may be told this late

}  // namespace squeezeout
