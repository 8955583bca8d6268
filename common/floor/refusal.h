#pragma once
// Refusals: the floor's honest no, as facts. Screens make the words; nobody parses them.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "common/craft/fitness.h"
#include "common/floor/glue_up.h"
#include "common/plan/slot.h"

namespace squeezeout {

enum class Thing {
  shop,
  bench,
  builder,
  gear_kind,
  sheet,
  recipe,
  build,
  glue_up,
  outage,
  lot,
  pot,
  air_point,
  plan
};
inline constexpr int kThings = 13;

struct NoSuch {
  Thing what = Thing::shop;
  std::uint32_t id = 0;
};
struct DoesNotFit {  // this start cannot be had
  std::vector<Hindrance> why;
  std::optional<Slot> next;  // the earliest that can
};
struct NotPossible {
  Unfit why;
};  // no start helps: too cold, glue too quick, glue does not suit, bottle stale
struct WrongProgress {
  GlueUpId glue_up;
  Progress is = Progress::reserved;
};  // e.g. clamps off before clamps on
struct TooEarly {
  GlueUpId glue_up;
  Instant from{};
};  // can be overridden knowingly
struct BadTime {
  Instant given{}, least{}, most{};
};  // a fact's time outside what can be
struct BadCount {
  int given = 0, least = 0, most = 0;
};
struct AlreadyReserved {
  GlueUpId glue_up;
};  // this step of the build has its glue-up
struct StepMissing {
  BuildId build;
  int step = 0;
};  // an earlier step of the chain is not reserved yet
struct BelowClaims {
  GearKindId kind;
  int wanted = 0;
  std::vector<HeldBy> clashes;
};  // stock cut below what is promised
struct PotSpent {
  PotId pot;
  Instant until{};
};  // it sets in the pot before the clamps would be on
struct BadAir {
  enum class What { celsius, humidity, instant } what = What::celsius;
  Instant at{};                           // of the point
  double given = 0, least = 0, most = 0;  // of celsius and humidity
  Instant from{}, to{};                   // what an instant must lie between
};                                        // a reading, or a point of a forecast, that cannot be
struct PlanStale {  // the floor is no longer what the plan was made from; nothing has moved
  GlueUpId glue_up;
  std::vector<Hindrance> why;  // what stands in its way; none: it has had a press since
};
struct NothingToUndo {
  GlueUpId glue_up;
};
struct Mistake {
  std::string where, what, mend;
};
struct BadShop {
  std::vector<Mistake> mistakes;
};  // or a shop that drops what is in use
struct TooMany {
  Thing what = Thing::glue_up;
  int most = 0;
};

using Refusal = std::variant<NoSuch, DoesNotFit, NotPossible, WrongProgress, TooEarly, BadTime,
                             BadCount, AlreadyReserved, StepMissing, BelowClaims, NothingToUndo,
                             BadShop, TooMany, PotSpent, BadAir, PlanStale>;

}  // namespace squeezeout
