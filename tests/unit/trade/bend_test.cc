#include "common/trade/bend.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/unit/trade/any.h"
#include "tests/unit/trade/refused.h"

namespace squeezeout {
namespace {

RC_GTEST_PROP(BendStrain, ThickerOrTighterStretchesMore, ()) {
  const double thickness = *across(.1, 100), radius = *across(1, 10000);
  const double strain = bend_strain({thickness}, {radius})->value;
  RC_ASSERT(strain > 0 && strain < 100);
  RC_ASSERT(bend_strain({std::max(thickness, *across(.1, 100))}, {radius})->value >= strain);
  RC_ASSERT(bend_strain({thickness}, {std::max(radius, *across(1, 10000))})->value <= strain);
}

TEST(BendStrain, Refuses) {
  for (const double bad : {0.0, -1.0, kNan, kInfinite}) {
    EXPECT_TRUE(refused(bend_strain({bad}, {60}), bad)) << bad;
    EXPECT_TRUE(refused(bend_strain({2.2}, {bad}), bad)) << bad;
  }
}

TEST(Touch, AnUnreadThermometerIsHot) {
  EXPECT_EQ(touch({kNan}), Touch::hot);
  EXPECT_EQ(touch({kInfinite}), Touch::hot);
  EXPECT_EQ(touch({-kInfinite}), Touch::safe);
}

TEST(SafeToTouch, OneTimeConstant) {
  // From e times as far above the air as 43 C is: one time constant.
  const double now = 20 + 23 * std::exp(1.0);
  EXPECT_EQ(*safe_to_touch_in({now - 1e-9}, {20}, Seconds{1800}), Seconds{1800});
  EXPECT_EQ(*safe_to_touch_in({now + 1e-6}, {20}, Seconds{1800}), Seconds{1801});
  EXPECT_EQ(*safe_to_touch_in({43}, {20}, Seconds{1800}), Seconds{0});
  EXPECT_EQ(*safe_to_touch_in({-5}, {20}, Seconds{1800}), Seconds{0});
  EXPECT_GT(*safe_to_touch_in({43.01}, {20}, Seconds{1800}), Seconds{0});
}

RC_GTEST_PROP(SafeToTouch, IsSafeThenAndNotASecondSooner, ()) {
  const double now = *between(43.01, 500), air = *between(-30, 42);
  const int constant = *rc::gen::inRange(1, 86401);
  const Seconds wait = *safe_to_touch_in({now}, {air}, Seconds{constant});
  const auto after = [&](Seconds s) {
    return Celsius{air + (now - air) * std::exp(-static_cast<double>(s.count()) / constant)};
  };
  RC_ASSERT(after(wait).value <= 43 + 1e-9);
  RC_ASSERT(after(wait - Seconds{1}).value > 43 - 1e-9);
}

RC_GTEST_PROP(SafeToTouch, HotterFormOrWarmerAirIsNeverSooner, ()) {
  const double now = *between(-30, 500), air = *between(-30, 42);
  const Seconds wait = *safe_to_touch_in({now}, {air}, Seconds{1800});
  RC_ASSERT(*safe_to_touch_in({std::max(now, *between(-30, 500))}, {air}, Seconds{1800}) >= wait);
  RC_ASSERT(*safe_to_touch_in({now}, {std::max(air, *between(-30, 42))}, Seconds{1800}) >= wait);
}

TEST(SafeToTouch, Refuses) {
  for (const double bad : {-300.0, kNan, kInfinite, 900.0}) {
    EXPECT_TRUE(refused(safe_to_touch_in({bad}, {20}, Seconds{1800}), bad)) << bad;
    EXPECT_TRUE(refused(safe_to_touch_in({150}, {bad}, Seconds{1800}), bad)) << bad;
  }
  // Air in which it never comes to be safe, whatever it is now.
  EXPECT_TRUE(refused(safe_to_touch_in({150}, {43}, Seconds{1800}), 43));
  for (const int bad : {0, -1, 86401})
    EXPECT_TRUE(refused(safe_to_touch_in({150}, {20}, Seconds{bad}), bad)) << bad;
}

}  // namespace
}  // namespace squeezeout
