#include "common/floor/trial.h"

#include <set>

#include "common/floor/apply.h"
#include "common/floor/decide_parts.h"
#include "common/floor/mend.h"

namespace squeezeout {
namespace {

std::set<GlueUpId> that_count(const Floor& floor, Instant since) {
  std::set<GlueUpId> out = floor.displaced;
  for (const auto& [when, id] : floor.due) out.insert(id);
  for (const auto& [kind, stock] : floor.stock) {
    for (const HeldBy& h : floor.gear.holders(kind, {since, kNever})) {
      if (h.holder.what == Holder::What::glue_up) out.insert(GlueUpId{h.holder.id});
    }
  }
  for (const GlueUpId id : std::vector<GlueUpId>{out.begin(), out.end()}) {
    const GlueUp& g = floor.glue_ups.at(id);
    for (const int step : {g.step - 1, g.step + 1}) {
      if (const GlueUp* beside = floor.step_of(g.build, step)) out.insert(beside->id);
    }
  }
  return out;
}

}  // namespace

Floor trial_of(const Floor& floor, Instant since) {
  Floor t;
  t.shop = floor.shop;
  t.zone = floor.zone;
  t.climate = floor.climate;
  t.readings = floor.readings;
  t.forecast = floor.forecast;
  t.lots = floor.lots;
  t.pots = floor.pots;
  for (const auto& [kind, s] : floor.stock)
    squeezeout::apply(t, StockSet{kind, s.count, floor.gear.stock_since(kind)});
  for (const auto& [id, o] : floor.outages) {
    if (o.span.end > since) squeezeout::apply(t, OutageChanged{o});
  }
  for (const GlueUpId id : that_count(floor, since))
    squeezeout::apply(t, GlueUpChanged{Change::weather, floor.glue_ups.at(id)});
  t.assembly = floor.assembly;
  t.last_glue_up = floor.last_glue_up;
  t.last_outage = floor.last_outage;
  t.last_lot = floor.last_lot;
  t.last_pot = floor.last_pot;
  t.last_plan = floor.last_plan;
  return t;
}

void Trial::take(Event e) {
  squeezeout::apply(floor_, e);
  events_.push_back(std::move(e));
}

void Trial::put(GlueUp g) {
  squeezeout::apply(floor_, GlueUpChanged{Change::weather, std::move(g)});
}

void Trial::set_aside(GlueUpId id) {
  GlueUp g = floor_.glue_ups.at(id);
  g.progress = Progress::displaced;
  g.held.clear();
  take(GlueUpChanged{Change::set_aside, std::move(g)});
}

Result<GlueUp, Refusal> Trial::at_start(const Adopted& move) const {
  GlueUp g = floor_.glue_ups.at(move.glue_up);
  if (move.sheet && move.sheet != g.sheet) {
    g.sheet = move.sheet;
    g.lot = {};  // bottle, mix and reason were the other glue's
    g.pot = {};
    g.reason.clear();
  }
  auto query = query_again(floor_, g, at_, at_, climate_);
  if (!query) return Unexpected{query.error()};
  if (g.outside_hours) query->attended = SlotQuery::Hours::ignore;
  auto quote = quote_at(floor_, *query, g.sheet, move.start, at_);
  if (!quote) return Unexpected{quote.error()};
  squeezeout::take(g, std::move(*quote));
  g.pressed_at = at_;
  g.weather.reset();
  return g;
}

std::optional<PlanStale> Trial::place(GlueUp g) {
  const auto changed = change(floor_, Change::replanned, g, Snag::none);
  if (!changed) return PlanStale{g.id, taken_since(floor_, g).why};
  for (const Event& e : *changed) {
    const GlueUp& other = std::get<GlueUpChanged>(e).after;
    if (other.id == g.id) continue;
    if (other.snag == Snag::earlier_step) {
      const NotReadyYet waits{g.id, g.times.ready_at};
      return PlanStale{other.id, {{{other.times.stage_begin, waits.until}, waits}}};
    }
    return PlanStale{g.id, taken_since(floor_, g).why};
  }
  take(GlueUpChanged{Change::replanned, std::move(g)});
  return std::nullopt;
}

}  // namespace squeezeout
