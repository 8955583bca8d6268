#include "common/trade/elastica.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tests/unit/trade/any.h"
#include "tests/unit/trade/refused.h"

namespace squeezeout {
namespace {

constexpr Rod kAsh{.length = {700}, .width = {12}, .thickness = {5}, .modulus = {13.5}};

rc::Gen<Rod> rods() {
  return rc::gen::exec([] {
    return Rod{{*across(50, 5000)}, {*across(.5, 100)}, {*across(.5, 100)}, {*across(.5, 250)}};
  });
}
// A gap that the rod springs into, as a part of its length.
rc::Gen<double> shares() { return between(.457, .9996); }

RC_GTEST_PROP(GoBar, SpringsAndPushesHarderThanItsCriticalLoad, ()) {
  const Rod rod = *rods();
  const Result<Sprung, OutOfRange> s = sprung(rod, {rod.length.value * *shares()});
  RC_ASSERT(s.has_value());
  RC_ASSERT(std::isfinite(s->bending.value) && s->bending.value > 0);
  RC_ASSERT(s->force > critical_load(rod));
  RC_ASSERT(s->force.value < critical_load(rod).value * 1.4);  // nearly constant
  RC_ASSERT(s->bow.value > 0 && s->bow.value < rod.length.value * .41);
  RC_ASSERT(s->end_slope_degrees > 0 && s->end_slope_degrees <= 90);
}

// The curve that was found ends where the gap is.
RC_GTEST_PROP(GoBar, EndsAtItsGap, ()) {
  const Rod rod = *rods();
  const double gap = rod.length.value * *shares();
  const double alpha = sprung(rod, {gap})->end_slope_degrees * std::numbers::pi / 180;
  RC_ASSERT(std::abs(elastica(alpha).chord * rod.length.value - gap) <= 1e-12 * rod.length.value);
}

RC_GTEST_PROP(GoBar, ATighterGapBowsBendsAndPushesMore, ()) {
  const Rod rod = *rods();
  const double a = *shares(), b = *shares();
  RC_PRE(a < b);
  const Sprung tight = *sprung(rod, {rod.length.value * a});
  const Sprung loose = *sprung(rod, {rod.length.value * b});
  RC_ASSERT(tight.force > loose.force);
  RC_ASSERT(tight.bending > loose.bending);
  RC_ASSERT(tight.end_slope_degrees > loose.end_slope_degrees);
}

RC_GTEST_PROP(GoBar, ALongerRodIsSofter, ()) {
  Rod rod = *rods();
  const double gap = rod.length.value * *shares();
  const double force = sprung(rod, {gap})->force.value;
  rod.length = rod.length * *between(1.001, 2);
  RC_PRE(rod.length.value <= 5000);
  RC_ASSERT(critical_load(rod).value < force);
  if (const auto longer = sprung(rod, {gap})) RC_ASSERT(longer->force.value < force);
}

RC_GTEST_PROP(GoBar, BendsAboutItsSmallerSide, ()) {
  const Rod rod = *rods();
  Rod turned = rod;
  std::swap(turned.width, turned.thickness);
  const double gap = rod.length.value * .9;
  RC_ASSERT(sprung(rod, {gap})->force == sprung(turned, {gap})->force);
  RC_ASSERT(sprung(rod, {gap})->bending == sprung(turned, {gap})->bending);
}

RC_GTEST_PROP(GoBar, LengthForInvertsSprung, ()) {
  Rod rod = *rods();
  rod.length = {*across(110, 2000)};
  const double gap = rod.length.value * *shares();
  const Newton force = sprung(rod, {gap})->force;
  Rod section = rod;
  section.length = {kNan};  // not read
  const Result<Millimetre, OutOfRange> length = length_for(section, {gap}, force);
  RC_ASSERT(length.has_value());
  // Near the flat end the gap decides the length and the force is level: 1e-9 of the length.
  RC_ASSERT(std::abs(length->value - rod.length.value) <= 1e-9 * rod.length.value);
  rod.length = *length;
  RC_ASSERT(std::abs(sprung(rod, {gap})->force.value - force.value) <= 1e-9 * force.value);
}

// The longest and the shortest answer fit the gap they are for.
RC_GTEST_PROP(GoBar, LengthForAtItsLimitsIsALengthThatSprings, ()) {
  Rod rod = *rods();
  const Millimetre gap{*between(60, 2000)};
  const OutOfRange no = length_for(rod, gap, {0}).error();
  for (const double force : {no.least, no.most}) {
    const Result<Millimetre, OutOfRange> length = length_for(rod, gap, {force});
    RC_ASSERT(length.has_value());
    rod.length = *length;
    RC_ASSERT(sprung(rod, gap).has_value());
  }
}

RC_GTEST_PROP(GoBar, BarsAreEnoughAndNotOneTooMany, ()) {
  const Rod rod = *rods();
  const Millimetre gap{rod.length.value * *shares()};
  const double one = sprung(rod, gap)->force.value;
  const double wanted = std::min(1e6, one * *across(.01, 9999));
  const int n = *bars_for({wanted}, rod, gap);
  RC_ASSERT(n * one >= wanted * (1 - 2e-12));
  if (n > 1) RC_ASSERT((n - 1) * one < wanted);
}

TEST(GoBar, Bars) {
  EXPECT_EQ(*bars_for({500}, kAsh, {665}), 15);
  EXPECT_EQ(*bars_for({0}, kAsh, {665}), 1);
}

TEST(GoBar, StraightAtNoSlope) {
  const Elastica straight = elastica(0);
  EXPECT_DOUBLE_EQ(straight.load, 1);
  EXPECT_DOUBLE_EQ(straight.chord, 1);
  EXPECT_EQ(straight.bow, 0);
}

TEST(GoBar, RefusesAGapThatDoesNotFitAndSaysWhichRodWould) {
  const auto too_wide = sprung(kAsh, {700});
  EXPECT_TRUE(refused(too_wide, 700));
  EXPECT_STREQ(too_wide.error().mend, "take a longer bar");
  const auto too_short = sprung(kAsh, {300});
  EXPECT_TRUE(refused(too_short, 300));
  EXPECT_STREQ(too_short.error().mend, "take a shorter bar");
  EXPECT_NEAR(too_short.error().least, 700 * .456947, 1e-3);
  for (const double bad : {0.0, -665.0, kNan, kInfinite, 701.0}) {
    EXPECT_TRUE(refused(sprung(kAsh, {bad}), bad)) << bad;
    EXPECT_TRUE(refused(bars_for({100}, kAsh, {bad}), bad)) << bad;
    EXPECT_TRUE(refused(length_for(kAsh, {bad < 700 ? bad : 1e4}, {35}), bad < 700 ? bad : 1e4));
  }
}

TEST(GoBar, RefusesAForceThatNoLengthGives) {
  const auto strong = length_for(kAsh, {665}, {100});
  EXPECT_TRUE(refused(strong, 100));
  EXPECT_STREQ(strong.error().mend, "take a thicker bar, or more bars");
  const auto weak = length_for(kAsh, {665}, {1});
  EXPECT_TRUE(refused(weak, 1));
  EXPECT_STREQ(weak.error().mend, "take a thinner bar");
  for (const double bad : {0.0, -1.0, kNan, kInfinite})
    EXPECT_TRUE(refused(length_for(kAsh, {665}, {bad}), bad)) << bad;
  for (const double bad : {-1.0, kNan, kInfinite})
    EXPECT_TRUE(refused(bars_for({bad}, kAsh, {665}), bad)) << bad;
  const Rod hair{.length = {700}, .width = {.5}, .thickness = {.5}, .modulus = {.5}};
  EXPECT_FALSE(bars_for({1e6}, hair, {665}));
}

TEST(GoBar, RefusesWhatIsNoRod) {
  for (const double bad : {0.0, -5.0, kNan, kInfinite}) {
    const auto without = [&](auto change) {
      Rod rod = kAsh;
      change(rod);
      EXPECT_TRUE(refused(sprung(rod, {665}), bad)) << bad;
      EXPECT_TRUE(refused(bars_for({100}, rod, {665}), bad)) << bad;
    };
    without([&](Rod& r) { r.length = {bad}; });
    without([&](Rod& r) { r.width = {bad}; });
    without([&](Rod& r) { r.thickness = {bad}; });
    without([&](Rod& r) { r.modulus = {bad}; });
    Rod section = kAsh;
    section.thickness = {bad};
    EXPECT_TRUE(refused(length_for(section, {665}, {35}), bad)) << bad;
  }
}

TEST(GoBarDeathTest, ASlopeOfHalfATurnIsABug) {
  EXPECT_DEATH(static_cast<void>(elastica(std::numbers::pi)), "does not hold");
  EXPECT_DEATH(static_cast<void>(elastica(-.1)), "does not hold");
  EXPECT_DEATH(static_cast<void>(elastica(kNan)), "does not hold");
}

}  // namespace
}  // namespace squeezeout
