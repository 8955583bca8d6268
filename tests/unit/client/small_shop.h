#pragma once
// A small invented shop in Dublin, open 8:00 to 18:00 on weekdays, and a floor on which commands are decided as a server would.

#include <gtest/gtest.h>

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "common/floor/apply.h"
#include "common/floor/decide.h"
#include "common/time/rfc3339.h"

namespace squeezeout::testing {

inline Instant at(std::string_view text) {
  const auto t = parse_rfc3339(text);
  CHECK(t.has_value());
  return *t;
}

inline const Instant kMorning =
    at("2026-11-26T09:00:00Z");  // a Thursday; winter, so Dublin is on UTC

inline GearNeed need_of(GearClass gear_class, int count) {
  GearNeed need;
  need.gear_class = gear_class;
  need.count = count;
  return need;
}

inline std::vector<GearKind> small_gear() {
  GearKind deep;
  deep.key = "deep-clamp";
  deep.name = "Deep clamp";
  deep.stock = 6;
  deep.throat = {150};
  GearKind deck;
  deck.key = "deck/A";
  deck.name = "Go-bar deck A";
  deck.gear_class = GearClass::deck;
  deck.tag = "A";
  deck.stock = 1;
  return {deep, deck};
}

inline std::vector<AdhesiveSheet> small_sheets() {
  AdhesiveSheet hide;
  hide.key = "hide";
  hide.name = "Hide glue";
  hide.chemistry = Chemistry::hide_hot;
  hide.open = Minutes{5};
  hide.dwell = {{{22}, Minutes{60}}};
  hide.wait = std::chrono::hours{12};
  hide.floor = {22};
  AdhesiveSheet yellow = hide;
  yellow.key = "yellow";
  yellow.name = "Aliphatic resin";
  yellow.chemistry = Chemistry::aliphatic;
  yellow.dwell = {{{20}, Minutes{40}}};
  yellow.wait = std::chrono::hours{3};
  yellow.floor = {10};
  return {hide, yellow};
}

inline std::vector<Recipe> small_recipes() {
  Recipe bridge;
  bridge.key = "bridge";
  bridge.name = "Bridge";
  bridge.glues = {SheetId{2}, SheetId{1}};
  bridge.stage = Minutes{10};
  bridge.assembly = Minutes{4};
  bridge.release = Minutes{5};
  bridge.needs = {need_of(GearClass::clamp, 4)};
  bridge.finish = "string up";
  Recipe braces = bridge;
  braces.key = "braces";
  braces.name = "Top braces";
  braces.needs = {need_of(GearClass::deck, 1)};
  return {bridge, braces};
}

inline Shop small_shop() {
  Shop shop;
  shop.name = "Small shop";
  shop.zone = "Europe/Dublin";
  for (std::size_t d = 1; d <= 5; ++d) shop.hours.weekday[d] = {{8 * 60, 18 * 60}};
  shop.benches = {{{}, "b1", "Bench 1"}, {{}, "b2", "Bench 2"}};
  shop.builders = {{{}, "ida", "Ida", BenchId{1}, {}}, {{}, "ola", "Ola Nord", BenchId{2}, {}}};
  shop.gear = small_gear();
  shop.sheets = small_sheets();
  shop.recipes = small_recipes();
  Build build;
  build.key = "n14";
  build.name = "No. 14";
  build.builder = BuilderId{1};
  build.steps = {RecipeId{2}, RecipeId{1}};
  shop.builds = {build};
  return shop;
}

inline constexpr RecipeId kBridge{1}, kBraces{2};
inline constexpr BuilderId kIda{1}, kOla{2};
inline constexpr SheetId kHide{1}, kYellow{2};
inline constexpr GearKindId kDeep{1}, kDeck{2};

// Decides as a server does. `now` is moved by the test.
struct PlayedFloor {
  Floor floor;
  Instant now = kMorning;
  std::uint8_t last_id = 0;

  PlayedFloor() {
    const auto loaded = press(LoadShop{small_shop()});
    CHECK(!loaded.has_value());
  }
  // The refusal, when it was one.
  std::optional<Refusal> press(Body body) {
    CommandId id;
    id.bytes[0] = ++last_id;
    Step done = step(floor, {id, {}, now, std::move(body)});
    if (done.answer) return std::nullopt;
    return done.answer.error();
  }
  GlueUpId reserve(RecipeId recipe, BuilderId builder, BuildId build = {}, int stage = 0) {
    const auto no = press(Reserve{.recipe = recipe,
                                  .build = build,
                                  .step = stage,
                                  .builder = builder,
                                  .bench = {},
                                  .sheet = {},
                                  .after = now,
                                  .start = {}});
    EXPECT_FALSE(no.has_value());
    return GlueUpId{floor.last_glue_up};
  }
};

}  // namespace squeezeout::testing
