// Gear, air, bottles and pots: what is told of things, not of a glue-up.
#include <algorithm>

#include "common/floor/decide_parts.h"
#include "common/floor/mend.h"
#include "common/floor/weather.h"

namespace squeezeout {
namespace {

// Points in order, each within what can be and within [from, to].
std::optional<Refusal> bad_air(const std::vector<AirPoint>& points, Instant from, Instant to) {
  using What = BadAir::What;
  for (const AirPoint& p : points) {
    if (!(p.air.value >= -40 && p.air.value <= 60))
      return BadAir{What::celsius, p.at, p.air.value, -40, 60};
    if (!(p.humidity.value >= 0 && p.humidity.value <= 100))
      return BadAir{What::humidity, p.at, p.humidity.value, 0, 100};
    if (p.at < from || p.at > to)
      return BadAir{.what = What::instant, .at = p.at, .from = from, .to = to};
    from = p.at + Seconds{1};
  }
  return std::nullopt;
}

}  // namespace

Decided answer_to(const Floor& floor, const GearBroken& c, Instant at) {
  const GearKind* kind = floor.kind(c.kind);
  if (!kind) return no(NoSuch{Thing::gear_kind, c.kind.value});
  int loose = floor.gear.stock(c.kind);  // not in a joint, not out of use already
  for (const HeldBy& h : floor.gear.holders(c.kind, {at, at + Seconds{1}})) {
    const GlueUp* g =
        h.holder.what == Holder::What::glue_up ? floor.glue_up(GlueUpId{h.holder.id}) : nullptr;
    if (!g || running(*g)) loose -= h.count;
  }
  if (c.count < 1 || c.count > loose) return no(BadCount{c.count, 1, loose});
  const Outage o{OutageId{floor.last_outage + 1}, c.kind, c.count, {at, at + kMaxClaim}, c.reason};
  auto events = take_out(floor, o);
  if (!events) return no(BadCount{c.count, 1, 0});
  return std::move(*events);
}

Decided answer_to(const Floor& floor, const GearMended& c, Instant at) {
  if (!floor.kind(c.kind)) return no(NoSuch{Thing::gear_kind, c.kind.value});
  int broken = 0;
  for (const auto& [id, o] : floor.outages) {
    if (o.kind == c.kind && o.span.end > at) broken += o.count;
  }
  if (c.count < 1 || c.count > broken) return no(BadCount{c.count, 1, broken});
  std::vector<Event> events;
  int left = c.count;
  for (const auto& [id, o] : floor.outages) {
    if (o.kind != c.kind || o.span.end <= at || left == 0) continue;
    Outage ended = o;
    ended.span.end = at;
    events.push_back(OutageChanged{ended});
    const int still = o.count - std::min(left, o.count);
    left -= o.count - still;
    if (still > 0) {
      const OutageId rest{floor.last_outage + 1};
      events.push_back(OutageChanged{{rest, o.kind, still, {at, at + kMaxClaim}, o.reason}});
    }
  }
  return events;
}

Decided answer_to(const Floor& floor, const SetStock& c, Instant at) {
  constexpr int kMost = 10'000;
  if (!floor.kind(c.kind)) return no(NoSuch{Thing::gear_kind, c.kind.value});
  if (c.count < 0 || c.count > kMost) return no(BadCount{c.count, 0, kMost});
  const Span from_now{at, kNever};
  if (floor.gear.peak(c.kind, from_now).level > c.count) {
    constexpr std::size_t kTold = 16;
    return no(BelowClaims{c.kind, c.count, floor.gear.holders(c.kind, from_now, kTold)});
  }
  return std::vector<Event>{StockSet{c.kind, c.count, at}};
}

Decided answer_to(const Floor&, const ClimateReading& c, Instant at) {
  if (!(c.air.value >= -40 && c.air.value <= 60)) {
    return no(BadCount{static_cast<int>(std::clamp(c.air.value, -1e6, 1e6)), -40, 60});
  }
  if (!(c.humidity.value >= 0 && c.humidity.value <= 100)) {
    return no(BadCount{static_cast<int>(std::clamp(c.humidity.value, -1e6, 1e6)), 0, 100});
  }
  return std::vector<Event>{ClimateRead{at, c.air, c.humidity}};
}

Decided answer_to(const Floor&, const ReadClimate& c, Instant at) {
  if (c.readings.size() > kMaxAirPoints)
    return no(TooMany{Thing::air_point, static_cast<int>(kMaxAirPoints)});
  if (auto bad = bad_air(c.readings, at - kFactBack, at)) return no(*bad);
  std::vector<Event> events;
  for (const AirPoint& p : c.readings) events.push_back(ClimateRead{p.at, p.air, p.humidity});
  return events;
}

Decided answer_to(const Floor&, const SetForecast& c, Instant at) {
  if (c.points.size() > kMaxAirPoints)
    return no(TooMany{Thing::air_point, static_cast<int>(kMaxAirPoints)});
  if (auto bad = bad_air(c.points, at - kAskSlack, at + kForecastAhead)) return no(*bad);
  return std::vector<Event>{ForecastSet{at, c.points}};
}

Decided answer_to(const Floor& floor, const PutLot& c, Instant at) {
  Lot lot = c.lot;
  if (!floor.sheet(lot.sheet)) return no(NoSuch{Thing::sheet, lot.sheet.value});
  if (lot.id && !floor.lot(lot.id)) return no(NoSuch{Thing::lot, lot.id.value});
  if (!lot.id && floor.lots.size() >= kMaxLots)
    return no(TooMany{Thing::lot, static_cast<int>(kMaxLots)});
  constexpr Seconds kOld = std::chrono::days{366 * 30};
  for (const auto& [t, most] :
       {std::pair{lot.made, at}, {lot.opened, at}, {lot.expires, at + kOld}}) {
    if (t && (*t < at - kOld || *t > most)) return no(BadTime{*t, at - kOld, most});
  }
  if (!lot.id) lot.id = LotId{floor.last_lot + 1};
  return std::vector<Event>{LotChanged{std::move(lot)}};
}

Decided answer_to(const Floor& floor, const MixPot& c, Instant at) {
  const AdhesiveSheet* sheet = floor.sheet(c.sheet);
  if (!sheet) return no(NoSuch{Thing::sheet, c.sheet.value});
  if (c.bench && !floor.bench(c.bench)) return no(NoSuch{Thing::bench, c.bench.value});
  const Lot* lot = floor.lot(c.lot);
  if (c.lot && (!lot || lot->sheet != c.sheet || lot->used_up))
    return no(NoSuch{Thing::lot, c.lot.value});
  const auto still_known = std::count_if(floor.pots.begin(), floor.pots.end(),
                                         [&](auto& p) { return p.second.until >= at - kPotsKept; });
  if (static_cast<std::size_t>(still_known) >= kMaxPots)
    return no(TooMany{Thing::pot, static_cast<int>(kMaxPots)});
  const Seconds life = sheet->working_life > Seconds{0}
                           ? working_life_at(*sheet, weather_of(floor, at).air(at))
                           : sheet->open;
  return std::vector<Event>{
      PotMixed{{PotId{floor.last_pot + 1}, c.sheet, c.lot, c.bench, at, at + life}}};
}

}  // namespace squeezeout
