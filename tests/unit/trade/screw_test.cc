#include "common/trade/screw.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/unit/trade/any.h"
#include "tests/unit/trade/refused.h"

namespace squeezeout {
namespace {

// Any screw that is taken: its lead angle up to 45 degrees.
rc::Gen<Screw> screws() {
  return rc::gen::exec([] {
    Screw s;
    s.diameter = {*across(1, 200)};
    s.pitch = {*across(.1, s.diameter.value)};
    s.half_angle_degrees = *rc::gen::oneOf(rc::gen::element(0.0, 15.0, 30.0), between(0, 45));
    const double most = std::numbers::pi * mean_diameter(s).value / s.pitch.value;
    s.starts = *rc::gen::inRange(1, 1 + std::min(12, static_cast<int>(most)));
    s.friction = *between(0, .5);
    s.collar_friction = *rc::gen::oneOf(rc::gen::just(0.0), between(0, .5));
    s.collar_mean_diameter = {*rc::gen::oneOf(rc::gen::just(0.0), between(0, 400))};
    return s;
  });
}

RC_GTEST_PROP(Screw, ForceInvertsTorque, ()) {
  const Screw s = *screws();
  const double torque = *between(0, 1000);
  const Result<Newton, OutOfRange> force = force_of(s, {torque});
  RC_ASSERT(force.has_value());
  RC_ASSERT(std::isfinite(force->value) && force->value >= 0);
  RC_PRE(force->value <= 1e6);
  RC_ASSERT(std::abs(torque_up(s, *force)->value - torque) <= 1e-9 * (1 + torque));
}

RC_GTEST_PROP(Screw, LooseningIsLighterThanTightening, ()) {
  const Screw s = *screws();
  const double force = *across(1, 1e6);
  const double up = torque_up(s, {force})->value, down = torque_down(s, {force})->value;
  RC_ASSERT(std::isfinite(up) && std::isfinite(down));
  RC_ASSERT(up > 0 && down < up);
}

RC_GTEST_PROP(Screw, WastesNoLessThanNothing, ()) {
  const Screw s = *screws();
  RC_ASSERT(efficiency(s) > 0 && efficiency(s) <= 1 + 1e-12);
}

TEST(Screw, WithoutFrictionWastesNothing) {
  const Screw s{.diameter = {12}, .pitch = {3}, .friction = 0, .collar_friction = 0};
  EXPECT_NEAR(efficiency(s), 1, 1e-12);
  EXPECT_NEAR(torque_up(s, {1000})->value, 3 / (2 * std::numbers::pi), 1e-12);
  EXPECT_NEAR(torque_down(s, {1000})->value, -3 / (2 * std::numbers::pi), 1e-12);
}

RC_GTEST_PROP(Screw, BandHoldsTheForce, ()) {
  const Screw s = *screws();
  const double torque = *between(0, 1000);
  const Band band = force_band(s, {torque});
  RC_ASSERT(0 <= band.low && band.low <= band.value && band.value <= band.high);
  RC_ASSERT(std::isfinite(band.high));
  RC_ASSERT(band.value == force_of(s, {torque})->value);
}

RC_GTEST_PROP(Screw, MoreFrictionGivesLessForce, ()) {
  Screw slick = *screws(), rough = slick;
  slick.friction = *between(0, .25);
  rough.friction = *between(.26, .5);
  RC_ASSERT(force_of(rough, {6})->value < force_of(slick, {6})->value);
}

TEST(Screw, Threads) {
  const auto is = [](const char* thread, double d, double p, int starts, double half_angle) {
    const std::optional<Screw> s = screw_of(thread);
    ASSERT_TRUE(s) << thread;
    EXPECT_EQ(s->diameter.value, d) << thread;
    EXPECT_EQ(s->pitch.value, p) << thread;
    EXPECT_EQ(s->starts, starts) << thread;
    EXPECT_EQ(s->half_angle_degrees, half_angle) << thread;
    EXPECT_EQ(s->friction, .15) << thread;
    EXPECT_TRUE(force_of(*s, {6})) << thread;
  };
  is("Tr12x3", 12, 3, 1, 15);
  is("Tr14x4", 14, 4, 1, 15);
  is("Tr14x6P3", 14, 3, 2, 15);
  is("Tr10x1.5", 10, 1.5, 1, 15);
  is("M6", 6, 1, 1, 30);
  is("M8", 8, 1.25, 1, 30);
  is("M8x1", 8, 1, 1, 30);
  EXPECT_NEAR(mean_diameter(*screw_of("M8")).value, 8 - .6495 * 1.25, 1e-12);
  EXPECT_NEAR(mean_diameter(*screw_of("Tr14x4")).value, 12, 1e-12);
}

TEST(Screw, NoThread) {
  for (const char* text :
       {"",         "Tr",      "Tr12",      "M",          "M7.3",    "M8x",     "M8x1P",
        "Tr12x3P2", "Tr12x3x", "Tr12x-3",   "Tr12x0",     "Tr-12x3", "Trnanx3", "Tr12xnan",
        "Tr12xinf", "Trinfx3", "Tr12x3P0",  "Tr12x3Pnan", "m6",      "tr12x3",  "Tr12 x 3",
        "12x3",     "Tr12x60", "Tr12x36P1", "Tr1e400x3",  "G1/2"})
    EXPECT_FALSE(screw_of(text)) << text;
}

RC_GTEST_PROP(Screw, AnyTextIsAThreadThatIsTakenOrNone, ()) {
  static constexpr std::string_view kLetters = "TrMxP0123456789.-ein";
  const auto letters = *rc::gen::container<std::string>(
      rc::gen::map(rc::gen::inRange<std::size_t>(0, kLetters.size()),
                   [](std::size_t i) { return kLetters[i]; }));
  const auto head = *rc::gen::element<std::string>("", "Tr", "M", "Tr12x", "M6x");
  if (const auto s = screw_of(head + letters)) RC_ASSERT(force_of(*s, {6}).has_value());
}

TEST(Screw, Refuses) {
  const Screw good = screw_of("Tr12x3").value();
  for (const double bad : {-1.0, kNan, kInfinite}) {
    EXPECT_TRUE(refused(torque_up(good, {bad}), bad)) << bad;
    EXPECT_TRUE(refused(torque_down(good, {bad}), bad)) << bad;
    EXPECT_TRUE(refused(force_of(good, {bad}), bad)) << bad;
    const auto without = [&](auto change) {
      Screw s = good;
      change(s);
      EXPECT_TRUE(refused(force_of(s, {6}), bad)) << bad;
      EXPECT_TRUE(refused(torque_up(s, {1000}), bad)) << bad;
      EXPECT_TRUE(refused(torque_down(s, {1000}), bad)) << bad;
    };
    without([&](Screw& s) { s.diameter = {bad}; });
    without([&](Screw& s) { s.pitch = {bad}; });
    without([&](Screw& s) { s.friction = bad; });
    without([&](Screw& s) { s.collar_friction = bad; });
    without([&](Screw& s) { s.collar_mean_diameter = {bad}; });
    without([&](Screw& s) { s.half_angle_degrees = bad; });
  }
  Screw s = good;
  s.diameter = {0};
  EXPECT_TRUE(refused(force_of(s, {6}), 0));
  s = good;
  s.pitch = {0};
  EXPECT_TRUE(refused(force_of(s, {6}), 0));
  s = good;
  s.starts = 0;
  EXPECT_TRUE(refused(force_of(s, {6}), 0));
  s.starts = 12;  // 36 mm a turn on a thread of 10.5: it would be pushed open
  EXPECT_TRUE(refused(force_of(s, {6}), 36));
  s = good;
  s.friction = .6;
  EXPECT_TRUE(refused(force_of(s, {6}), .6));
}

TEST(ScrewDeathTest, NoScrewIsABugWhereNothingRefuses) {
  EXPECT_DEATH(static_cast<void>(efficiency(Screw{})), "does not hold");
  EXPECT_DEATH(static_cast<void>(force_band(screw_of("M6").value(), {-1})), "does not hold");
}

}  // namespace
}  // namespace squeezeout
