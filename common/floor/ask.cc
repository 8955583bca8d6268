#include "common/floor/ask.h"

#include <algorithm>

#include "common/floor/craft.h"
#include "common/floor/weather.h"

namespace squeezeout {
namespace {

constexpr Seconds kFarthest = std::chrono::hours{24 * 365 * 2};

// The glue-up of the step before, when this step has to wait for it.
struct Before {
  std::optional<NotReadyYet> waits_for;
};
Result<Before, Refusal> step_before(const Floor& f, BuildId build, int step) {
  if (!build || step == 0) return Before{};
  const Build& b = *f.build(build);
  if (step - 1 < b.done_before) return Before{};
  const GlueUp* before = f.step_of(build, step - 1);
  if (!before || before->progress == Progress::displaced)
    return Unexpected{Refusal{StepMissing{build, step - 1}}};
  if (before->progress == Progress::done) return Before{};
  return Before{NotReadyYet{before->id, before->times.ready_at}};
}

// The glue of a wish; 0: its recipe takes none.
SheetId sheet_of(const Floor& f, const Reserve& wanted) {
  if (wanted.sheet) return wanted.sheet;
  const std::vector<SheetId>& glues = f.recipe(wanted.recipe)->glues;
  return glues.empty() ? SheetId{} : glues.front();
}

Demand at_its_hour(const SlotQuery& query, const PhaseTimes& times) {
  auto demand = demand_at(query, times);
  CHECK(demand);  // a slot is never where it is too cold
  return std::move(*demand);
}

Result<Quote, Refusal> quote(const Floor& f, const SlotQuery& query, SheetId sheet,
                             std::optional<Instant> start) {
  const Hours hours = f.hours_for(query.builder);
  const SlotView view = view_of(f, hours);
  const PotId pot = query.pot ? query.pot->pot : PotId{};

  // How much sooner it could be if the shop had gear without limit.
  const auto waited_until = [&](Instant begin) {
    SlotQuery unlimited = query;
    unlimited.demand.needs.clear();
    const auto without_gear = earliest_slot(view, unlimited);
    return without_gear ? begin - without_gear->times.stage_begin : Seconds{0};
  };
  if (!start) {
    auto first = earliest_slot(view, query);
    if (!first) return Unexpected{Refusal{DoesNotFit{std::move(first).error().why, std::nullopt}}};
    const Seconds waited = waited_until(first->times.stage_begin);
    return Quote{at_its_hour(query, first->times), sheet, pot, std::move(*first), waited};
  }
  auto exact = slot_at(view, query, *start);
  if (exact) {
    Seconds waited = std::max(Seconds{0}, waited_until(*start));
    // A later start than the earliest was chosen, not waited for.
    if (waited > Seconds{0}) {
      const auto first = earliest_slot(view, query);
      if (!first || *start > first->times.stage_begin) waited = Seconds{0};
    }
    return Quote{at_its_hour(query, exact->times), sheet, pot, std::move(*exact), waited};
  }
  DoesNotFit no{std::move(exact).error().why, std::nullopt};
  SlotQuery later = query;
  later.after = *start;
  if (auto next = earliest_slot(view, later)) no.next = std::move(*next);
  return Unexpected{Refusal{std::move(no)}};
}

}  // namespace

SharedClimate climate_of(const Floor& f, Instant now) {
  return std::make_shared<Climate>(weather_of(f, now));
}

SlotView view_of(const Floor& f, const Hours& hours) {
  return {f.gear, f.builders, f.shop->gear, hours, f.fumes, [&f](GlueUpId id) {
            const GlueUp* g = f.glue_up(id);
            return g ? g->bench : BenchId{};
          }};
}

BenchId bench_rule(const Floor& f, BenchId bench) {
  const Bench* b = f.bench(bench);
  return b && b->one_at_a_time ? bench : BenchId{};
}

Result<SlotQuery, Refusal> query_of(const Floor& f, const Reserve& wanted, Instant now,
                                    SharedClimate climate) {
  if (!f.shop) return Unexpected{Refusal{NoSuch{Thing::shop, 0}}};
  const Recipe* recipe = f.recipe(wanted.recipe);
  if (!recipe) return Unexpected{Refusal{NoSuch{Thing::recipe, wanted.recipe.value}}};
  if (!f.builder(wanted.builder))
    return Unexpected{Refusal{NoSuch{Thing::builder, wanted.builder.value}}};
  if (wanted.bench && !f.bench(wanted.bench))
    return Unexpected{Refusal{NoSuch{Thing::bench, wanted.bench.value}}};
  if (wanted.build) {
    const Build* build = f.build(wanted.build);
    if (!build) return Unexpected{Refusal{NoSuch{Thing::build, wanted.build.value}}};
    const int steps = static_cast<int>(build->steps.size());
    if (wanted.step < build->done_before || wanted.step >= steps) {
      return Unexpected{Refusal{BadCount{wanted.step, build->done_before, steps - 1}}};
    }
    if (build->steps[static_cast<std::size_t>(wanted.step)] != wanted.recipe) {
      return Unexpected{Refusal{NoSuch{Thing::recipe, wanted.recipe.value}}};
    }
    if (const GlueUp* has = f.step_of(wanted.build, wanted.step))
      return Unexpected{Refusal{AlreadyReserved{has->id}}};
  } else if (wanted.step != 0) {
    return Unexpected{Refusal{BadCount{wanted.step, 0, 0}}};
  }

  const SheetId sheet_id = sheet_of(f, wanted);
  const AdhesiveSheet* sheet = sheet_id ? f.sheet(sheet_id) : nullptr;
  if (sheet_id && !sheet) return Unexpected{Refusal{NoSuch{Thing::sheet, sheet_id.value}}};
  if (wanted.lot) {
    const Lot* lot = f.lot(wanted.lot);
    if (!lot || lot->sheet != sheet_id || lot->used_up)
      return Unexpected{Refusal{NoSuch{Thing::lot, wanted.lot.value}}};
  }
  const Pot* pot = f.pot(wanted.pot);
  if (wanted.pot && (!pot || pot->sheet != sheet_id))
    return Unexpected{Refusal{NoSuch{Thing::pot, wanted.pot.value}}};
  const auto before = step_before(f, wanted.build, wanted.step);
  if (!before) return Unexpected{before.error()};

  const Instant earliest_start = now - kAskSlack;
  if (wanted.start && (*wanted.start < earliest_start || *wanted.start > now + kFarthest)) {
    return Unexpected{Refusal{BadTime{*wanted.start, earliest_start, now + kFarthest}}};
  }
  if (wanted.after > now + kFarthest)
    return Unexpected{Refusal{BadTime{wanted.after, now, now + kFarthest}}};

  auto made = craft_query(f,
                          {*recipe, sheet, wanted.builder, wanted.build, wanted.lot, wanted.reason,
                           std::nullopt, std::move(climate)},
                          std::max(wanted.after, now), now);
  if (!made) return Unexpected{made.error()};
  SlotQuery query = std::move(*made);
  query.waits_for = before->waits_for;
  if (wanted.hours == Override::knowingly) query.attended = SlotQuery::Hours::ignore;
  query.bench = bench_rule(f, wanted.bench ? wanted.bench : f.builder(wanted.builder)->bench);
  if (pot) query.pot = PotGels{pot->id, pot->sheet, pot->until};
  return query;
}

Result<Quote, Refusal> earliest(const Floor& f, const Reserve& wanted, Instant now) {
  const auto query = query_of(f, wanted, now);
  if (!query) return Unexpected{query.error()};
  return quote(f, *query, sheet_of(f, wanted), wanted.start);
}

Result<Quote, Refusal> earliest_for(const Floor& f, GlueUpId id, Instant after, Instant now) {
  const GlueUp* g = f.glue_up(id);
  if (!g) return Unexpected{Refusal{NoSuch{Thing::glue_up, id.value}}};
  if (g->progress != Progress::reserved && g->progress != Progress::displaced) {
    return Unexpected{Refusal{WrongProgress{id, g->progress}}};
  }
  auto query = query_again(f, *g, std::max(after, now), now);
  if (!query) return Unexpected{query.error()};
  return quote(f, *query, g->sheet, std::nullopt);
}

Result<SlotQuery, Refusal> query_alone(const Floor& f, const GlueUp& g, Instant after, Instant now,
                                       SharedClimate climate) {
  const Recipe* recipe = f.recipe(g.recipe);
  if (!recipe) return Unexpected{Refusal{NoSuch{Thing::recipe, g.recipe.value}}};
  auto made = craft_query(
      f,
      {*recipe, g.sheet ? f.sheet(g.sheet) : nullptr, g.builder, g.build, g.lot, g.reason,
       skins_knowingly(g) ? SlotQuery::Open::ignore : SlotQuery::Open::keep, std::move(climate)},
      after, now);
  if (!made) return made;
  made->ignoring = g.id;
  made->bench = bench_rule(f, g.bench);
  const Pot* pot = f.pot(g.pot);
  if (pot && pot->sheet == g.sheet && pot->until > now && g.snag == Snag::none)
    made->pot = PotGels{pot->id, pot->sheet, pot->until};
  return made;
}

Result<SlotQuery, Refusal> query_again(const Floor& f, const GlueUp& g, Instant after, Instant now,
                                       SharedClimate climate) {
  if (!f.recipe(g.recipe)) return Unexpected{Refusal{NoSuch{Thing::recipe, g.recipe.value}}};
  const auto before = step_before(f, g.build, g.step);
  if (!before) return Unexpected{before.error()};
  auto query = query_alone(f, g, after, now, std::move(climate));
  if (query) query->waits_for = before->waits_for;
  return query;
}

Result<Quote, Refusal> quote_at(const Floor& f, const SlotQuery& query, SheetId sheet,
                                Instant start, Instant now) {
  const Instant least = now - kAskSlack;
  if (start < least || start > now + kFarthest)
    return Unexpected{Refusal{BadTime{start, least, now + kFarthest}}};
  return quote(f, query, sheet, start);
}

std::optional<NextStep> next_step(const Floor& f, BuildId id) {
  const Build* build = f.build(id);
  if (!build) return std::nullopt;
  for (int step = build->done_before; step < static_cast<int>(build->steps.size()); ++step) {
    if (f.step_of(id, step)) continue;
    return NextStep{id, step, build->steps[static_cast<std::size_t>(step)]};
  }
  return std::nullopt;
}

std::vector<GearNow> gear_now(const Floor& f, Instant now) {
  std::vector<GearNow> out;
  if (!f.shop) return out;
  for (const GearKind& k : f.shop->gear) {
    GearNow g{.kind = k.id, .stock = f.gear.stock(k.id)};
    for (const HeldBy& h : f.gear.holders(k.id, {now, now + Seconds{1}})) {
      if (h.holder.what == Holder::What::outage) {
        g.broken += h.count;
        continue;
      }
      g.held += h.count;
      if (!g.more_at || h.span.end < *g.more_at) g.more_at = h.span.end;
      g.holders.push_back(h);
    }
    g.free = std::max(0, g.stock - g.broken - g.held);
    out.push_back(std::move(g));
  }
  return out;
}

}  // namespace squeezeout
