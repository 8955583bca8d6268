#include "common/floor/apply.h"

#include <algorithm>
#include <bit>
#include <string_view>

namespace squeezeout {
namespace {

// When a glue-up next needs a look without a press: see settle().
std::optional<Instant> due_of(const Floor& f, const GlueUp& g) {
  switch (g.progress) {
    case Progress::reserved:
      return g.times.open_begin + kStartGrace;
    case Progress::
        open:  // on time to the minute is on time; and never later than its claim reaches
      return std::min(g.times.clamped_begin + kOpenStep, g.times.release_end);
    case Progress::clamped:
      return g.times.release_end;
    case Progress::waiting: {
      const Recipe* r = f.recipe(g.recipe);
      if (r && r->finish.empty()) return g.times.ready_at;
      return std::nullopt;
    }
    default:
      return std::nullopt;
  }
}

void forget_due(Floor& f, const GlueUp& g) {
  const auto due = due_of(f, g);
  if (!due) return;
  const auto [first, last] = f.due.equal_range(*due);
  for (auto it = first; it != last; ++it) {
    if (it->second == g.id) {
      f.due.erase(it);
      return;
    }
  }
}

bool in_chain(const GlueUp& g) {
  return g.build && g.progress != Progress::cancelled && g.progress != Progress::spoiled;
}

// Undo needs the records before the last presses: the older half goes when they are many.
void trim_before(Floor& f) {
  if (f.before.size() <= 2 * kMaxBefore) return;
  std::vector<std::pair<Instant, GlueUpId>> presses;
  for (const auto& [id, record] : f.before) presses.emplace_back(f.glue_ups.at(id).pressed_at, id);
  const auto keep_from = presses.end() - static_cast<std::ptrdiff_t>(kMaxBefore);
  std::nth_element(presses.begin(), keep_from, presses.end());
  for (auto it = presses.begin(); it != keep_from; ++it) f.before.erase(it->second);
}

// What makes the record that it replaces the one that undo brings back. A plan does so by what it sets aside.
bool pressed(Change what) {
  return what != Change::overran && what != Change::displaced && what != Change::finished &&
         what != Change::weather && what != Change::replanned;
}

// What took much longer than planned was a press that somebody forgot.
constexpr int kForgottenPress = 3;

void learn(Floor& f, const GlueUp& g) {
  auto& samples = f.assembly[{g.recipe, g.builder}];
  if (g.started_at && g.clamped_at &&
      *g.clamped_at - *g.started_at <= kForgottenPress * g.demand.assembly)
    samples[g.id] = *g.clamped_at - *g.started_at;
  else
    samples.erase(g.id);
  while (samples.size() > kSamplesKept) samples.erase(samples.begin());
  if (samples.empty()) f.assembly.erase({g.recipe, g.builder});
}

void take_fumes(Floor& f, const GlueUp& g) {
  const bool open = g.progress == Progress::reserved || running(g);
  if (open && g.demand.fumes > Seconds{0})
    f.fumes[g.id] = {g.times.open_begin, std::max(g.times.open_begin + g.demand.fumes,
                                                  g.times.clamped_begin + kFlashOff)};
  else
    f.fumes.erase(g.id);
}

void take(Floor& f, const ShopLoaded& e) {
  f.due.clear();  // what is due depends on recipes
  f.shop = e.shop;
  const auto zone = Zone::find(e.shop.zone);
  f.zone = zone ? *zone : Zone::utc();  // decide() lets no shop with an unknown zone in
  if (f.climate.at == Instant{})
    f.climate = {Instant{}, e.shop.climate_celsius, e.shop.climate_humidity};
  for (const auto& [id, g] : f.glue_ups) {
    if (const auto due = due_of(f, g)) f.due.emplace(*due, id);
  }
}

void take(Floor& f, const GlueUpChanged& e) {
  const GlueUp& g = e.after;
  if (const auto old = f.glue_ups.find(g.id); old != f.glue_ups.end()) {
    forget_due(f, old->second);
    f.live_count -= live(old->second);
    if (in_chain(old->second)) f.chain[old->second.build].erase(old->second.step);
    if (pressed(e.what)) f.before[g.id] = old->second;
  }
  f.glue_ups[g.id] = g;
  f.live_count += live(g);
  f.last_glue_up = std::max(f.last_glue_up, g.id.value);
  f.gear.put(Holder::of(g.id), claims_of(g));
  f.builders.put(g.builder, g.id, attended_of(g));
  if (in_chain(g)) f.chain[g.build][g.step] = g.id;
  if (const auto due = due_of(f, g)) f.due.emplace(*due, g.id);
  if (g.progress == Progress::displaced)
    f.displaced.insert(g.id);
  else
    f.displaced.erase(g.id);
  learn(f, g);
  take_fumes(f, g);
  trim_before(f);
}

void take(Floor& f, const OutageChanged& e) {
  const Outage& o = e.after;
  f.last_outage = std::max(f.last_outage, o.id.value);
  if (o.span.empty() || o.count == 0) {
    f.outages.erase(o.id);
  } else {
    f.outages[o.id] = o;
  }
  f.gear.put(Holder::of(o.id), {{o.kind, o.count, o.span}});
}

void take(Floor& f, const StockSet& e) {
  f.gear.set_stock(e.kind, e.count, e.at);
  f.stock[e.kind] = {e.kind, e.count, f.gear.stock_since(e.kind)};
}

// Readings that come thick and fast are thinned as they come, and all that are old are dropped.
void take(Floor& f, const ClimateRead& e) {
  constexpr Seconds kApart = Minutes{5};
  if (e.at >= f.climate.at) f.climate = e;
  auto& all = f.readings;
  if (all.size() >= 2 && e.at > all.back().at && all.back().at - all[all.size() - 2].at < kApart)
    all.pop_back();
  const auto at = std::lower_bound(all.begin(), all.end(), e.at,
                                   [](const AirPoint& p, Instant t) { return p.at < t; });
  if (at != all.end() && at->at == e.at)
    *at = {e.at, e.air, e.humidity};
  else
    all.insert(at, {e.at, e.air, e.humidity});
  std::erase_if(all, [&](const AirPoint& p) { return p.at < f.climate.at - kReadingsKept; });
  if (all.size() > kMaxAirPoints)
    all.erase(all.begin(), all.end() - static_cast<std::ptrdiff_t>(kMaxAirPoints));
}

void take(Floor& f, const ForecastSet& e) { f.forecast = e.points; }

void take(Floor& f, const LotChanged& e) {
  f.lots[e.after.id] = e.after;
  f.last_lot = std::max(f.last_lot, e.after.id.value);
}

void take(Floor& f, const PotMixed& e) {
  f.pots[e.pot.id] = e.pot;
  f.last_pot = std::max(f.last_pot, e.pot.id.value);
  std::erase_if(f.pots, [&](const auto& p) { return p.second.until < e.pot.mixed_at - kPotsKept; });
}

void take(Floor& f, const PlanChanged& e) {
  f.plans[e.after.id] = e.after;
  f.last_plan = std::max(f.last_plan, e.after.id.value);
  while (f.plans.size() > kPlansKept) f.plans.erase(f.plans.begin());
}

// FNV-1a over the fields of the records, in their order.
class Hash {
 public:
  void add(std::string_view text) {
    add(text.size());
    for (const char c : text) byte(static_cast<std::uint8_t>(c));
  }
  void add(double v) { add(std::bit_cast<std::uint64_t>(v)); }
  void add(Instant t) { add(t.time_since_epoch().count()); }
  void add(Seconds s) { add(s.count()); }
  template <std::integral T>
  void add(T v) {
    auto bits = static_cast<std::uint64_t>(v);
    for (int i = 0; i < 8; ++i, bits >>= 8) byte(static_cast<std::uint8_t>(bits));
  }
  template <class Tag>
  void add(Id<Tag> id) {
    add(id.value);
  }
  template <class T>
  void add(const std::optional<T>& v) {
    add(v.has_value());
    if (v) add(*v);
  }
  void add(const PhaseTimes& t) {
    for (const Instant i :
         {t.stage_begin, t.open_begin, t.clamped_begin, t.release_begin, t.release_end, t.ready_at})
      add(i);
  }
  std::uint64_t value() const { return hash_; }

