// What hangs on the hour: too cold, skins first, solvent beside a hot form.

#include <gtest/gtest.h>

#include "common/plan/slot.h"
#include "common/time/rfc3339.h"

namespace squeezeout {
namespace {

using namespace std::chrono_literals;

Instant at(const char* text) { return *parse_rfc3339(text); }
const Instant kTen = at("2026-11-26T10:00:00Z");

constexpr GearKindId kClamp{1}, kForm{2};

AdhesiveSheet resin() {
  AdhesiveSheet s;
  s.id = SheetId{1};
  s.chemistry = Chemistry::aliphatic;
  s.open = 5min;
  s.dwell = {{{10}, 60min}, {{20}, 30min}};
  s.floor = {10};
  return s;
}

struct Shop {
  std::vector<GearKind> kinds;
  GearLedger gear;
  BuilderLedger builders;
  Hours hours{*Zone::find("Etc/UTC"), always()};
  std::map<GlueUpId, Span> fumes;
  Recipe recipe;
  AdhesiveSheet sheet = resin();

  Shop() {
    kinds = {{.id = kClamp, .key = "clamp", .stock = 10},
             {.id = kForm, .key = "form", .gear_class = GearClass::form, .stock = 1, .hot = true}};
    for (const GearKind& k : kinds) gear.set_stock(k.id, k.stock);
    recipe.glues = {sheet.id};
    recipe.stage = 5min;
    recipe.assembly = 4min;
    recipe.release = 5min;
    recipe.needs = {{.gear_class = GearClass::clamp, .count = 4}};
  }
  static WeekHours always() {
    WeekHours w;
    for (auto& day : w.weekday) day = {{0, 1440}};
    return w;
  }
  SlotView view() const { return {gear, builders, kinds, hours, fumes}; }
  SlotQuery query(std::vector<AirPoint> weather) const {
    SlotQuery q;
    q.demand = demand_of(recipe, &sheet, recipe.assembly);
    q.builder = BuilderId{1};
    q.after = kTen;
    q.curing = std::make_shared<const Curing>(
        recipe, sheet, std::make_shared<Climate>(Weather{std::move(weather)}));
    return q;
  }
};

TEST(Hour, DwellIsThatOfTheHour) {
  const Shop shop;
  const auto warm = earliest_slot(shop.view(), shop.query({{kTen, {20}, {50}}}));
  EXPECT_EQ(warm->times.release_begin - warm->times.clamped_begin, 30min);
  const auto cool = earliest_slot(shop.view(), shop.query({{kTen, {10}, {50}}}));
  EXPECT_EQ(cool->times.release_begin - cool->times.clamped_begin, 60min);
  // The cold comes while it is clamped: between the two.
  const auto falling =
      earliest_slot(shop.view(), shop.query({{kTen, {20}, {50}}, {kTen + 1h, {10}, {50}}}));
  const Seconds dwell = falling->times.release_begin - falling->times.clamped_begin;
  EXPECT_GT(dwell, 30min);
  EXPECT_LT(dwell, 60min);
}

TEST(Hour, BelowTheFloorItWaitsUntilItIsWarm) {
  const Shop shop;
  const auto slot = earliest_slot(
      shop.view(),
      shop.query({{kTen, {6}, {50}}, {kTen + 2h, {6}, {50}}, {kTen + 4h, {20}, {50}}}));
  ASSERT_TRUE(slot);
  ASSERT_FALSE(slot->why_not_earlier.empty());
  const auto& cold = std::get<TooCold>(slot->why_not_earlier.front().fact);
  EXPECT_EQ(cold.floor, Celsius{10});
  EXPECT_EQ(cold.wood, Celsius{6});
  // 6 to 20 C in two hours: 10 C after 34 min 17 s.
  EXPECT_EQ(cold.until, kTen + 2h + 35min);
  EXPECT_EQ(slot->times.open_begin, *cold.until);
}

TEST(Hour, TheFloorCountsUntilTheEndOfTheDwell) {
  const Shop shop;
  // Warm when it is spread; below the floor 25 minutes later, before the film has formed.
  const std::vector<AirPoint> night{
      {kTen, {20}, {50}}, {kTen + 25min, {20}, {50}}, {kTen + 26min, {5}, {50}}};
  const auto at_ten = slot_at(shop.view(), shop.query(night), kTen);
  ASSERT_FALSE(at_ten);
  EXPECT_TRUE(std::holds_alternative<TooCold>(at_ten.error().why.front().fact));
  EXPECT_FALSE(std::get<TooCold>(at_ten.error().why.front().fact).until);
  EXPECT_FALSE(earliest_slot(shop.view(), shop.query(night)));
}

TEST(Hour, AGlueThatSkinsFirstWaitsForACoolerHour) {
  const Shop shop;
  const std::vector<AirPoint> noon{
      {kTen, {32}, {30}}, {kTen + 3h, {32}, {30}}, {kTen + 5h, {20}, {50}}};
  SlotQuery q = shop.query(noon);
  const auto slot = earliest_slot(shop.view(), q);
  ASSERT_TRUE(slot);
  EXPECT_GT(slot->times.stage_begin, kTen + 3h);
  const auto& skins = std::get<SkinsFirst>(slot->why_not_earlier.front().fact);
  EXPECT_EQ(skins.assembly, 4min);
  EXPECT_LT(skins.open, 4min);
  q.open_time = SlotQuery::Open::ignore;  // knowingly
  EXPECT_EQ(earliest_slot(shop.view(), q)->times.stage_begin, kTen);
}

TEST(Hour, SolventNeverBesideAHotForm) {
  Shop shop;
  shop.gear.put(Holder::of(GlueUpId{7}), {{kForm, 1, {kTen, kTen + 2h}}});
  SlotQuery q = shop.query({{kTen, {20}, {50}}});
  q.demand.fumes = 14min;
  const auto slot = earliest_slot(shop.view(), q);
  EXPECT_EQ(slot->times.open_begin, kTen + 2h);
  EXPECT_EQ(std::get<BesideHeat>(slot->why_not_earlier.front().fact),
            (BesideHeat{GlueUpId{7}, kTen + 2h}));
  // And the form waits until the solvent is gone.
  shop.gear.put(Holder::of(GlueUpId{7}), {});
  shop.fumes[GlueUpId{8}] = {kTen, kTen + 20min};
  SlotQuery bend;
  bend.demand = {.stage = 5min, .assembly = 20min, .dwell = 60min, .release = 5min};
  bend.demand.needs = {{.gear_class = GearClass::form, .count = 1}};
  bend.after = kTen;
  bend.builder = BuilderId{2};
  const auto hot = earliest_slot(shop.view(), bend);
  EXPECT_EQ(hot->times.stage_begin, kTen + 20min);
  EXPECT_EQ(std::get<BesideHeat>(hot->why_not_earlier.front().fact).with, GlueUpId{8});
}

}  // namespace
}  // namespace squeezeout
