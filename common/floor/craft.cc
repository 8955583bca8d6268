#include "common/floor/craft.h"

#include <algorithm>

#include "common/floor/ask.h"
#include "common/floor/weather.h"
#include "common/trade/assembly.h"

namespace squeezeout {
namespace {

Unexpected<Refusal> not_possible(Unfit why) {
  return Unexpected{Refusal{NotPossible{std::move(why)}}};
}

Circumstances::Place place_of(const Recipe& recipe, SheetId sheet) {
  if (recipe.glues.empty()) return Circumstances::Place::elsewhere;
  if (recipe.glues.front() == sheet) return Circumstances::Place::usual;
  const auto it = std::find(recipe.glues.begin(), recipe.glues.end(), sheet);
  return it == recipe.glues.end() ? Circumstances::Place::elsewhere
                                  : Circumstances::Place::in_recipe;
}

Joint joint_of(const Floor& f, const Recipe& recipe, BuildId build) {
  const Build* b = build ? f.build(build) : nullptr;
  return b ? recipe.joint.of(b->woods) : recipe.joint;
}

// Whether the glue may be used there at all: what stands in the way whatever the hour.
std::optional<Unfit> unfit(const Floor& f, const CraftWanted& w, Instant at) {
  const AdhesiveSheet& sheet = *w.sheet;
  const Lot* lot = w.lot ? f.lot(w.lot) : freshest_lot(f, sheet.id);
  // The hour is the slot finder's: here the glue is warm and open enough.
  const Circumstances about{.place = place_of(w.recipe, sheet.id),
                            .assembly = Seconds{0},
                            .open = Seconds{1},
                            .lot = lot ? age_of(*lot, sheet, at) : LotAge::unknown};
  const auto fit = fitness_of(joint_of(f, w.recipe, w.build), sheet, about);
  if (!fit)
    return std::nullopt;  // a material that this shop file knows and we do not: no rule speaks
  const bool without_reason = w.reason.empty();
  if (fit->verdict != Verdict::blocked && !(fit->verdict == Verdict::unfit && without_reason))
    return std::nullopt;
  Unsuited no{sheet.id, {}};
  for (const Reason& r : fit->reasons) {
    if (r.rule == Rule::stale_lot && r.verdict == Verdict::blocked)
      return StaleLot{sheet.id, lot->id, stale_from(*lot, sheet).value_or(at)};
    if (r.verdict == Verdict::blocked || (r.verdict == Verdict::unfit && without_reason))
      no.reasons.push_back(r);
  }
  if (no.reasons.size() == 1 && no.reasons.front().rule == Rule::not_in_recipe)
    return GlueNotInRecipe{sheet.id};
  return no;
}

}  // namespace

Result<SlotQuery, Refusal> craft_query(const Floor& f, const CraftWanted& w, Instant after,
                                       Instant now) {
  if (!w.sheet && !w.recipe.glues.empty()) return not_possible(GlueNotInRecipe{});
  const std::vector<Seconds> times = assembly_times(f, w.recipe.id, w.builder);
  SlotQuery query;
  query.builder = w.builder;
  query.after = after;
  query.demand = demand_of(w.recipe, w.sheet, plan_assembly(w.recipe.assembly, times).planned);
  query.demand.needs = needs_of(w.recipe, joint_of(f, w.recipe, w.build), f.shop->gear);
  if (!w.sheet) return query;

  if (auto no = unfit(f, w, after)) return not_possible(std::move(*no));
  query.curing = std::make_shared<const Curing>(w.recipe, *w.sheet,
                                                w.climate ? w.climate : climate_of(f, now));
  const Demand& d = query.demand;
  // Where the hour makes no difference, what does not go now goes at no time.
  const bool steady = query.curing->steady_from() <= now;
  const Instant open = (steady ? now : after) + d.stage;
  const auto lengths = query.curing->at(open, open + d.assembly);
  // The reason speaks for a glue that skins first only where it does so at the hour that was asked about.
  const bool skins = lengths && lengths->open_limit < d.assembly;
  query.open_time = w.open_time.value_or(!w.reason.empty() && skins ? SlotQuery::Open::ignore
                                                                    : SlotQuery::Open::keep);
  if (!steady) return query;
  if (!lengths) {
    const TooCold& cold = lengths.error();
    return not_possible(BelowFloor{cold.sheet, cold.wood, cold.floor});
  }
  if (skins && query.open_time == SlotQuery::Open::keep)
    return not_possible(OpenTooShort{w.sheet->id, d.assembly, lengths->open_limit});
  return query;
}

const Lot* freshest_lot(const Floor& f, SheetId sheet_id) {
  const AdhesiveSheet* sheet = f.sheet(sheet_id);
  const Lot* best = nullptr;
  if (!sheet) return best;
  const auto good_until = [&](const Lot& l) { return stale_from(l, *sheet).value_or(kNever); };
  for (const auto& [id, lot] : f.lots) {
    if (lot.sheet != sheet_id || lot.used_up) continue;
    if (!best || good_until(lot) > good_until(*best)) best = &lot;
  }
  return best;
}

const Pot* live_pot(const Floor& f, SheetId sheet, Instant until) {
  const Pot* last = nullptr;
  for (const auto& [id, pot] : f.pots) {
    if (pot.sheet == sheet && pot.until >= until && (!last || pot.mixed_at >= last->mixed_at))
      last = &pot;
  }
  return last;
}

std::vector<Seconds> assembly_times(const Floor& f, RecipeId recipe, BuilderId builder) {
  std::vector<Seconds> out;
  const auto it = f.assembly.find({recipe, builder});
  if (it == f.assembly.end()) return out;
  for (const auto& [id, took] : it->second) out.push_back(took);
  return out;
}

Result<JointAnswer, Refusal> joint_answer(const Floor& f, const Reserve& wanted, Instant at,
                                          Instant now) {
  if (!f.shop) return Unexpected{Refusal{NoSuch{Thing::shop, 0}}};
  const Recipe* recipe = f.recipe(wanted.recipe);
  if (!recipe) return Unexpected{Refusal{NoSuch{Thing::recipe, wanted.recipe.value}}};
  if (wanted.sheet && !f.sheet(wanted.sheet))
    return Unexpected{Refusal{NoSuch{Thing::sheet, wanted.sheet.value}}};

  const std::vector<Seconds> times = assembly_times(f, recipe->id, wanted.builder);
  const AssemblyPlan plan = plan_assembly(recipe->assembly, times);
  const SharedClimate climate = climate_of(f, now);
  const Weather& weather = climate->weather();
  std::vector<SheetAsked> asked;
  OverrunChance chance{};
  const SheetId chosen = wanted.sheet            ? wanted.sheet
                         : recipe->glues.empty() ? SheetId{}
                                                 : recipe->glues.front();
  for (const AdhesiveSheet& sheet : f.shop->sheets) {
    if (recipe->glues.empty()) break;
    const Curing curing{*recipe, sheet, climate};
    const auto lengths = curing.at(at, at + plan.planned);
    const Curing::Lengths told = lengths ? *lengths : curing.running(at, at + plan.planned);
    const Lot* lot = freshest_lot(f, sheet.id);
    const OverrunChance over = overrun_chance(told.open_limit, times);
    if (sheet.id == chosen) chance = over;
    SheetAsked one{
        .sheet = &sheet, .dwell = told.dwell, .wait = told.wait, .coldest = told.coldest};
    one.about = {.place = place_of(*recipe, sheet.id),
                 .too_cold = !lengths,
                 .assembly = plan.planned,
                 .open = told.open_limit,
                 .overrun_chance = over.n >= kSamplesToLearn ? over.chance : 0,
                 .lot = lot ? age_of(*lot, sheet, at) : LotAge::unknown};
    if (lot) {
      if (const auto end = stale_from(*lot, sheet))
        one.lot_days_left = static_cast<double>((*end - at).count()) / 86'400;
    }
    asked.push_back(one);
  }
  return answer({.recipe = *recipe,
                 .joint = joint_of(f, *recipe, wanted.build),
                 .sheets = asked,
                 .chosen = chosen,
                 .gear = f.shop->gear,
                 .assembly = plan,
                 .chance = chance,
                 .air = weather.air(at),
                 .humidity = weather.humidity(at),
                 .service = f.shop->service});
}

}  // namespace squeezeout
