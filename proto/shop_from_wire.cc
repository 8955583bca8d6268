// Message Shop read and checked, in the wire's form and the file's.
#include <fmt/format.h>

#include <cmath>
#include <map>
#include <optional>

#include "common/time/rfc3339.h"
#include "proto/hours_convert.h"
#include "proto/shop_convert.h"
#include "shop.pb.h"

namespace squeezeout {
namespace {

constexpr double kMostMillimetres = 10'000;
constexpr double kMostNewtons = 100'000;

Seconds hours_from(const At& at, double v) {
  return Seconds{
      std::llround(3600 * measure(at, v, 0, static_cast<double>(kMaxClaim.count()) / 3600))};
}

std::string name_of(const At& at, const std::string& name) {
  if (name.empty()) at("name").wrong("is missing", "give it a name that people say");
  return text(at("name"), name);
}

// The things of one list, by key.
template <class IdType>
class Keys {
 public:
  Keys(std::string_view thing, Ids ids) : thing_(thing), ids_(ids) {}

  // Takes the key of the next thing in; the thing's id. `at` is the thing, `key_at` where its key is written.
  IdType add(const At& at, const At& key_at, const std::string& key, std::uint32_t given) {
    const IdType id{ids_ == Ids::by_order ? last_.value + 1 : given};
    if (id <= last_) at("id").wrong(fmt::format("is {}", id.value), "let ids rise, from 1 on");
    last_ = std::max(last_, id);
    if (key.empty()) {
      key_at.wrong("is missing", fmt::format("give the {} a key of its own", thing_));
    } else if (const std::string checked = text(key_at, key);
               !checked.empty() && !by_key_.emplace(checked, id).second) {
      key_at.wrong(fmt::format("\"{}\" is already another {}'s", key, thing_),
                   "give each a key of its own");
    }
    return id;
  }

  template <class M>
  IdType add(const At& at, const M& m) {
    return add(at, at("key"), m.key(), m.id());
  }

  // The id of what a field refers to.
  IdType find(const At& at, const std::string& key) const {
    const auto it = by_key_.find(key);
    if (it != by_key_.end()) return it->second;
    const std::string checked = text(at, key);
    if (at.enough()) return {};
    std::vector<std::string> choices;
    for (const auto& [k, id] : by_key_) choices.push_back(k);
    at.wrong(fmt::format("no {} has the key \"{}\"", thing_, checked),
             use_one_of(checked, choices));
    return {};
  }

