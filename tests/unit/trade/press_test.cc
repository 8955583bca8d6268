#include "common/trade/press.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "common/trade/material.h"
#include "tests/unit/trade/any.h"
#include "tests/unit/trade/refused.h"

namespace squeezeout {
namespace {

rc::Gen<double> pressures() { return across(.01, 20); }
rc::Gen<double> areas() { return across(1, 1e7); }
rc::Gen<double> forces() { return across(1, 1e5); }

TEST(PressureWanted, IsLevelBeyondItsEnds) {
  EXPECT_EQ(pressure_wanted(-1), pressure_wanted(.35));
  EXPECT_EQ(pressure_wanted(0), pressure_wanted(.35));
  EXPECT_EQ(pressure_wanted(1.2), pressure_wanted(.80));
  EXPECT_EQ(pressure_wanted(kInfinite), pressure_wanted(.80));
}

RC_GTEST_PROP(PressureWanted, RisesWithTheWoodAndIsABand, ()) {
  const double light = *between(0, 1.5), dense = *between(0, 1.5);
  const Band band = pressure_wanted(light);
  RC_ASSERT(0 < band.low && band.low <= band.value && band.value <= band.high);
  RC_ASSERT(pressure_wanted(std::min(light, dense)).value <=
            pressure_wanted(std::max(light, dense)).value);
}

TEST(ClampsByForce, AWholeQuotientStaysWhole) {
  // 0.7 * 1000 / 7 is 100.00000000000001 in doubles.
  EXPECT_EQ(*clamps_by_force({.7}, {1000}, {7}), 100);
  for (int n = 1; n <= 2000; ++n) {
    EXPECT_EQ(*clamps_by_force({.7}, {n * 10.0}, {7}), n);
    EXPECT_EQ(*clamps_by_force({.1}, {n * 30.0}, {3}), n);
    EXPECT_EQ(*clamps_by_force({.7}, {n * 10.0 + .001}, {7}), n + 1);
  }
}

TEST(ClampsByForce, AtLeastOne) { EXPECT_EQ(*clamps_by_force({.01}, {1}, {1e5}), 1); }

RC_GTEST_PROP(ClampsByForce, IsEnoughAndNotOneTooMany, ()) {
  const double p = *pressures(), area = *areas(), force = *forces();
  const int n = *clamps_by_force({p}, {area}, {force});
  RC_ASSERT(pressure_achieved(n, {force}, {area}).value >= p * (1 - 2e-12));
  if (n > 1) RC_ASSERT(pressure_achieved(n - 1, {force}, {area}).value < p);
}

RC_GTEST_PROP(ClampsByForce, MoreAreaOrPressureNeverNeedsFewerNorMoreForceMore, ()) {
  const double p = *pressures(), area = *areas(), force = *forces();
  const int n = *clamps_by_force({p}, {area}, {force});
  RC_ASSERT(*clamps_by_force({p}, {std::max(area, *areas())}, {force}) >= n);
  RC_ASSERT(*clamps_by_force({std::max(p, *pressures())}, {area}, {force}) >= n);
  RC_ASSERT(*clamps_by_force({p}, {area}, {std::max(force, *forces())}) <= n);
}

TEST(ClampsByForce, Refuses) {
  for (const double bad : {0.0, -1.0, kNan, kInfinite, 1e9}) {
    EXPECT_TRUE(refused(clamps_by_force({bad}, {4500}, {1000}), bad)) << bad;
    EXPECT_TRUE(refused(clamps_by_force({.7}, {bad}, {1000}), bad)) << bad;
    EXPECT_TRUE(refused(clamps_by_force({.7}, {4500}, {bad}), bad)) << bad;
  }
}

RC_GTEST_PROP(ClampsBySpread, CoversTheLineAndIsNotOneTooMany, ()) {
  const double length = *across(1, 20000), pad = *across(1, 1000), under = *between(0, 500);
  const int n = *clamps_by_spread({length}, {pad}, {under});
  RC_ASSERT(n * (pad + 2 * under) >= length * (1 - 2e-12));
  if (n > 1) RC_ASSERT((n - 1) * (pad + 2 * under) < length);
}

RC_GTEST_PROP(ClampsBySpread, LongerNeverNeedsFewerNorAThickerCaulMore, ()) {
  const double length = *across(1, 20000), pad = *across(1, 1000), under = *between(0, 500);
  const int n = *clamps_by_spread({length}, {pad}, {under});
  RC_ASSERT(*clamps_by_spread({std::max(length, *across(1, 20000))}, {pad}, {under}) >= n);
  RC_ASSERT(*clamps_by_spread({length}, {pad}, {std::max(under, *between(0, 500))}) <= n);
}

TEST(ClampsBySpread, Refuses) {
  for (const double bad : {0.0, -1.0, kNan, kInfinite}) {
    EXPECT_TRUE(refused(clamps_by_spread({bad}, {25}, {20}), bad)) << bad;
    EXPECT_TRUE(refused(clamps_by_spread({500}, {bad}, {20}), bad)) << bad;
  }
  for (const double bad : {-1.0, kNan, kInfinite})
    EXPECT_TRUE(refused(clamps_by_spread({500}, {25}, {bad}), bad)) << bad;
  EXPECT_TRUE(clamps_by_spread({500}, {25}, {0}));  // no caul
}

TEST(PressureAchieved, IsForceOverArea) {
  EXPECT_DOUBLE_EQ(pressure_achieved(4, {1000}, {4500}).value, 4000.0 / 4500);
  EXPECT_EQ(pressure_achieved(0, {1000}, {4500}).value, 0);
}

TEST(PressureAchievedDeathTest, NoAreaIsABug) {
  EXPECT_DEATH(static_cast<void>(pressure_achieved(4, {1000}, {0})), "does not hold");
  EXPECT_DEATH(static_cast<void>(pressure_achieved(-1, {1000}, {10})), "does not hold");
  EXPECT_DEATH(static_cast<void>(pressure_wanted(kNan)), "does not hold");
}

RC_GTEST_PROP(PadCrush, DenserWoodBearsMore, ()) {
  const double a = *between(.1, 1.3), b = *between(.1, 1.3);
  RC_ASSERT(std::isfinite(pad_crush(a)->value) && pad_crush(a)->value > 0);
  RC_ASSERT((a < b) == (pad_crush(a)->value < pad_crush(b)->value));
}

TEST(PadCrush, RefusesWhatIsNoWood) {
  for (const double bad : {0.0, -.4, kNan, kInfinite, 1.9})
    EXPECT_TRUE(refused(pad_crush(bad), bad)) << bad;
  for (const Material& m : materials()) {
    if (m.plastic || m.key == "bone") continue;
    EXPECT_TRUE(pad_crush(m.specific_gravity)) << m.key;
  }
}

}  // namespace
}  // namespace squeezeout
