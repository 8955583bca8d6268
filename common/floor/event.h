#pragma once
// Events: what became of the floor. They carry whole records with all results in them (lengths, instants, gear), so that
// replay runs no formula, no search and no zone rule.

#include <variant>
#include <vector>

#include "common/floor/glue_up.h"
#include "common/floor/shop.h"
#include "common/trade/weather.h"

namespace squeezeout {

enum class Change {
  reserved,
  moved,
  cancelled,
  started,
  clamps_on,
  clamps_off,
  scraped,
  late,
  spoiled,
  undone,
  overran,    // the plan's end passed and no press came: the claim was made longer
  displaced,  // a fact took its place away
  finished,   // its wait is over and nothing is left to be done on it
  weather,    // its lengths, or its place, follow the weather: see GlueUp::weather
  set_aside,  // a plan that is adopted, or taken back, moves it: it lets go of its place, and `replanned` follows at once
  replanned,  // its place by that plan, or as it was before
};
inline constexpr int kChanges = 16;

struct ShopLoaded {
  Shop
      shop;  // its counts say nothing of the ledger's stock: a StockSet does, for each kind that changes
};
struct GlueUpChanged {
  Change what = Change::reserved;
  GlueUp after;
};
struct OutageChanged {
  Outage after;  // its end in the past: mended, kept for the record
};
struct StockSet {
  GearKindId kind;
  int count = 0;
  Instant at{};  // the ledger's invariant holds with this stock from here on
};
struct ClimateRead {
  Instant at{};
  Celsius air;
  Percent humidity;
};
struct ForecastSet {
  Instant at{};
  std::vector<AirPoint> points;
};
struct LotChanged {
  Lot after;
};
struct PotMixed {
  Pot pot;
};
struct PlanChanged {
  PlanRecord after;
};

using Event = std::variant<ShopLoaded, GlueUpChanged, OutageChanged, StockSet, ClimateRead,
                           ForecastSet, LotChanged, PotMixed, PlanChanged>;

}  // namespace squeezeout
