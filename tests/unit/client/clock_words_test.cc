// Times and lengths as a builder reads them.

#include <gtest/gtest.h>

#include "client/words/columns.h"
#include "client/words/words.h"
#include "tests/unit/client/small_shop.h"

namespace squeezeout::words {
namespace {

using squeezeout::testing::at;
using namespace std::chrono_literals;

struct ClockWords : ::testing::Test {
  squeezeout::testing::PlayedFloor played;
  Context on(std::string_view now) const { return {played.floor, at(now)}; }
  void move_shop_to(const char* zone) {
    Shop shop = squeezeout::testing::small_shop();
    shop.zone = zone;
    ASSERT_FALSE(played.press(LoadShop{shop}).has_value());
  }
};

TEST_F(ClockWords, TodayIsATimeAlone) {
  const Context c = on("2026-11-26T09:00:00Z");
  EXPECT_EQ(clock(c, at("2026-11-26T15:40:00Z")), "15:40");
  EXPECT_EQ(clock(c, at("2026-11-26T08:05:59Z")), "8:05");
  EXPECT_EQ(clock(c, at("2026-11-26T00:00:00Z")), "0:00");
}

TEST_F(ClockWords, WithinAWeekTheDayOfTheWeek) {
  const Context c = on("2026-11-26T09:00:00Z");  // a Thursday
  EXPECT_EQ(clock(c, at("2026-11-27T09:30:00Z")), "Fri 9:30");
  EXPECT_EQ(clock(c, at("2026-12-02T09:30:00Z")), "Wed 9:30");
  EXPECT_EQ(clock(c, at("2026-12-03T09:30:00Z")), "Thu 3 Dec 9:30") << "not today's Thursday";
  EXPECT_EQ(clock(c, at("2026-12-04T09:30:00Z")), "Fri 4 Dec 9:30");
  EXPECT_EQ(clock(c, at("2026-11-25T15:40:00Z")), "Wed 25 Nov 15:40")
      << "past is never taken for next week";
  EXPECT_EQ(clock(c, at("2027-01-04T09:30:00Z")), "Mon 4 Jan 2027 9:30");
}

TEST_F(ClockWords, ADayIsTheShopsDay) {
  move_shop_to("America/New_York");
  const Context c = on("2026-11-27T01:00:00Z");  // Thursday 20:00 there
  EXPECT_EQ(clock(c, at("2026-11-27T02:00:00Z")), "21:00");
  EXPECT_EQ(clock(c, at("2026-11-27T14:00:00Z")), "Fri 9:00");
  EXPECT_EQ(day(c, at("2026-11-27T01:00:00Z")), "Thu 26 Nov");
}

TEST_F(ClockWords, TheRepeatedHourSaysWhich) {
  const Context c = on("2026-10-25T00:00:00Z");  // Dublin: 2:00 summer time becomes 1:00
  EXPECT_EQ(clock(c, at("2026-10-25T00:30:00Z")), "1:30 (1st)");
  EXPECT_EQ(clock(c, at("2026-10-25T01:30:00Z")), "1:30 (2nd)");
  EXPECT_EQ(clock(c, at("2026-10-25T02:30:00Z")), "2:30");
  move_shop_to("America/New_York");
  const Context ny = on("2026-11-01T05:00:00Z");
  EXPECT_EQ(clock_only(ny, at("2026-11-01T05:30:15Z")), "1:30 (1st)");
  EXPECT_EQ(clock_only(ny, at("2026-11-01T06:30:15Z")), "1:30 (2nd)");
}

TEST_F(ClockWords, TheSkippedHourIsAGap) {
  const Context c = on("2026-03-29T00:00:00Z");
  EXPECT_EQ(clock(c, at("2026-03-29T00:59:00Z")), "0:59");
  EXPECT_EQ(clock(c, at("2026-03-29T01:00:00Z")), "2:00");
}

TEST_F(ClockWords, NeverIsNoTime) {
  EXPECT_EQ(clock(on("2026-11-26T09:00:00Z"), kNever), "no set time");
}

TEST(LengthWords, CarryTheirUnits) {
  EXPECT_EQ(length(0s), "0 s");
  EXPECT_EQ(length(47s), "47 s");
  EXPECT_EQ(length(60s), "1 min");
  EXPECT_EQ(length(12min), "12 min");
  EXPECT_EQ(length(107s), "2 min");
  EXPECT_EQ(length(59min + 29s), "59 min");
  EXPECT_EQ(length(59min + 30s), "1 h");
  EXPECT_EQ(length(68min), "1 h 08");
  EXPECT_EQ(length(19h), "19 h");
  EXPECT_EQ(length(24h), "24 h");
  EXPECT_EQ(length(48h), "2 d");
  EXPECT_EQ(length(76h), "3 d 4 h");
  EXPECT_EQ(length(-12min), "-12 min");
}

TEST(Countdown, ShowsSecondsWhenTheyMatter) {
  EXPECT_EQ(countdown(47s), "47 s");
  EXPECT_EQ(countdown(107s), "1 m 47 s");
  EXPECT_EQ(countdown(9min + 59s), "9 m 59 s");
  EXPECT_EQ(countdown(10min), "10 min");
  EXPECT_EQ(countdown(27min + 1s), "28 min") << "never too little";
  EXPECT_EQ(countdown(59min + 1s), "1 h 00");
  EXPECT_EQ(countdown(68min), "1 h 08");
  EXPECT_EQ(countdown(76h), "3 d 4 h");
  EXPECT_EQ(countdown(-3min), "3 m 00 s over");
}

TEST(Columns, CountCodePointsAndCut) {
  EXPECT_EQ(width("No. 14 · bräce"), 14U);
  EXPECT_EQ(cut("No. 14 · bridge", 10), "No. 14 · …");
  EXPECT_EQ(cut("short", 5), "short");
  EXPECT_EQ(left("åb", 4), "åb  ");
  EXPECT_EQ(right("åb", 4), "  åb");
  EXPECT_EQ(right("abcdef", 4), "abc…");
}

TEST(Columns, TableIsAsWideAsItsCells) {
  const std::string text = table({{"gear", Align::left, 6}, {"free", Align::right}},
                                 {{"clamps of all", "12"}, {"deck", "1"}});
  EXPECT_EQ(text,
            "gear    free\n"
            "clamp…    12\n"
            "deck       1\n");
  EXPECT_EQ(table({{"a"}, {"b"}}, {{"1", ""}}), "a  b\n1\n") << "no spaces at line ends";
}

}  // namespace
}  // namespace squeezeout::words
