#include "tests/unit/craft/craft_shop.h"

#include <algorithm>

namespace squeezeout {
namespace {

using std::chrono::hours;

AdhesiveSheet sheet(Chemistry c, Seconds open, Seconds dwell, Seconds wait, double floor) {
  return {.id = sheet_of(c),
          .key = std::string{to_string(c)},
          .name = std::string{to_string(c)},
          .chemistry = c,
          .open = open,
          .dwell = {{{20}, dwell}},
          .wait = wait,
          .floor = {floor},
          .shelf_days = 365};
}

GearKind kind(std::uint32_t id, const char* key, GearClass of, int stock) {
  return {.id = {id}, .key = key, .name = key, .gear_class = of, .stock = stock};
}

GearNeed clamps(int count, const char* style) {
  return {.gear_class = GearClass::clamp, .count = count, .style = style};
}
GearNeed some(GearClass of, int count) { return {.gear_class = of, .count = count}; }

Recipe recipe(const char* key, std::initializer_list<Chemistry> glues, Seconds assembly) {
  Recipe r{
      .key = key, .name = key, .stage = Minutes{10}, .assembly = assembly, .release = Minutes{5}};
  for (Chemistry c : glues) r.glues.push_back(sheet_of(c));
  return r;
}

}  // namespace

SheetId sheet_of(Chemistry c) { return {static_cast<std::uint32_t>(c) + 1}; }

std::vector<AdhesiveSheet> craft_sheets() {
  std::vector<AdhesiveSheet> all{
      sheet(Chemistry::aliphatic, Minutes{5}, Minutes{45}, hours{4}, 10),
      sheet(Chemistry::aliphatic_slow, Minutes{15}, Minutes{75}, hours{6}, 10),
      sheet(Chemistry::pva, Minutes{7}, Minutes{25}, hours{5}, 10),
      sheet(Chemistry::pva_crosslinking, Minutes{6}, Minutes{70}, hours{6}, 10),
      sheet(Chemistry::hide_hot, Minutes{1}, Minutes{240}, hours{16}, 22),
      sheet(Chemistry::hide_liquid, Minutes{12}, hours{8}, hours{16}, 10),
      sheet(Chemistry::fish, Minutes{12}, hours{8}, hours{16}, 10),
      sheet(Chemistry::cyanoacrylate, Seconds{15}, Minutes{2}, Minutes{10}, 5),
      sheet(Chemistry::polyurethane, Minutes{20}, Minutes{120}, hours{4}, 5),
      sheet(Chemistry::epoxy_fast, Minutes{4}, Minutes{30}, hours{2}, 10),
      sheet(Chemistry::epoxy_slow, Minutes{90}, hours{16}, hours{24}, 15),
      sheet(Chemistry::solvent_cement, Minutes{2}, hours{18}, hours{36}, 10)};
  all.back().solvent = {"butanone", 8};
  for (AdhesiveSheet& s : all) {
    if (mixed(s.chemistry)) s.activation_kj = 55;
  }
  return all;
}

std::vector<GearKind> craft_gear() {
  GearKind spool = kind(1, "spool", GearClass::clamp, 40);
  spool.style = "spool", spool.opening = {130}, spool.throat = {25};
  spool.force = {300}, spool.pad = {30};
  GearKind deep = kind(2, "deep", GearClass::clamp, 16);
  deep.style = "screw", deep.opening = {160}, deep.throat = {220}, deep.force = {900};
  GearKind cam = kind(3, "cam", GearClass::clamp, 12);
  cam.style = "cam", cam.opening = {200}, cam.throat = {110}, cam.force = {400};
  GearKind bar = kind(4, "bar", GearClass::clamp, 10);
  bar.style = "bar", bar.opening = {900}, bar.throat = {80}, bar.force = {2500};
  GearKind spring = kind(5, "spring", GearClass::clamp, 60);
  spring.style = "spring", spring.opening = {50}, spring.throat = {40};
  spring.force = {60}, spring.pad = {10};
  GearKind rod = kind(6, "go-bar", GearClass::go_bar, 30);
  rod.length = {700}, rod.rod_width = {12}, rod.rod_thickness = {5};
  rod.rod_stiffness = {13.5}, rod.rod_strength = {100};
  GearKind deck = kind(7, "deck/A", GearClass::deck, 1);
  deck.opening = {665};
  GearKind form = kind(8, "form", GearClass::form, 1);
  form.hot = true;
  return {spool,
          deep,
          cam,
          bar,
          spring,
          rod,
          deck,
          form,
          kind(9, "caul", GearClass::caul, 6),
          kind(10, "tape", GearClass::other, 4)};
}

const GearKind& kind_of(const std::vector<GearKind>& gear, const std::string& key) {
  const auto it =
      std::find_if(gear.begin(), gear.end(), [&](const GearKind& k) { return k.key == key; });
  CHECK(it != gear.end());
  return *it;
}

Recipe join_top() {
  Recipe r = recipe("join-top", {Chemistry::aliphatic, Chemistry::fish}, Minutes{4});
  r.needs = {clamps(4, "bar"), some(GearClass::caul, 2)};
  r.joint = {.length = {500},
             .width = {3},
             .a = {"top", "sitka-spruce"},
             .b = {"top", "sitka-spruce"},
             .thickness = {3},
             .under = {60},
             .traits = {Trait::pale}};
  r.finish = "level";
  return r;
}

Recipe top_braces() {
  Recipe r = recipe("top-braces", {Chemistry::aliphatic_slow, Chemistry::fish}, Minutes{10});
  r.needs = {some(GearClass::go_bar, 16), some(GearClass::deck, 1), some(GearClass::caul, 1)};
  r.joint = {.length = {840},
             .width = {7},
             .a = {"top", "sitka-spruce"},
             .b = {"", "sitka-spruce"},
             .thickness = {2.8},
             .under = {18},
             .plate = {400},
             .least_pressure = {0.1},
             .traits = {Trait::bracing}};
  r.finish = "carve";
  return r;
}

Recipe back_braces() {
  Recipe r = recipe("back-braces", {Chemistry::aliphatic_slow, Chemistry::epoxy_slow}, Minutes{12});
  r.needs = {some(GearClass::go_bar, 20), some(GearClass::deck, 1), some(GearClass::caul, 1)};
  r.joint = {.length = {1000},
             .width = {8},
             .a = {"back", "rosewood"},
             .b = {"", "sitka-spruce"},
             .thickness = {2.5},
             .under = {18},
             .plate = {380},
             .least_pressure = {0.1},
             .traits = {Trait::bracing}};
  r.finish = "carve";
  return r;
}

Recipe lining() {
  Recipe r = recipe("lining", {Chemistry::pva, Chemistry::aliphatic}, Minutes{5});
  r.needs = {clamps(0, "spring")};
  r.joint = {.length = {700},
             .width = {8},
             .a = {"sides", "mahogany"},
             .b = {"", "basswood"},
             .thickness = {2},
             .under = {6}};
  return r;
}

Recipe close_box() {
  Recipe r = recipe("close-top", {Chemistry::aliphatic_slow, Chemistry::fish}, Minutes{12});
  r.needs = {clamps(32, "spool")};
  r.joint = {.length = {1500},
             .width = {7},
             .a = {"top", "sitka-spruce"},
             .b = {"", "basswood"},
             .thickness = {2.8},
             .under = {10},
             .plate = {400},
             .traits = {Trait::structural, Trait::pale}};
  return r;
}

Recipe plastic_binding() {
  Recipe r = recipe("binding", {Chemistry::solvent_cement}, Seconds{90});
  r.needs = {some(GearClass::other, 1)};
  r.joint = {.length = {800},
             .width = {8},
             .a = {"binding", "celluloid-binding"},
             .b = {"sides", "sugar-maple"},
             .thickness = {1.5},
             .traits = {Trait::pale}};
  r.finish = "scrape";
  return r;
}

Recipe fretboard() {
  Recipe r = recipe("fretboard", {Chemistry::epoxy_slow, Chemistry::polyurethane}, Minutes{12});
  r.needs = {clamps(8, "cam"), some(GearClass::caul, 1)};
  r.joint = {.length = {460},
             .width = {50},
             .a = {"fretboard", "ebony"},
             .b = {"neck", "mahogany"},
             .thickness = {6},
             .under = {20},
             .least_pressure = {0.12},
             .traits = {Trait::structural, Trait::beside_neck}};
  r.finish = "level";
  return r;
}

Recipe bridge() {
  Recipe r =
      recipe("bridge", {Chemistry::aliphatic, Chemistry::hide_hot, Chemistry::fish}, Minutes{4});
  GearNeed deep = clamps(3, "");
  deep.throat = {200}, deep.opening = {120};
  r.needs = {deep, some(GearClass::caul, 1)};
  r.joint = {.length = {180},
             .width = {30},
             .a = {"bridge", "rosewood"},
             .b = {"top", "sitka-spruce"},
             .thickness = {2.8},
             .under = {23},
             .traits = {Trait::structural, Trait::reversible, Trait::hot_in_service}};
  r.finish = "string up";
  return r;
}

Recipe bent_sides() {
  Recipe r = recipe("bend", {}, Minutes{25});
  r.heat = Heat{.hold = Minutes{15}, .cool = Minutes{60}, .form = {150}};
  r.needs = {some(GearClass::form, 1)};
  r.joint = {.a = {"sides", "rosewood"}, .thickness = {2.2}, .radius = {50}};
  return r;
}

std::vector<Recipe> craft_recipes() {
  return {join_top(),        top_braces(), back_braces(), lining(),    close_box(),
          plastic_binding(), fretboard(),  bridge(),      bent_sides()};
}

Asked::Asked(Recipe what) : recipe(std::move(what)) {
  assembly = {recipe.assembly, 0, false};
  if (recipe.glues.empty()) return;
  chosen = recipe.glues.front();
  for (const AdhesiveSheet& s : all_sheets) {
    SheetAsked one{.sheet = &s, .dwell = s.dwell.front().dwell, .wait = s.wait, .coldest = air};
    const auto at = std::find(recipe.glues.begin(), recipe.glues.end(), s.id);
    one.about.place = at == recipe.glues.end()     ? Circumstances::Place::elsewhere
                      : at == recipe.glues.begin() ? Circumstances::Place::usual
                                                   : Circumstances::Place::in_recipe;
    one.about.too_cold = air < s.floor;
    one.about.assembly = recipe.assembly;
    one.about.open = s.open;
    sheets.push_back(one);
  }
}

SheetAsked& Asked::of(Chemistry c) {
  const auto it = std::find_if(sheets.begin(), sheets.end(),
                               [&](const SheetAsked& s) { return s.sheet->chemistry == c; });
  CHECK(it != sheets.end());
  return *it;
}

JointQuestion Asked::question() const {
  return {.recipe = recipe,
          .joint = recipe.joint.of(woods),
          .sheets = sheets,
          .chosen = chosen,
          .gear = gear,
          .assembly = assembly,
          .chance = chance,
          .air = air,
          .humidity = humidity,
          .service = {}};
}

const Fitness& fitness_in(const std::vector<Fitness>& all, Chemistry c) {
  const auto it = std::find_if(all.begin(), all.end(),
                               [&](const Fitness& f) { return f.sheet == sheet_of(c); });
  CHECK(it != all.end());
  return *it;
}

bool says(const Fitness& fitness, Rule rule) {
  return std::any_of(fitness.reasons.begin(), fitness.reasons.end(),
                     [&](const Reason& r) { return r.rule == rule; });
}

}  // namespace squeezeout
