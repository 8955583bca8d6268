#include "common/trade/dwell.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "tests/unit/trade/night.h"

namespace squeezeout {
namespace {

TEST(Chemistry, SaysWhatMakesItSet) {
  int water = 0, reaction = 0, solvent = 0;
  for (int i = 0; i < kChemistries; ++i) {
    const auto c = static_cast<Chemistry>(i);
    EXPECT_FALSE(to_string(c).empty());
    water += sets(c) == Sets::by_water;
    reaction += sets(c) == Sets::by_reaction;
    solvent += sets(c) == Sets::by_solvent;
    EXPECT_EQ(mixed(c), c == Chemistry::epoxy_fast || c == Chemistry::epoxy_slow);
  }
  EXPECT_EQ(water, 7);
  EXPECT_EQ(reaction, 4);
  EXPECT_EQ(solvent, 1);
  EXPECT_EQ(sets(Chemistry::hide_hot), Sets::by_water);
  EXPECT_EQ(sets(Chemistry::polyurethane), Sets::by_reaction);
}

TEST(Dwell, IsStraightBetweenPointsAndConstantBeyondTheWarmest) {
  const AdhesiveSheet s = aliphatic();
  EXPECT_EQ(*dwell_at(s, {10}), Minutes{60});
  EXPECT_EQ(*dwell_at(s, {20}), Minutes{45});
  EXPECT_EQ(*dwell_at(s, {25}), Seconds{2250});
  EXPECT_EQ(*dwell_at(s, {30}), Minutes{30});
  EXPECT_EQ(*dwell_at(s, {39}), Minutes{30});
  EXPECT_EQ(*dwell_at(s, {20.001}), Seconds{2700}) << "2699.91 s, up";
}

TEST(Dwell, IsHeldBetweenTheFloorAndTheColdestPoint) {
  AdhesiveSheet s = aliphatic();
  s.floor = {7};
  EXPECT_EQ(*dwell_at(s, {7}), Minutes{60});
}

TEST(Dwell, IsRefusedBelowTheFloor) {
  for (const AdhesiveSheet& s : {aliphatic(), slow_epoxy()}) {
    for (const double c :
         {s.floor.value - 0.001, -40.0, std::numeric_limits<double>::quiet_NaN()}) {
      const auto no = dwell_at(s, {c});
      ASSERT_FALSE(no) << c;
      EXPECT_EQ(no.error().floor, s.floor);
      EXPECT_EQ(no.error().sheet, s.id);
    }
    // What the integral divides by is held there.
    EXPECT_EQ(dwell_seconds(s, {-40}), dwell_seconds(s, s.floor));
  }
}

TEST(Dwell, OfAReactingGlueFollowsOnePointBothWays) {
  const AdhesiveSheet s = slow_epoxy();
  EXPECT_EQ(*dwell_at(s, {21}), Minutes{480});
  EXPECT_NEAR(dwell_seconds(s, {31}) * reaction_ratio(55, {21}, {31}), 28800, 1e-6);
  EXPECT_NEAR(dwell_seconds(s, {10}) / reaction_ratio(55, {10}, {21}), 28800, 1e-6);
}

TEST(Dwell, FallsWithWarmthAndIsFiniteForAnyAir) {
  AdhesiveSheet slowest = slow_epoxy();
  slowest.activation_kj = 200;
  slowest.floor = {-40};
  for (const AdhesiveSheet& s : {aliphatic(), slow_epoxy(), slowest}) {
    double before = std::numeric_limits<double>::infinity();
    for (double c = -40; c <= 60; c += 0.05) {
      const double now = dwell_seconds(s, {c});
      ASSERT_TRUE(std::isfinite(now) && now >= 1) << c;
      ASSERT_LE(now, before) << c;
      before = now;
      if (const auto whole = dwell_at(s, {c})) {
        ASSERT_GE(static_cast<double>(whole->count()), now - 1e-5) << c;
        ASSERT_LE(*whole, kMaxClaim);
      }
    }
  }
}

TEST(WholeSeconds, GoUpButNotForRounding) {
  EXPECT_EQ(whole_seconds_up(1800), Seconds{1800});
  EXPECT_EQ(whole_seconds_up(1800.0000000005), Seconds{1800});
  EXPECT_EQ(whole_seconds_up(1800.001), Seconds{1801});
  EXPECT_EQ(whole_seconds_up(0), Seconds{0});
}

}  // namespace
}  // namespace squeezeout
