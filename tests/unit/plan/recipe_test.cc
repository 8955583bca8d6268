#include "common/craft/recipe.h"

#include <gtest/gtest.h>

namespace squeezeout {
namespace {

using namespace std::chrono_literals;

AdhesiveSheet resin() {
  AdhesiveSheet s;
  s.id = SheetId{1};
  s.open = 5min;
  s.dwell = {{{12}, 120min}, {{20}, 60min}, {{30}, 30min}};
  s.wait = 3h;
  s.floor = {10};
  return s;
}

TEST(DwellAt, LinearBetweenPointsHeldOutsideAndRoundedUp) {
  const AdhesiveSheet s = resin();
  EXPECT_EQ(*dwell_at(s, {20}), 60min);
  EXPECT_EQ(*dwell_at(s, {16}), 90min);
  EXPECT_EQ(*dwell_at(s, {25}), 45min);
  EXPECT_EQ(*dwell_at(s, {35}), 30min);  // warmth beyond the sheet earns nothing
  EXPECT_EQ(*dwell_at(s, {11}), 120min);
  EXPECT_EQ(*dwell_at(s, {20.001}), 3600s);  // 3599.82 s: down would free a clamp early
  EXPECT_EQ(*dwell_at(s, {29.9999}), 1801s);
}

TEST(DwellAt, RefusesBelowTheFloor) {
  EXPECT_TRUE(dwell_at(resin(), {10}));
  const auto cold = dwell_at(resin(), {9.9});
  ASSERT_FALSE(cold);
  EXPECT_EQ(cold.error(), (BelowFloor{SheetId{1}, {9.9}, {10}}));
  EXPECT_FALSE(dwell_at(resin(), {std::numeric_limits<double>::quiet_NaN()}));
}

Recipe recipe() {
  Recipe r;
  r.glues = {SheetId{1}};
  r.stage = 5min;
  r.assembly = 4min;
  r.release = 5min;
  return r;
}

TEST(DemandOf, TakesTheSheetUnlessTheRecipeAsksForMore) {
  const AdhesiveSheet s = resin();
  Recipe r = recipe();
  EXPECT_EQ(demand_of(r, &s, {20})->dwell, 60min);
  EXPECT_EQ(demand_of(r, &s, {20})->wait, 3h);
  EXPECT_EQ(demand_of(r, &s, {20})->open_limit, 5min);
  r.dwell = 90min;
  r.wait = 24h;
  EXPECT_EQ(demand_of(r, &s, {20})->dwell, 90min);
  EXPECT_EQ(demand_of(r, &s, {12})->dwell, 120min);  // the cold asks for more than the recipe
  EXPECT_EQ(demand_of(r, &s, {20})->wait, 24h);
}

TEST(DemandOf, Refuses) {
  const AdhesiveSheet s = resin();
  Recipe r = recipe();
  EXPECT_TRUE(std::holds_alternative<BelowFloor>(demand_of(r, &s, {5}).error()));
  EXPECT_TRUE(std::holds_alternative<GlueNotInRecipe>(demand_of(r, nullptr, {20}).error()));
  r.assembly = 6min;
  EXPECT_EQ(std::get<OpenTooShort>(demand_of(r, &s, {20}).error()),
            (OpenTooShort{SheetId{1}, 6min, 5min}));
  r.glues = {SheetId{2}};
  EXPECT_TRUE(std::holds_alternative<GlueNotInRecipe>(demand_of(r, &s, {20}).error()));
}

}  // namespace
}  // namespace squeezeout
