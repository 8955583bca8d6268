#pragma once
// Events: what became of the floor. They carry whole records with all results in them (lengths, instants, gear), so that
// replay runs no formula, no search and no zone rule.

#include <variant>

#include "common/floor/glue_up.h"
#include "common/floor/shop.h"

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
};
inline constexpr int kChanges = 13;

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

using Event = std::variant<ShopLoaded, GlueUpChanged, OutageChanged, StockSet, ClimateRead>;

}  // namespace squeezeout
