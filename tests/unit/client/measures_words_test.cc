// Figures as the shop reads them: 24 or 12 hours, mm or inches, Celsius or Fahrenheit.

#include "client/words/craft.h"
#include "tests/unit/client/words_fixture.h"

namespace squeezeout::words {
namespace {

using squeezeout::testing::at;
using squeezeout::testing::need_of;

constexpr Display kHere{};
constexpr Display kThere{Display::Clock::hours_12, Display::Lengths::inch,
                         Display::Degrees::fahrenheit};

struct Measures : Words {
  Context shown(Display display) {
    Shop shop = squeezeout::testing::small_shop();
    shop.display = display;
    EXPECT_FALSE(played.press(LoadShop{shop}).has_value());
    return here();
  }
};

TEST_F(Measures, TwelveHours) {
  const Context c = shown(kThere);
  EXPECT_EQ(clock(c, at("2026-11-26T15:40:00Z")), "3:40 pm");
  EXPECT_EQ(clock(c, at("2026-11-26T00:05:00Z")), "12:05 am");
  EXPECT_EQ(clock(c, at("2026-11-26T11:59:59Z")), "11:59 am");
  EXPECT_EQ(clock(c, at("2026-11-26T12:00:00Z")), "12:00 pm");
  EXPECT_EQ(clock(c, at("2026-11-26T13:00:00Z")), "1:00 pm");
  EXPECT_EQ(clock(c, at("2026-11-27T09:30:00Z")), "Fri 9:30 am");
  EXPECT_EQ(clock_only(c, at("2026-12-27T23:59:00Z")), "11:59 pm");
  EXPECT_EQ(clock(c, at("2026-10-25T00:30:00Z")), "Sun 25 Oct 1:30 am (1st)");
  EXPECT_EQ(clock(c, at("2026-10-25T01:30:00Z")), "Sun 25 Oct 1:30 am (2nd)");
}

TEST_F(Measures, InchesInFractions) {
  const Context c = shown(kThere);
  EXPECT_EQ(millimetres(c, {60}), "2 3/8 in");  // 2.362
  EXPECT_EQ(millimetres(c, {152.4}), "6 in");
  EXPECT_EQ(millimetres(c, {19.05}), "3/4 in");
  EXPECT_EQ(millimetres(c, {12.7}), "1/2 in");
  EXPECT_EQ(millimetres(c, {100}), "3 15/16 in");  // 3.937
  EXPECT_EQ(millimetres(c, {50.7}), "2 in");       // 1.996
  EXPECT_EQ(millimetres(c, {1.5875}), "1/16 in");
  EXPECT_EQ(millimetres(c, {0.5}), "0.020 in");
  EXPECT_EQ(millimetres(c, {0}), "0 in");
  EXPECT_EQ(millimetres(shown(kHere), {60}), "60 mm");
  EXPECT_EQ(millimetres(here(), {2.5}), "2.5 mm");
}

TEST_F(Measures, WhatIsNeededIsNeverSaidToBeLess) {
  GearNeed n = need_of(GearClass::clamp, 4);
  n.opening = {64};  // 2.520 in: 2 1/2 would not do
  n.throat = {152.4};
  n.length = {50.8 + 1e-9};
  EXPECT_EQ(need(shown(kThere), n), "4 clamps, at least 2 9/16 in opening, 6 in throat, 2 in long");
  EXPECT_EQ(millimetres(here(), n.opening), "2 1/2 in");
  EXPECT_EQ(millimetres_above(shown(kHere), {64}), "64 mm");
}

TEST_F(Measures, Fahrenheit) {
  const Context c = shown(kThere);
  EXPECT_EQ(degrees(c, {13}), "55.4 °F");
  EXPECT_EQ(degrees(c, {10}), "50 °F");
  EXPECT_EQ(degrees(c, {-40}), "-40 °F");
  EXPECT_EQ(degrees(c, {-17.7778}), "0 °F");
  EXPECT_EQ(degrees_whole(c, {18}), "64 °F");
  EXPECT_EQ(degrees_whole(shown(kHere), {18.4}), "18 °C");
  EXPECT_EQ(degrees_whole(here(), {-0.4}), "0 °C");
}

// In both units, of what was typed as a tenth of either: itself; of the least bit less: a tenth less.
TEST_F(Measures, NeverWarmerThanItIs) {
  const Context f = shown(kThere);
  for (int tenths = 320; tenths <= 1200; ++tenths) {
    const double celsius = (tenths - 320) / 18.0;
    EXPECT_EQ(degrees_below(f, {celsius}), degrees(f, {celsius})) << tenths;
    EXPECT_EQ(degrees_below(f, {celsius - 1e-6}), degrees(f, {celsius - 0.1 / 1.8})) << tenths;
  }
  const Context c = shown(kHere);
  for (int tenths = -100; tenths <= 400; ++tenths) {
    const double celsius = tenths / 10.0;
    EXPECT_EQ(degrees_below(c, {celsius}), degrees(c, {celsius})) << tenths;
    EXPECT_EQ(degrees_below(c, {celsius - 1e-6}), degrees(c, {celsius - 0.1})) << tenths;
  }
}

TEST_F(Measures, SentencesFollow) {
  const Context c = shown(kThere);
  const BelowFloor cold{.sheet = squeezeout::testing::kHide, .wood = {9.99}, .floor = {10}};
  const Told no = refusal(c, Reserve{}, NotPossible{cold});
  EXPECT_EQ(no.why, "49.9 °F is too cold for hide glue: it needs 50 °F.");
  EXPECT_EQ(slot(c, {.stage_begin = at("2026-11-26T12:00:00Z"),
                     .open_begin = at("2026-11-26T12:10:00Z"),
                     .clamped_begin = at("2026-11-26T12:14:00Z"),
                     .release_begin = at("2026-11-26T13:14:00Z"),
                     .release_end = at("2026-11-26T13:19:00Z"),
                     .ready_at = at("2026-11-27T01:19:00Z")}),
            "Start 12:00 pm, glue 12:10 pm, off about 1:14 pm, ready Fri 1:19 am.");
  EXPECT_EQ(caution(c, Caution::hot_form),
            "The form burns skin from 118 °F, safe to touch at 109 °F.");
  EXPECT_EQ(figure(c, {.of = FigureOf::plate_movement, .band = {0.5, 0.8, 1.1}}),
            "0.031 in (0.020 to 0.043 in)");
  EXPECT_EQ(figure(c, {.of = FigureOf::coldest_wood, .band = {12.96, 12.96, 12.96}}), "55.3 °F");
  EXPECT_EQ(done(c, ClimateReading{{20}, {48}}, {}), "Climate 68 °F, 48 % taken.");
}

}  // namespace
}  // namespace squeezeout::words
