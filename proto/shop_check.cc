#include "proto/shop_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "common/craft/gear_count.h"
#include "common/plan/slot.h"
#include "common/trade/exposure.h"
#include "common/trade/material.h"
#include "shop.pb.h"

namespace squeezeout {
namespace {

double minutes_of(Seconds s) { return static_cast<double>(s.count()) / 60; }

// Of the lists of trade/, those that a shop may name.
std::vector<std::string> material_keys() {
  std::vector<std::string> keys;
  for (const Material& m : materials()) keys.emplace_back(m.key);
  return keys;
}
std::vector<std::string> solvent_keys() {
  std::vector<std::string> keys;
  for (const SolventFacts& s : solvents())
    if (!s.refused_by_default) keys.emplace_back(s.key);
  return keys;
}

void check_material(const At& at, const std::string& key) {
  if (key.empty())
    at.wrong("is missing", "name what it is made of: material: \"sitka-spruce\"");
  else if (!material(key))
    at.wrong(fmt::format("no material is called \"{}\"", key), use_one_of(key, material_keys()));
}

void check_solvent(const At& at, const Solvent& used) {
  if (used.name.empty()) return at("name").wrong("is missing", use_one_of("", solvent_keys()));
  const auto facts = solvent(used.name);
  if (!facts)
    at("name").wrong(fmt::format("no solvent is called \"{}\"", used.name),
                     use_one_of(used.name, solvent_keys()));
  else if ((*facts)->refused_by_default)
    at("name").wrong(fmt::format("{} is refused: no more than {} ppm over 8 hours is allowed",
                                 (*facts)->name, limit(**facts, LimitSet::niosh).value),
                     "take a cement without it; " + use_one_of(used.name, solvent_keys()));
  if (used.grams_per_use <= 0)
    at("grams_per_use")
        .wrong("is missing", "say how much goes into the air at each use: grams_per_use: 5");
}

// Straight lines between points: the first stands at the floor, so that nothing is guessed on the cold side, and warmth never makes
// a dwell longer.
void check_points(const At& at, const AdhesiveSheet& sheet) {
  const DwellPoint& first = sheet.dwell.front();
  const At coldest = at("dwell", 0);
  if (sheet.floor < first.wood)
    coldest("celsius").wrong(
        fmt::format("is {}, above floor_celsius ({}): nothing says how long it takes between",
                    first.wood.value, sheet.floor.value),
        fmt::format("give a point at the floor, dwell {{ celsius: {} minutes: 60 }}, or "
                    "raise the floor: floor_celsius: {}",
                    sheet.floor.value, first.wood.value));
  for (std::size_t i = 1; i < sheet.dwell.size(); ++i) {
    const DwellPoint& colder = sheet.dwell[i - 1];
    const DwellPoint& warmer = sheet.dwell[i];
    if (warmer.dwell <= colder.dwell) continue;
    const At here = at("dwell", static_cast<int>(i));
    here("minutes").wrong(
        fmt::format("is {:g}, longer than at {:g} C ({:g})", minutes_of(warmer.dwell),
                    colder.wood.value, minutes_of(colder.dwell)),
        "a warmer joint never takes longer: give it less, or the colder point more");
  }
}

void check_sheet(const At& at, const AdhesiveSheet& sheet) {
  if (sheet.closed > sheet.open)
    at("closed_minutes")
        .wrong(fmt::format("is {}, more than open_minutes ({})", minutes_of(sheet.closed),
                           minutes_of(sheet.open)),
               "closed assembly is a part of open_minutes: make it shorter, or leave it out");
  if (sheet.activation_kj > 0 && sets(sheet.chemistry) != Sets::by_reaction)
    at("activation_kj_per_mol")
        .wrong(fmt::format("is given, but {} does not set by reaction", to_string(sheet.chemistry)),
               "leave it out, and give dwell at several temperatures");
  else if (sheet.activation_kj > 0 && sheet.dwell.size() > 1)
    at("dwell", 1)
        .wrong("is one point too many: activation_kj_per_mol gives all but one",
               "keep the point that you know best, or leave out activation_kj_per_mol");
  if (sheet.solvent != Solvent{}) check_solvent(at("solvent"), sheet.solvent);
  if (!(sheet.activation_kj > 0)) check_points(at, sheet);
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

// A count that the recipe leaves open has to come out of its joint and the gear that would be taken.
bool can_be_worked_out(const At& at, const Shop& shop, const Recipe& recipe, const GearNeed& need) {
  const GearKind* kind = plainest(need, shop.gear);
  if (!kind) return true;                          // told as too few
  if (recipe.joint.width.value <= 0) return true;  // told at the joint
  const auto counted =
      gear_count(recipe.joint, *kind, std::nullopt, deck_gap_of(recipe, shop.gear));
  const auto* why = counted ? nullptr : std::get_if<OutOfRange>(&counted.error());
  if (!why) return true;  // or a material that nobody knows, which is told at the joint
  at("count").wrong(
      fmt::format("is left out, and \"{}\" does not tell it: {} is {:.4g}, not {:.4g} to {:.4g}",
                  kind->key, why->what, why->value, why->least, why->most),
      fmt::format("{}; or say how many: count: 4", why->mend));
  return false;
}

void check_needs(const At& at, const Shop& shop, const Recipe& recipe) {
  bool each = true;
  const std::vector<GearNeed> needs = needs_of(recipe, recipe.joint, shop.gear);
  for (std::size_t i = 0; i < needs.size(); ++i) {
    const GearNeed& need = needs[i];
    const bool open = recipe.needs[i].count == 0;
    const At here = at("need", static_cast<int>(i));
    if (open && !can_be_worked_out(here, shop, recipe, need)) {
      each = false;
      continue;
    }
    int owned = 0;
    for (const GearKind& kind : shop.gear)
      if (good_enough(kind, need)) owned += kind.stock;
    if (owned >= need.count) continue;
    each = false;
    here.wrong(fmt::format("wants {}{}, but the shop owns {} that would do", need.count,
                           open ? " (worked out from the joint)" : "", owned),
               "ask for fewer or less (class, style, outline, opening, throat, length, force), or "
               "add gear");
  }
  if (!each) return;
  GearLedger unused;
  for (const GearKind& kind : shop.gear) unused.set_stock(kind.id, kind.stock);
  const BuilderLedger nobody;
  const Hours any(Zone::utc(), WeekHours{});
  const Span now{Instant{}, Instant{Seconds{1}}};
  if (!choose_gear({unused, nobody, shop.gear, any, {}}, needs, now, {}))
    at("need").wrong("cannot all be met together: they want the same pieces",
                     "ask for fewer, or add gear");
}

void check_face(const At& at, const Face& face) {
  if (face == Face{})
    at.wrong("is left out",
             "say what is glued to what: a { material: \"rosewood\" } "
             "b { material: \"sitka-spruce\" }");
  else
    check_material(at("material"), face.material);
}

void check_joint(const At& at, const Joint& joint) {
  if (joint == Joint{}) return;
  if (joint.length.value <= 0)
    at("length_mm").wrong("is missing", "say how long the glue line is: length_mm: 150");
  if (joint.width.value <= 0)
    at("width_mm").wrong("is missing", "say how wide the glue line is: width_mm: 30");
  check_face(at("a"), joint.a);
  check_face(at("b"), joint.b);
}

void check_heat(const At& at, const Shop& shop, const Recipe& recipe) {
  constexpr Celsius kColdestForm{50};
  if (!recipe.heat) return;
  const At heat = at("heat");
  if (recipe.dwell)
    at("dwell_minutes")
        .wrong("is given beside heat", "leave it out: hold_minutes and cool_minutes are the dwell");
  if (recipe.heat->hold <= Seconds{0})
    heat("hold_minutes").wrong("is missing", "say how long it is held hot: hold_minutes: 15");
  if (recipe.heat->form < kColdestForm)
    heat("form_celsius")
        .wrong(fmt::format("is {}, which bends no wood", recipe.heat->form.value),
               "say how hot the form gets: form_celsius: 150");
  const bool hot_form = std::any_of(shop.gear.begin(), shop.gear.end(), [&](const GearKind& kind) {
    return kind.hot && std::any_of(recipe.needs.begin(), recipe.needs.end(),
                                   [&](const GearNeed& need) { return good_enough(kind, need); });
  });
  if (!hot_form)
    heat.wrong("is given, but no need is met by a hot form",
               "add need { class: GEAR_CLASS_FORM count: 1 }, and hot: true to the form");
}

// What the sums of solvent take.
void check_room(const At& at, const Room& room) {
  constexpr double kLeastRoom = 5, kLeastAiring = 0.01;
  if (room.volume_m3 < kLeastRoom)
    at("volume_m3")
        .wrong(fmt::format("is {}, which is no room to work in", room.volume_m3),
               "say how much air is in it: volume_m3: 180");
  if (room.air_m3_per_minute < kLeastAiring)
    at("air_m3_per_minute")
        .wrong(fmt::format("is {}", room.air_m3_per_minute),
               "open a window or run the fan, and say what it moves: air_m3_per_minute: 6");
}

// A build's own woods are of parts that its steps know.
void check_woods(const At& at, const Shop& shop, const Build& build, const v1::Build& m) {
  std::set<std::string> parts;
  for (const Recipe& recipe : shop.recipes)
    if (std::find(build.steps.begin(), build.steps.end(), recipe.id) != build.steps.end())
      for (const Face& face : {recipe.joint.a, recipe.joint.b})
        if (!face.part.empty()) parts.insert(face.part);
  for (int i = 0; i < m.wood_size(); ++i) {
    const At here = at("wood", i);
    const std::string& part = m.wood(i).part();
    if (!parts.contains(part))
      here("part").wrong(fmt::format("no step of this build has a part \"{}\"", part),
                         use_one_of(part, {parts.begin(), parts.end()}));
    check_material(here("material"), m.wood(i).material());
  }
}

void check_recipe(const At& at, const Shop& shop, const Recipe& recipe) {
  const AdhesiveSheet* glue = usual_glue(shop, recipe);
  if (glue && recipe.assembly > glue->open)
    at("assembly_minutes")
        .wrong(fmt::format("is {}, but {} stays open for {} min", minutes_of(recipe.assembly),
                           glue->key, minutes_of(glue->open)),
               "split the work into lifts, or name a slower glue first");
  check_joint(at("joint"), recipe.joint);
  check_heat(at, shop, recipe);
  check_needs(at, shop, recipe);
}

}  // namespace

void check_shop(const At& at, const Shop& shop, const v1::Shop& m) {
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
  if (shop.room != Room{}) check_room(at("room"), shop.room);
  for (std::size_t i = 0; i < shop.builds.size(); ++i) {
    const At here = at("build", static_cast<int>(i));
    if (shop.builds[i].steps.empty())
      here.wrong("has no steps", "name its glue-ups in order: step: \"join-top\"");
    check_woods(here, shop, shop.builds[i], m.build(static_cast<int>(i)));
  }
}

}  // namespace squeezeout
