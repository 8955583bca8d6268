#pragma once
// Commands: what a bench, the steward or a timer asks of the floor.
//   Requests ask and may be refused (reserve, move, start, stock). Facts happened and are taken, with the time at which they
//   happened (clamps on, clamps off, spoiled, broken, climate): a plan that a fact breaks is mended, not the fact.
//   `knowingly` is the builder's override of a time or an hour: one press, and it is on record.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "common/base/ids.h"
#include "common/craft/lot.h"
#include "common/floor/shop.h"
#include "common/time/span.h"
#include "common/trade/weather.h"

namespace squeezeout {

enum class Override { no, knowingly };

struct LoadShop {
  Shop shop;
};  // keys decide; ids tie the things of this shop to each other only
struct Reserve {
  RecipeId recipe;
  BuildId build;  // 0: none
  int step = 0;   // of the build; must be the recipe's place in the chain
  BuilderId builder;
  BenchId bench;
  SheetId sheet;                 // 0: the recipe's usual glue
  Instant after{};               // wanted from here on (reports count the wait from it)
  std::optional<Instant> start;  // exactly then, or refused; none: the earliest after `after`
  Override hours = Override::no;
  LotId lot;           // the bottle; 0: not said
  std::string reason;  // why this glue although it does not suit: on record with the glue-up
  PotId pot;           // to be spread from this mix, so clamps on before it sets; 0: its own
};
struct Move {
  GlueUpId glue_up;
  Instant start{};
  Override hours = Override::no;
};  // also gives a displaced one its new time
struct Cancel {
  GlueUpId glue_up;
};
struct Start {
  GlueUpId glue_up;
  Override over = Override::no;
  PotId pot;  // spread from this mix; 0: its own
};            // glue is wet now
struct ClampsOn {
  GlueUpId glue_up;
  Instant at{};
};
struct ClampsOff {
  GlueUpId glue_up;
  Instant at{};
  Override over = Override::no;
};  // at: "really off at"
struct Scraped {
  GlueUpId glue_up;
  Instant at{};
  Override over = Override::no;
};  // the work after waiting is done
struct Late {
  GlueUpId glue_up;
  Seconds by{};
};  // of a running one: clamps stay on that much longer
struct Spoiled {
  GlueUpId glue_up;
  Instant at{};
  std::string note;
};
struct Undo {
  GlueUpId glue_up;
};  // takes back the last press on this glue-up
struct GearBroken {
  GearKindId kind;
  int count = 0;
  std::string reason;
};
struct GearMended {
  GearKindId kind;
  int count = 0;
};
struct SetStock {
  GearKindId kind;
  int count = 0;
};
struct ClimateReading {
  Celsius air;
  Percent humidity;
};  // read now
struct ReadClimate {
  std::vector<AirPoint> readings;
};  // read earlier: a logger's file; those within kFactBack count, instants rising
struct SetForecast {
  std::vector<AirPoint> points;
};  // replaces the forecast; none: there is none. Instants rising, from now to kForecastAhead
struct PutLot {
  Lot lot;
};  // id 0: a new bottle; else what is said of that one
struct MixPot {
  SheetId sheet;
  LotId lot;
  BenchId bench;
};  // mixed now
// One of a proposal's shifts: to start at `start`, with that glue.
struct Adopted {
  GlueUpId glue_up;
  Instant start{};
  SheetId sheet;  // 0: as before
  friend bool operator==(const Adopted&, const Adopted&) = default;
};
struct AdoptPlan {
  std::vector<Adopted> moves;
};  // a proposal (replan.h), accepted by a person: all of it or nothing
inline constexpr std::size_t kMaxMoves = 500;
struct UndoPlan {
  PlanId plan;
};               // brings all that it moved back
struct Tick {};  // a timer: brings the floor up to its instant

using Body = std::variant<LoadShop, Reserve, Move, Cancel, Start, ClampsOn, ClampsOff, Scraped,
                          Late, Spoiled, Undo, GearBroken, GearMended, SetStock, ClimateReading,
                          Tick, ReadClimate, SetForecast, PutLot, MixPot, AdoptPlan, UndoPlan>;

// at: the server's clock, never earlier than the command before; time is data.
struct Stamped {
  CommandId id;
  DeviceId by;
  Instant at{};
  Body body;
};

}  // namespace squeezeout
