#include "proto/shop_check.h"

#include <fmt/format.h>

#include "common/plan/slot.h"

namespace squeezeout {
namespace {

double minutes_of(Seconds s) { return static_cast<double>(s.count()) / 60; }

void check_sheet(const At& at, const AdhesiveSheet& sheet) {
  const Celsius coldest = sheet.dwell.front().wood;
  if (sheet.floor > coldest)
    at("floor_celsius")
        .wrong(fmt::format("is {}, above the coldest dwell point ({})", sheet.floor.value,
                           coldest.value),
               "lower the floor, or leave out the points below it");
}

const AdhesiveSheet* usual_glue(const Shop& shop, const Recipe& recipe) {
  for (const AdhesiveSheet& sheet : shop.sheets)
    if (!recipe.glues.empty() && sheet.id == recipe.glues.front()) return &sheet;
  return nullptr;
}

void check_needs(const At& at, const Shop& shop, const Recipe& recipe) {
  bool each = true;
  for (std::size_t i = 0; i < recipe.needs.size(); ++i) {
    const GearNeed& need = recipe.needs[i];
    int owned = 0;
    for (const GearKind& kind : shop.gear)
      if (good_enough(kind, need)) owned += kind.stock;
    if (owned >= need.count) continue;
    each = false;
    at("need", static_cast<int>(i))
        .wrong(fmt::format("wants {}, but the shop owns {} that would do", need.count, owned),
               "ask for fewer or less (class, style, outline, opening, throat, length, force), or "
               "add gear");
  }
  if (!each) return;
  GearLedger unused;
  for (const GearKind& kind : shop.gear) unused.set_stock(kind.id, kind.stock);
  const BuilderLedger nobody;
  const Hours any(Zone::utc(), WeekHours{});
  const Span now{Instant{}, Instant{Seconds{1}}};
  if (!choose_gear({unused, nobody, shop.gear, any, {}}, recipe.needs, now, {}))
    at("need").wrong("cannot all be met together: they want the same pieces",
                     "ask for fewer, or add gear");
}

void check_recipe(const At& at, const Shop& shop, const Recipe& recipe) {
  const AdhesiveSheet* glue = usual_glue(shop, recipe);
  if (glue && recipe.assembly > glue->open)
    at("assembly_minutes")
        .wrong(fmt::format("is {}, but {} stays open for {} min", minutes_of(recipe.assembly),
                           glue->key, minutes_of(glue->open)),
               "split the work into lifts, or name a slower glue first");
  check_needs(at, shop, recipe);
}

}  // namespace

void check_shop(const At& at, const Shop& shop) {
  bool opens = false;
  for (const auto& day : shop.hours.weekday) opens = opens || !day.empty();
  if (!opens)
    at("hours").wrong(
        "are missing",
        "say when the shop is open: hours { days: \"mon-fri\" from: \"08:00\" to: \"17:00\" }");
  for (std::size_t i = 0; i < shop.sheets.size(); ++i)
    check_sheet(at("adhesive", static_cast<int>(i)), shop.sheets[i]);
  for (std::size_t i = 0; i < shop.recipes.size(); ++i)
    check_recipe(at("recipe", static_cast<int>(i)), shop, shop.recipes[i]);
  for (std::size_t i = 0; i < shop.builds.size(); ++i)
    if (shop.builds[i].steps.empty())
      at("build", static_cast<int>(i))
          .wrong("has no steps", "name its glue-ups in order: step: \"join-top\"");
}

}  // namespace squeezeout
