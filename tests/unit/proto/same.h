#pragma once
// Equality of what goes through the codec, for the records that have none of their own. Each is taken apart by name, so a field
// that is added later breaks the build here until the round trip knows it.

#include <tuple>

#include "proto/codec.h"

namespace squeezeout {

inline auto parts(const LoadShop& x) {
  const auto& [shop] = x;
  return std::tie(shop);
}
inline auto parts(const Reserve& x) {
  const auto& [recipe, build, step, builder, bench, sheet, after, start, hours, lot, reason, pot] =
      x;
  return std::tie(recipe, build, step, builder, bench, sheet, after, start, hours, lot, reason,
                  pot);
}
inline auto parts(const Move& x) {
  const auto& [glue_up, start, hours] = x;
  return std::tie(glue_up, start, hours);
}
inline auto parts(const Cancel& x) {
  const auto& [glue_up] = x;
  return std::tie(glue_up);
}
inline auto parts(const Start& x) {
  const auto& [glue_up, over, pot] = x;
  return std::tie(glue_up, over, pot);
}
inline auto parts(const ClampsOn& x) {
  const auto& [glue_up, at] = x;
  return std::tie(glue_up, at);
}
inline auto parts(const ClampsOff& x) {
  const auto& [glue_up, at, over] = x;
  return std::tie(glue_up, at, over);
}
inline auto parts(const Scraped& x) {
  const auto& [glue_up, at, over] = x;
  return std::tie(glue_up, at, over);
}
inline auto parts(const Late& x) {
  const auto& [glue_up, by] = x;
  return std::tie(glue_up, by);
}
inline auto parts(const Spoiled& x) {
  const auto& [glue_up, at, note] = x;
  return std::tie(glue_up, at, note);
}
inline auto parts(const Undo& x) {
  const auto& [glue_up] = x;
  return std::tie(glue_up);
}
inline auto parts(const GearBroken& x) {
  const auto& [kind, count, reason] = x;
  return std::tie(kind, count, reason);
}
inline auto parts(const GearMended& x) {
  const auto& [kind, count] = x;
  return std::tie(kind, count);
}
inline auto parts(const SetStock& x) {
  const auto& [kind, count] = x;
  return std::tie(kind, count);
}
inline auto parts(const ClimateReading& x) {
  const auto& [air, humidity] = x;
  return std::tie(air, humidity);
}
inline auto parts(const ReadClimate& x) {
  const auto& [readings] = x;
  return std::tie(readings);
}
inline auto parts(const SetForecast& x) {
  const auto& [points] = x;
  return std::tie(points);
}
inline auto parts(const PutLot& x) {
  const auto& [lot] = x;
  return std::tie(lot);
}
inline auto parts(const MixPot& x) {
  const auto& [sheet, lot, bench] = x;
  return std::tie(sheet, lot, bench);
}
inline auto parts(const AdoptPlan& x) {
  const auto& [moves] = x;
  return std::tie(moves);
}
inline auto parts(const UndoPlan& x) {
  const auto& [plan] = x;
  return std::tie(plan);
}
inline auto parts(const Tick&) { return std::tie(); }

inline auto parts(const ShopLoaded& x) {
  const auto& [shop] = x;
  return std::tie(shop);
}
inline auto parts(const GlueUpChanged& x) {
  const auto& [what, after] = x;
  return std::tie(what, after);
}
inline auto parts(const OutageChanged& x) {
  const auto& [after] = x;
  return std::tie(after);
}
inline auto parts(const StockSet& x) {
  const auto& [kind, count, at] = x;
  return std::tie(kind, count, at);
}
inline auto parts(const ClimateRead& x) {
  const auto& [at, air, humidity] = x;
  return std::tie(at, air, humidity);
}

inline auto parts(const ForecastSet& x) {
  const auto& [at, points] = x;
  return std::tie(at, points);
}
inline auto parts(const LotChanged& x) {
  const auto& [after] = x;
  return std::tie(after);
}
inline auto parts(const PotMixed& x) {
  const auto& [pot] = x;
  return std::tie(pot);
}

inline auto parts(const PlanChanged& x) {
  const auto& [after] = x;
  return std::tie(after);
}

inline auto parts(const NoSuch& x) {
  const auto& [what, id] = x;
  return std::tie(what, id);
}
inline auto parts(const DoesNotFit& x) {
  const auto& [why, next] = x;
  return std::tie(why, next);
}
inline auto parts(const NotPossible& x) {
  const auto& [why] = x;
  return std::tie(why);
}
inline auto parts(const WrongProgress& x) {
  const auto& [glue_up, is] = x;
  return std::tie(glue_up, is);
}
inline auto parts(const TooEarly& x) {
  const auto& [glue_up, from] = x;
  return std::tie(glue_up, from);
}
inline auto parts(const BadTime& x) {
  const auto& [given, least, most] = x;
  return std::tie(given, least, most);
}
inline auto parts(const BadCount& x) {
  const auto& [given, least, most] = x;
  return std::tie(given, least, most);
}
inline auto parts(const AlreadyReserved& x) {
  const auto& [glue_up] = x;
  return std::tie(glue_up);
}
inline auto parts(const StepMissing& x) {
  const auto& [build, step] = x;
  return std::tie(build, step);
}
inline auto parts(const BelowClaims& x) {
  const auto& [kind, wanted, clashes] = x;
  return std::tie(kind, wanted, clashes);
}
inline auto parts(const NothingToUndo& x) {
  const auto& [glue_up] = x;
  return std::tie(glue_up);
}
inline auto parts(const Mistake& x) {
  const auto& [where, what, mend] = x;
  return std::tie(where, what, mend);
}
inline auto parts(const BadShop& x) {
  const auto& [mistakes] = x;
  return std::tie(mistakes);
}
inline auto parts(const TooMany& x) {
  const auto& [what, most] = x;
  return std::tie(what, most);
}

inline auto parts(const PotSpent& x) {
  const auto& [pot, until] = x;
  return std::tie(pot, until);
}
inline auto parts(const BadAir& x) {
  const auto& [what, at, given, least, most, from, to] = x;
  return std::tie(what, at, given, least, most, from, to);
}

inline auto parts(const PlanStale& x) {
  const auto& [glue_up, why] = x;
  return std::tie(glue_up, why);
}

inline auto parts(const Hello& x) {
  const auto& [protocol, device, store, revision] = x;
  return std::tie(protocol, device, store, revision);
}
inline auto parts(const Asked& x) {
  const auto& [id, body] = x;
  return std::tie(id, body);
}
inline auto parts(const Welcome& x) {
  const auto& [protocol, store, revision, server_time_ms, clock_speed, server_version] = x;
  return std::tie(protocol, store, revision, server_time_ms, clock_speed, server_version);
}
inline auto parts(const Delta& x) {
  const auto& [revision, at, command, events] = x;
  return std::tie(revision, at, command, events);
}
inline auto parts(const Answer& x) {
  const auto& [command, revision, refusal, glue_up] = x;
  return std::tie(command, revision, refusal, glue_up);
}
inline auto parts(const Beat& x) {
  const auto& [revision, server_time_ms] = x;
  return std::tie(revision, server_time_ms);
}
inline auto parts(const Error& x) {
  const auto& [code, text, command] = x;
  return std::tie(code, text, command);
}

template <class T>
requires requires(const T& x) { parts(x); }
bool operator==(const T& a, const T& b) { return parts(a) == parts(b); }

// A floor's records; what apply() keeps from them is looked at by the test of floors.
inline bool operator==(const Snapshot& a, const Snapshot& b) {
  const auto records = [](const Floor& f) {
    return std::tie(f.shop, f.glue_ups, f.before, f.outages, f.stock, f.climate, f.readings,
                    f.forecast, f.lots, f.pots, f.assembly, f.last_glue_up, f.last_outage,
                    f.last_lot, f.last_pot, f.plans, f.last_plan);
  };
  return a.revision == b.revision && a.since == b.since && records(a.floor) == records(b.floor);
}

}  // namespace squeezeout
