// Source: Uno, Plastic Shrinkage Cracking and Evaporation Formulas, ACI Materials Journal 95(4), 1998. That the open time of glue
// goes by it is our own model, so what open_multiplier() caps is not counted as published.

#include "common/trade/evaporation.h"

#include <gtest/gtest.h>

#include <limits>

#include "tests/published/trade/figures.h"

namespace squeezeout {
namespace {

double still(double water, double air, double humidity) {
  return *evaporation({water}, {air}, {humidity}, 0);
}

TEST(Evaporation, Formula) {
  // To one of the last digit given: the third is cut off, not rounded.
  figure("Uno, 20 C, 50 %, kg/m2h", still(20, 20, 50), .0890141, 1e-7);
  figure("Uno, 30 C, 30 %, kg/m2h", still(30, 30, 30), .2234761, 1e-7);
  figure("Uno, 15 C, 70 %, kg/m2h", still(15, 15, 70), .0375349, 1e-7);
  figure("Uno, 20 C, 50 % against 30 C, 30 %", still(20, 20, 50) / still(30, 30, 30), .398, 5e-4);
  figure("Uno, 20 C, 50 % against 70 %", still(20, 20, 50) / still(20, 20, 70), 1.667, 5e-4);
}

TEST(Evaporation, WindAndMoistAir) {
  EXPECT_NEAR(*evaporation({20}, {20}, {50}, 4), 2 * still(20, 20, 50), 1e-12);
  EXPECT_LT(still(5, 20, 95), 0) << "water settles on what is colder than the dew point";
}

TEST(OpenMultiplier, IsCappedBothWays) {
  EXPECT_EQ(*open_multiplier({20}, {20}, {50}), 1);
  EXPECT_NEAR(*open_multiplier({30}, {30}, {30}), .398, 5e-4);
  EXPECT_EQ(*open_multiplier({20}, {20}, {70}), 1.5);
  EXPECT_EQ(*open_multiplier({20}, {20}, {100}), 1.5) << "nothing evaporates";
  EXPECT_EQ(*open_multiplier({5}, {20}, {95}), 1.5) << "water settles";
  EXPECT_EQ(*open_multiplier({60}, {60}, {0}), .25);
}

TEST(Evaporation, RefusesOutsideItsRange) {
  constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
  struct Row {
    double water, air, humidity, wind, least, most;
  };
  for (const Row& row : {Row{-1, 20, 50, 0, 0, 60},
                         {61, 20, 50, 0, 0, 60},
                         {kNan, 20, 50, 0, 0, 60},
                         {20, -1, 50, 0, 0, 60},
                         {20, 61, 50, 0, 0, 60},
                         {20, kNan, 50, 0, 0, 60},
                         {20, 20, -1, 0, 0, 100},
                         {20, 20, 101, 0, 0, 100},
                         {20, 20, kNan, 0, 0, 100},
                         {20, 20, 50, -1, 0, 40},
                         {20, 20, 50, 41, 0, 40},
                         {20, 20, 50, kNan, 0, 40}}) {
    const auto no = evaporation({row.water}, {row.air}, {row.humidity}, row.wind);
    ASSERT_FALSE(no);
    EXPECT_EQ(no.error().least, row.least);
    EXPECT_EQ(no.error().most, row.most);
    EXPECT_STRNE(no.error().mend, "");
  }
  EXPECT_FALSE(open_multiplier({20}, {61}, {50}));
}

}  // namespace
}  // namespace squeezeout
