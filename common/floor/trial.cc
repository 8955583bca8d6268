#include "common/floor/trial.h"

#include "common/floor/apply.h"

namespace squeezeout {

Floor trial_of(const Floor& floor, Instant at) {
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
    if (o.span.end > at) squeezeout::apply(t, OutageChanged{o});
  }
  const auto take = [&](const GlueUp& g) {
    squeezeout::apply(t, GlueUpChanged{Change::weather, g});
    if (g.times.release_end <= at) t.gear.put(Holder::of(g.id), {});
  };
  for (const auto& [id, g] : floor.glue_ups) {
    if (live(g)) take(g);
  }
  for (const auto& [build, steps] : floor.chain) {
    for (const auto& [step, id] : steps) {
      if (!t.glue_ups.contains(id)) take(floor.glue_ups.at(id));
    }
  }
  t.assembly = floor.assembly;
  t.last_glue_up = floor.last_glue_up;
  t.last_outage = floor.last_outage;
  t.last_lot = floor.last_lot;
  t.last_pot = floor.last_pot;
  t.last_plan = floor.last_plan;
  return t;
}

}  // namespace squeezeout
