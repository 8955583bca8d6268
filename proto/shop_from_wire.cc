// Message Shop read and checked, in the wire's form and the file's.
#include <fmt/format.h>

#include <cmath>
#include <map>
#include <optional>

#include "common/time/rfc3339.h"
#include "proto/craft_convert.h"
#include "proto/hours_convert.h"
#include "proto/keys.h"
#include "shop.pb.h"

namespace squeezeout {
namespace {

Seconds hours_from(const At& at, double v) {
  return Seconds{
      std::llround(3600 * measure(at, v, 0, static_cast<double>(kMaxClaim.count()) / 3600))};
}

constexpr double kMostActivation = 200;  // kJ/mol
constexpr int kMostShelfDays = 36'500;
constexpr double kMostGrams = 1'000;

Solvent read_solvent(const At& at, const v1::Solvent& m) {
  return {.name = text(at("name"), m.name()),
          .grams_per_use = measure(at("grams_per_use"), m.grams_per_use(), 0, kMostGrams)};
}

AdhesiveSheet read_sheet(const At& at, const v1::Adhesive& m, SheetId id) {
  AdhesiveSheet sheet{
      .id = id,
      .key = m.key(),
      .name = name_of(at, m.name()),
      .chemistry = {},
      .open = minutes(at("open_minutes"), m.open_minutes()),
      .closed = minutes(at("closed_minutes"), m.closed_minutes()),
      .working_life = minutes(at("working_life_minutes"), m.working_life_minutes()),
      .dwell = {},
      .activation_kj =
          measure(at("activation_kj_per_mol"), m.activation_kj_per_mol(), 0, kMostActivation),
      .wait = hours_from(at("wait_hours"), m.wait_hours()),
      .full_cure = hours_from(at("full_cure_hours"), m.full_cure_hours()),
      .floor = {measure(at("floor_celsius"), m.floor_celsius(), kColdest.value, kHottest.value)},
      .shelf_days = number(at("shelf_days"), m.shelf_days(), 0, kMostShelfDays),
      .solvent = {},
      .caution = text(at("caution"), m.caution()),
      .source = text(at("source"), m.source())};
  if (m.has_solvent()) sheet.solvent = read_solvent(at("solvent"), m.solvent());
  if (m.chemistry() == v1::CHEMISTRY_UNSPECIFIED)
    at("chemistry")
        .wrong("is missing",
               "use one of: CHEMISTRY_ALIPHATIC, CHEMISTRY_PVA, CHEMISTRY_HIDE_HOT, ...");
  else
    sheet.chemistry = one_of<Chemistry>(at("chemistry"), m.chemistry(), kChemistries);
  if (sheet.open <= Seconds{0})
    at("open_minutes").wrong("is missing", "say how long the glue stays open: open_minutes: 5");
  if (m.dwell_size() == 0)
    at("dwell").wrong("is missing", "give at least one point: dwell { celsius: 20 minutes: 45 }");
  if (!few_enough(at("dwell"), m.dwell_size())) return sheet;
  for (int i = 0; i < m.dwell_size(); ++i) {
    const At here = at("dwell", i);
    const v1::DwellPoint& p = m.dwell(i);
    if (p.seconds() != 0 && p.minutes() != 0)
      here("minutes").wrong("is given beside seconds", "keep one of them");
    const DwellPoint point{{measure(here("celsius"), p.celsius(), kColdest.value, kHottest.value)},
                           p.seconds() != 0 ? length(here("seconds"), p.seconds())
                                            : minutes(here("minutes"), p.minutes())};
    if (point.dwell <= Seconds{0})
      here("minutes").wrong("is missing", "say how long the clamps stay: minutes: 45");
    if (!sheet.dwell.empty() && point.wood <= sheet.dwell.back().wood)
      here("celsius").wrong(fmt::format("is {}, not above the point before ({})", point.wood.value,
                                        sheet.dwell.back().wood.value),
                            "let the temperatures of the points rise");
    sheet.dwell.push_back(point);
  }
  return sheet;
}

Recipe read_recipe(const At& at, const v1::Recipe& m, RecipeId id, const Keys<SheetId>& sheets) {
  Recipe recipe{.id = id,
                .key = m.key(),
                .name = name_of(at, m.name()),
                .glues = {},
                .stage = minutes(at("stage_minutes"), m.stage_minutes()),
                .assembly = minutes(at("assembly_minutes"), m.assembly_minutes()),
                .release = minutes(at("release_minutes"), m.release_minutes()),
                .dwell = {},
                .wait = {},
                .needs = {},
                .joint = {},
                .heat = {},
                .finish = text(at("finish"), m.finish()),
                .caution = text(at("caution"), m.caution()),
                .usual = m.usual()};
  if (m.has_dwell_minutes()) recipe.dwell = minutes(at("dwell_minutes"), m.dwell_minutes());
  if (m.has_wait_hours()) recipe.wait = hours_from(at("wait_hours"), m.wait_hours());
  if (m.has_joint()) recipe.joint = from_wire(at("joint"), m.joint());
  if (m.has_heat()) recipe.heat = from_wire(at("heat"), m.heat());
  if (few_enough(at("glue"), m.glue_size()))
    for (int i = 0; i < m.glue_size(); ++i)
      recipe.glues.push_back(sheets.find(at("glue", i), m.glue(i)));
  if (few_enough(at("need"), m.need_size())) {
    for (int i = 0; i < m.need_size(); ++i) {
      const At here = at("need", i);
      const GearNeed need = from_wire(here, m.need(i));
      const bool presses =
          need.gear_class == GearClass::clamp || need.gear_class == GearClass::go_bar;
      if (m.need(i).count() == 0 && !(presses && recipe.joint.described()))
        here("count").wrong("is missing", presses
                                              ? "say how many: count: 1; or describe the joint, "
                                                "and it is worked out"
                                              : "say how many: count: 1");
      recipe.needs.push_back(need);
    }
  }
  if (recipe.glues.empty() && !recipe.dwell && !recipe.heat)
    at("dwell_minutes")
        .wrong("and `glue` are both left out",
               "a recipe without glue says how long the gear is held");
  return recipe;
}

Woods read_woods(const At& at, const v1::Build& m) {
  Woods woods;
  if (!few_enough(at("wood"), m.wood_size())) return woods;
  for (int i = 0; i < m.wood_size(); ++i) {
    const At here = at("wood", i);
    const std::string part = text(here("part"), m.wood(i).part()),
                      material = text(here("material"), m.wood(i).material());
    if (m.wood(i).part().empty()) here("part").wrong("is missing", "name the part: part: \"back\"");
    if (m.wood(i).material().empty())
      here("material").wrong("is missing", "name what it is made of: material: \"rosewood\"");
    if (!woods.emplace(part, material).second)
      here("part").wrong(fmt::format("\"{}\" comes twice", part), "keep one of them");
  }
  return woods;
}

std::optional<Instant> read_due(const At& at, const std::string& due, const Zone& zone) {
  if (due.empty()) return std::nullopt;
  if (const auto date = parse_date(due)) return zone.day(*date).end;
  if (const auto t = parse_rfc3339(due)) return instant(at, t->time_since_epoch().count());
  at.wrong(fmt::format("\"{}\" is no date or time", text(at, due)),
           "write \"2026-12-18\" for the end of that day, or \"2026-12-18T12:00:00Z\"");
  return std::nullopt;
}

Display read_display(const At& at, const v1::Display& m) {
  constexpr int kEach = 2;
  Display display;
  if (m.clock() != v1::CLOCK_UNSPECIFIED)
    display.clock = one_of<Display::Clock>(at("clock"), m.clock(), kEach);
  if (m.lengths() != v1::LENGTHS_UNSPECIFIED)
    display.lengths = one_of<Display::Lengths>(at("lengths"), m.lengths(), kEach);
  if (m.degrees() != v1::DEGREES_UNSPECIFIED)
    display.degrees = one_of<Display::Degrees>(at("degrees"), m.degrees(), kEach);
  return display;
}

}  // namespace

Shop from_wire(const At& at, const v1::Shop& m, Ids ids) {
  Shop shop;
  shop.name = name_of(at, m.name());
  shop.zone = text(at("zone"), m.zone());
  const auto zone = Zone::find(shop.zone);
  if (!zone)
    at("zone").wrong(fmt::format("\"{}\" is no time zone", shop.zone),
                     "use an IANA name: \"Europe/Dublin\", \"UTC\"");
  shop.display = read_display(at("display"), m.display());
  shop.hours = from_wire(at, m.hours(), m.exception());
  if (m.has_climate_celsius())
    shop.climate_celsius = {
        measure(at("climate_celsius"), m.climate_celsius(), kColdest.value, kHottest.value)};
  if (m.has_climate_humidity_percent())
    shop.climate_humidity = {
        measure(at("climate_humidity_percent"), m.climate_humidity_percent(), 0, 100)};

  read_air(at, m, shop);

  bool few = true;
  for (const auto& [list, size] : std::map<std::string_view, int>{{"bench", m.bench_size()},
                                                                  {"builder", m.builder_size()},
                                                                  {"adhesive", m.adhesive_size()},
                                                                  {"recipe", m.recipe_size()},
                                                                  {"build", m.build_size()}})
    few = few_enough(at(list), size) && few;
  if (!few) return shop;

  Keys<BenchId> benches("bench", ids);
  for (int i = 0; i < m.bench_size(); ++i) {
    const At here = at("bench", i);
    const v1::Bench& b = m.bench(i);
    shop.benches.push_back(
        {benches.add(here, b), b.key(), name_of(here, b.name()), b.one_at_a_time()});
  }
  Keys<BuilderId> builders("builder", ids);
  for (int i = 0; i < m.builder_size(); ++i) {
    const At here = at("builder", i);
    const v1::Builder& b = m.builder(i);
    Builder builder{builders.add(here, b), b.key(), name_of(here, b.name()), {}, {}};
    if (!b.bench().empty()) builder.bench = benches.find(here("bench"), b.bench());
    if (b.hours_size() + b.exception_size() > 0) {
      builder.hours = from_wire(here, b.hours(), b.exception());
      if (b.hours_size() == 0)
        builder.hours->weekday = shop.hours.weekday;  // the shop's week, but for these dates
    }
    shop.builders.push_back(std::move(builder));
  }
  shop.gear = gear_from_wire(at, m, ids);
  Keys<SheetId> sheets("adhesive", ids);
  for (int i = 0; i < m.adhesive_size(); ++i) {
    const At here = at("adhesive", i);
    shop.sheets.push_back(read_sheet(here, m.adhesive(i), sheets.add(here, m.adhesive(i))));
  }
  Keys<RecipeId> recipes("recipe", ids);
  for (int i = 0; i < m.recipe_size(); ++i) {
    const At here = at("recipe", i);
    shop.recipes.push_back(read_recipe(here, m.recipe(i), recipes.add(here, m.recipe(i)), sheets));
  }
  Keys<BuildId> builds("build", ids);
  for (int i = 0; i < m.build_size(); ++i) {
    const At here = at("build", i);
    const v1::Build& b = m.build(i);
    Build build{builds.add(here, b), b.key(), name_of(here, b.name()), {}, {}, 0, {}, {}};
    if (!b.builder().empty()) build.builder = builders.find(here("builder"), b.builder());
    if (few_enough(here("step"), b.step_size()))
      for (int j = 0; j < b.step_size(); ++j)
        build.steps.push_back(recipes.find(here("step", j), b.step(j)));
    build.done_before =
        number(here("done_before"), b.done_before(), 0, static_cast<int>(build.steps.size()));
    build.due = read_due(here("due"), b.due(), zone ? *zone : Zone::utc());
    build.woods = read_woods(here, b);
    shop.builds.push_back(std::move(build));
  }
  return shop;
}

}  // namespace squeezeout