 private:
  std::string_view thing_;
  Ids ids_;
  IdType last_;
  std::map<std::string, IdType> by_key_;
};

GearClass gear_class(const At& at, v1::GearClass given) {
  if (given == v1::GEAR_CLASS_UNSPECIFIED) {
    at("class").wrong("is missing",
                      "use one of: GEAR_CLASS_CLAMP, GEAR_CLASS_GO_BAR, GEAR_CLASS_CAUL, ...");
    return {};
  }
  return one_of<GearClass>(at("class"), given, kGearClasses);
}

struct Size {
  Millimetre opening, throat, length;
  Newton force;
};
template <class M>  // v1::Gear or v1::Need
Size read_size(const At& at, const M& m) {
  return {.opening = {measure(at("opening_mm"), m.opening_mm(), 0, kMostMillimetres)},
          .throat = {measure(at("throat_mm"), m.throat_mm(), 0, kMostMillimetres)},
          .length = {measure(at("length_mm"), m.length_mm(), 0, kMostMillimetres)},
          .force = {measure(at("force_newton"), m.force_newton(), 0, kMostNewtons)}};
}
std::string read_tag(const At& at, const std::string& tag) {
  if (tag.find_first_of("/;") != std::string::npos)
    at.wrong("holds \"/\" or \";\"", "leave them out: they part keys and tags");
  return text(at, tag);
}

// What all units of a gear share. `unit` and `count` say how many kinds come of it.
GearKind read_gear(const At& at, const v1::Gear& m) {
  const Size size = read_size(at, m);
  return {.id = {},
          .key = m.key(),
          .name = name_of(at, m.name()),
          .gear_class = gear_class(at, m.class_()),
          .tag = read_tag(at("tag"), m.tag()),
          .style = text(at("style"), m.style()),
          .stock = 1,
          .opening = size.opening,
          .throat = size.throat,
          .length = size.length,
          .force = size.force,
          .screw = text(at("screw"), m.screw()),
          .size = text(at("size"), m.size()),
          .outline = text(at("outline"), m.outline()),
          .hot = m.hot()};
}

void add_units(const At& at, const v1::Gear& m, const GearKind& common, Keys<GearKindId>& keys,
               std::vector<GearKind>& out) {
  if (!few_enough(at("unit"), m.unit_size())) return;
  if (m.has_count())
    at("count").wrong("is given beside units",
                      "leave out `count` (tagged gear) or every `unit` (counted gear)");
  for (int i = 0; i < m.unit_size(); ++i) {
    const At here = at("unit", i);
    GearKind kind = common;
    kind.tag = read_tag(here, m.unit(i));
    if (kind.tag.empty()) here.wrong("is empty", "give each piece a tag: \"A\"");
    kind.key += "/" + kind.tag;
    kind.name = text(at("name"), kind.name + " " + kind.tag);
    kind.id = keys.add(at, here, kind.key, m.id());
    out.push_back(std::move(kind));
  }
}

void add_gear(const At& at, const v1::Gear& m, Ids ids, Keys<GearKindId>& keys,
              std::vector<GearKind>& out) {
  GearKind kind = read_gear(at, m);
  const bool slash = m.key().find('/') != std::string::npos;
  if (m.unit_size() > 0 && ids == Ids::by_order && kind.tag.empty()) {
    if (m.key().empty()) at("key").wrong("is missing", "give the gear a key of its own");
    if (slash)
      at("key").wrong("holds \"/\"", "leave it out: units are keyed \"key/TAG\" by themselves");
    return add_units(at, m, kind, keys, out);
  }
  if (m.unit_size() > 0) at("unit").wrong("is given beside `tag` or `id`", "leave it out");
  if (kind.tag.empty()) {
    if (slash) at("key").wrong("holds \"/\"", "only the key of a tagged unit, \"key/TAG\", may");
    if (!m.has_count() && ids == Ids::by_order)
      at("count").wrong("and `unit` are both left out",
                        "say how many pieces there are, or name each with `unit`");
    kind.stock = number(at("count"), m.count(), 0, kMaxCount);
  } else {
    if (!m.key().ends_with("/" + kind.tag) || m.key().size() == kind.tag.size() + 1)
      at("key").wrong(fmt::format("does not end in \"/{}\"", kind.tag),
                      "the key of one tagged unit is \"key/TAG\"");
    if (m.has_count()) kind.stock = number(at("count"), m.count(), 0, 1);
  }
  kind.id = keys.add(at, m);
  out.push_back(std::move(kind));
}

AdhesiveSheet read_sheet(const At& at, const v1::Adhesive& m, SheetId id) {
  AdhesiveSheet sheet{
      .id = id,
      .key = m.key(),
      .name = name_of(at, m.name()),
      .chemistry = {},
      .open = minutes(at("open_minutes"), m.open_minutes()),
      .dwell = {},
      .wait = hours_from(at("wait_hours"), m.wait_hours()),
      .floor = {measure(at("floor_celsius"), m.floor_celsius(), kColdest.value, kHottest.value)},
      .caution = text(at("caution"), m.caution()),
      .source = text(at("source"), m.source())};
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
                .finish = text(at("finish"), m.finish()),
                .caution = text(at("caution"), m.caution()),
                .usual = m.usual()};
  if (m.has_dwell_minutes()) recipe.dwell = minutes(at("dwell_minutes"), m.dwell_minutes());
  if (m.has_wait_hours()) recipe.wait = hours_from(at("wait_hours"), m.wait_hours());
  if (few_enough(at("glue"), m.glue_size()))
    for (int i = 0; i < m.glue_size(); ++i)
      recipe.glues.push_back(sheets.find(at("glue", i), m.glue(i)));
  if (few_enough(at("need"), m.need_size())) {
    for (int i = 0; i < m.need_size(); ++i) {
      const At here = at("need", i);
      recipe.needs.push_back(from_wire(here, m.need(i)));
      if (m.need(i).count() == 0) here("count").wrong("is missing", "say how many: count: 1");
    }
  }
  if (recipe.glues.empty() && !recipe.dwell)
    at("dwell_minutes")
        .wrong("and `glue` are both left out",
               "a recipe without glue says how long the gear is held");
  return recipe;
}

std::optional<Instant> read_due(const At& at, const std::string& due, const Zone& zone) {
  if (due.empty()) return std::nullopt;
  if (const auto date = parse_date(due)) return zone.day(*date).end;
  if (const auto t = parse_rfc3339(due)) return instant(at, t->time_since_epoch().count());
  at.wrong(fmt::format("\"{}\" is no date or time", text(at, due)),
           "write \"2026-12-18\" for the end of that day, or \"2026-12-18T12:00:00Z\"");
  return std::nullopt;
}

}  // namespace

