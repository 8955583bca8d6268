// The limits of the moisture formulas; their published figures stand in tests/published/trade.

#include "common/trade/moisture.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace squeezeout {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

// A refusal names its range and what to do.
template <class T>
void expect_refused(const Result<T, OutOfRange>& no, double least, double most) {
  ASSERT_FALSE(no);
  EXPECT_EQ(no.error().least, least);
  EXPECT_EQ(no.error().most, most);
  EXPECT_STRNE(no.error().what, "");
  EXPECT_STRNE(no.error().mend, "");
  EXPECT_FALSE(no.error().value >= least && no.error().value <= most);
}

TEST(EquilibriumMoisture, IsFiniteAndRisesWithHumidity) {
  for (double c = -1.1; c <= 98.9; c += 0.5) {
    double before = 0;
    for (double h = 5; h <= 95; h += 1) {
      const double now = equilibrium_moisture({c}, {h})->value;
      ASSERT_TRUE(std::isfinite(now)) << c << " " << h;
      ASSERT_GT(now, before) << c << " " << h;
      before = now;
    }
  }
  for (const double c : {-1.2, 99.0, kNan})
    expect_refused(equilibrium_moisture({c}, {50}), -1.1, 98.9);
  for (const double h : {4.9, 95.1, kNan}) expect_refused(equilibrium_moisture({20}, {h}), 5, 95);
}

TEST(Movement, GoesBothWaysAndOnlyInTheStraightPart) {
  EXPECT_NEAR(movement({400}, .0015, {8}, {10})->value, 1.2, 1e-12);
  EXPECT_NEAR(movement({400}, .0015, {10}, {8})->value, -1.2, 1e-12);
  EXPECT_EQ(movement({0}, .0015, {6}, {14})->value, 0);
  for (const double m : {5.9, 14.1, kNan}) {
    expect_refused(movement({400}, .0015, {m}, {8}), 6, 14);
    expect_refused(movement({400}, .0015, {8}, {m}), 6, 14);
  }
  for (const double size : {-1.0, 5001.0, kNan})
    expect_refused(movement({size}, .0015, {8}, {9}), 0, 5000);
  for (const double k : {-.001, .011, kNan}) expect_refused(movement({400}, k, {8}, {9}), 0, .01);
}

TEST(GlueWater, IsAMassBalance) {
  // 75 g of water on a square metre of 2.5 mm spruce, which weighs 1 kg.
  EXPECT_NEAR(glue_water(150, .5, {400}, {2.5})->value, 7.5, 1e-12);
  EXPECT_EQ(glue_water(150, 0, {400}, {2.5})->value, 0);
  for (const double g : {-1.0, 1001.0, kNan})
    expect_refused(glue_water(g, .5, {400}, {2.5}), 0, 1000);
  for (const double w : {-.1, 1.1, kNan}) expect_refused(glue_water(150, w, {400}, {2.5}), 0, 1);
  for (const double d : {0.0, 1501.0, kNan})
    expect_refused(glue_water(150, .5, {d}, {2.5}), 50, 1500);
  for (const double t : {0.0, 101.0, kNan})
    expect_refused(glue_water(150, .5, {400}, {t}), .1, 100);
}

TEST(LevellingWait, LeavesLessThanOnePercent) {
  EXPECT_EQ(*levelling_wait({0.9}, {2.5}), Seconds{0});
  EXPECT_EQ(*levelling_wait({1}, {2.5}), Seconds{0});
  for (double added = 1.5; added <= 100; added *= 1.3) {
    for (double mm = 0.1; mm <= 20; mm *= 1.3) {
      const double s = static_cast<double>(levelling_wait({added}, {mm})->count());
      EXPECT_LE(added * std::exp(-s / (24 * 60 * mm * mm)), 1 + 1e-9) << added << " " << mm;
    }
  }
  // The seam of a plate: overnight is enough, an hour is not.
  EXPECT_GT(*levelling_wait({7.5}, {2.5}), std::chrono::hours{3});
  EXPECT_LT(*levelling_wait({7.5}, {2.5}), std::chrono::hours{12});
  EXPECT_EQ(*levelling_wait({100}, {100}), kMaxClaim);
  for (const double a : {-.1, 101.0, kNan}) expect_refused(levelling_wait({a}, {2.5}), 0, 100);
  for (const double t : {0.0, 101.0, kNan}) expect_refused(levelling_wait({7}, {t}), .1, 100);
}

}  // namespace
}  // namespace squeezeout