 private:
  void byte(std::uint8_t b) { hash_ = (hash_ ^ b) * 1099511628211ULL; }
  std::uint64_t hash_ = 14695981039346656037ULL;
};

void add(Hash& h, const GlueUp& g) {
  h.add(g.id), h.add(g.recipe), h.add(g.build), h.add(g.step), h.add(g.builder), h.add(g.bench),
      h.add(g.sheet);
  h.add(static_cast<int>(g.progress));
  h.add(g.demand.stage), h.add(g.demand.assembly), h.add(g.demand.dwell), h.add(g.demand.release),
      h.add(g.demand.wait);
  h.add(g.demand.open_limit), h.add(g.demand.needs.size());
  for (const Held& held : g.held) h.add(held.kind), h.add(held.count);
  h.add(g.times), h.add(g.promised), h.add(g.reserved_at), h.add(g.pressed_at),
      h.add(g.waited_for_gear);
  h.add(g.started_at), h.add(g.clamped_at), h.add(g.off_at), h.add(g.ended_at);
  h.add(g.off_early), h.add(g.outside_hours), h.add(g.overruns), h.add(static_cast<int>(g.snag)),
      h.add(g.snag_by);
  h.add(g.note), h.add(g.lot), h.add(g.pot), h.add(g.reason), h.add(g.demand.fumes),
      h.add(g.wanted_from), h.add(g.plan);
  h.add(g.weather.has_value());
  if (const auto& w = g.weather) {
    h.add(w->dwell_before), h.add(w->dwell), h.add(w->coldest.value), h.add(w->moved_from),
        h.add(w->because);
  }
}

void add(Hash& h, const std::vector<AirPoint>& points) {
  h.add(points.size());
  for (const AirPoint& p : points) h.add(p.at), h.add(p.air.value), h.add(p.humidity.value);
}

}  // namespace

void apply(Floor& floor, const Event& event) {
  std::visit([&](const auto& e) { take(floor, e); }, event);
}

std::uint64_t floor_hash(const Floor& floor, Instant since) {
  Hash h;
  h.add(floor.shop.has_value());
  if (floor.shop) {
    h.add(floor.shop->name), h.add(floor.shop->zone);
    for (const auto& k : floor.shop->gear) h.add(k.id), h.add(k.key);
    for (const auto& r : floor.shop->recipes) h.add(r.id), h.add(r.key);
    for (const auto& b : floor.shop->builders) h.add(b.id), h.add(b.key);
    for (const auto& b : floor.shop->builds) h.add(b.id), h.add(b.key), h.add(b.steps.size());
  }
  for (const auto& [id, g] : floor.glue_ups) {
    if (!g.ended_at || *g.ended_at >= since) add(h, g);
  }
  for (const auto& [id, o] : floor.outages) {
    h.add(o.id), h.add(o.kind), h.add(o.count), h.add(o.span.begin), h.add(o.span.end),
        h.add(o.reason);
  }
  for (const auto& [id, s] : floor.stock) h.add(s.kind), h.add(s.count), h.add(s.at);
  h.add(floor.climate.at), h.add(floor.climate.air.value), h.add(floor.climate.humidity.value);
  add(h, floor.readings), add(h, floor.forecast);
  for (const auto& [id, l] : floor.lots) {
    h.add(l.id), h.add(l.sheet), h.add(l.label), h.add(l.made), h.add(l.opened), h.add(l.expires),
        h.add(static_cast<int>(l.stored)), h.add(l.used_up);
  }
  for (const auto& [id, p] : floor.pots) {
    h.add(p.id), h.add(p.sheet), h.add(p.lot), h.add(p.bench), h.add(p.mixed_at), h.add(p.until);
  }
  for (const auto& [id, p] : floor.plans) {
    h.add(p.id), h.add(p.at), h.add(p.glue_ups.size()), h.add(p.undone);
    for (const GlueUpId g : p.glue_ups) h.add(g);
  }
  for (const auto& [who, samples] : floor.assembly) {
    h.add(who.first), h.add(who.second);
    for (const auto& [id, took] : samples) h.add(id), h.add(took);
  }
  h.add(floor.last_glue_up), h.add(floor.last_outage), h.add(floor.last_lot), h.add(floor.last_pot),
      h.add(floor.last_plan);
  return h.value();
}

}  // namespace squeezeout