GearNeed from_wire(const At& at, const v1::Need& m) {
  const Size size = read_size(at, m);
  return {.gear_class = gear_class(at, m.class_()),
          .count = number(at("count"), m.count(), 0, kMaxCount),
          .opening = size.opening,
          .throat = size.throat,
          .length = size.length,
          .force = size.force,
          .style = text(at("style"), m.style()),
          .outline = text(at("outline"), m.outline())};
}

std::vector<GearKind> gear_from_wire(const At& at, const v1::Shop& m, Ids ids) {
  std::vector<GearKind> gear;
  Keys<GearKindId> kinds("gear", ids);
  if (!few_enough(at("gear"), m.gear_size())) return gear;
  for (int i = 0; i < m.gear_size(); ++i) add_gear(at("gear", i), m.gear(i), ids, kinds, gear);
  if (!few_enough(at("gear"), static_cast<int>(gear.size()))) gear.clear();
  return gear;
}

Shop from_wire(const At& at, const v1::Shop& m, Ids ids) {
  Shop shop;
  shop.name = name_of(at, m.name());
  shop.zone = text(at("zone"), m.zone());
  const auto zone = Zone::find(shop.zone);
  if (!zone)
    at("zone").wrong(fmt::format("\"{}\" is no time zone", shop.zone),
                     "use an IANA name: \"Europe/Dublin\", \"UTC\"");
  shop.hours = from_wire(at, m.hours(), m.exception());
  if (m.has_climate_celsius())
    shop.climate_celsius = {
        measure(at("climate_celsius"), m.climate_celsius(), kColdest.value, kHottest.value)};
  if (m.has_climate_humidity_percent())
    shop.climate_humidity = {
        measure(at("climate_humidity_percent"), m.climate_humidity_percent(), 0, 100)};

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
    shop.benches.push_back({benches.add(here, b), b.key(), name_of(here, b.name())});
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
    Build build{builds.add(here, b), b.key(), name_of(here, b.name()), {}, {}, 0, {}};
    if (!b.builder().empty()) build.builder = builders.find(here("builder"), b.builder());
    if (few_enough(here("step"), b.step_size()))
      for (int j = 0; j < b.step_size(); ++j)
        build.steps.push_back(recipes.find(here("step", j), b.step(j)));
    build.done_before =
        number(here("done_before"), b.done_before(), 0, static_cast<int>(build.steps.size()));
    build.due = read_due(here("due"), b.due(), zone ? *zone : Zone::utc());
    shop.builds.push_back(std::move(build));
  }
  return shop;
}

}  // namespace squeezeout
