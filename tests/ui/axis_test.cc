// The time axis: now at 30 %, closed hours folded, instants in order.

#include <gtest/gtest.h>

#include "client/board/time_axis.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using board::TimeAxis;
using std::chrono::hours;

Hours weekdays(const char* zone = "Europe/Dublin") {
  return {*Zone::find(zone), small_shop().hours};  // Monday to Friday 8 to 17
}

TimeAxis axis(Instant now, Seconds open_time, float part = 0.3F) {
  return {
      weekdays(),
      {.at = now, .part = part, .open_time = open_time, .left = 100, .right = 1100, .fold_px = 40}};
}

const Instant kTen = at("2026-11-26T10:00:00Z");

TEST(TimeAxis, NowStandsAtThirtyPercent) {
  EXPECT_NEAR(axis(kTen, hours{8}).x(kTen), 400, 0.5);
  EXPECT_NEAR(axis(kTen, Minutes{30}).x(kTen), 400, 0.5);
  EXPECT_NEAR(axis(kTen, hours{8}, -0.2F).x(kTen), -100, 0.5) << "panned half a width later";
}

TEST(TimeAxis, NowAtNightStandsThereToo) {
  const Instant night = at("2026-11-26T23:00:00Z");
  EXPECT_NEAR(axis(night, hours{8}).x(night), 400, 0.5);
}

TEST(TimeAxis, OpenTimeIsLinear) {
  const TimeAxis a = axis(kTen, hours{10});  // 100 px an hour
  EXPECT_NEAR(a.x(kTen + hours{2}) - a.x(kTen), 200, 0.5);
}

TEST(TimeAxis, TheNightIsOneStrip) {
  const TimeAxis a = axis(kTen, hours{10});
  const Instant close = at("2026-11-26T17:00:00Z"), open = at("2026-11-27T08:00:00Z");
  EXPECT_NEAR(a.x(open) - a.x(close), 40, 0.5);
  EXPECT_NEAR(a.x(close + (open - close) / 2) - a.x(close), 20, 0.5) << "linear within the strip";
}

TEST(TimeAxis, AWeekendIsOneStripToo) {
  const Instant friday = at("2026-11-27T16:00:00Z");
  const TimeAxis a = axis(friday, hours{10});
  EXPECT_NEAR(a.x(at("2026-11-30T08:00:00Z")) - a.x(at("2026-11-27T17:00:00Z")), 40, 0.5);
}

TEST(TimeAxis, AClosedStretchNarrowerThanAStripIsNotFolded) {
  WeekHours week = small_shop().hours;
  week.weekday[4] = {{8 * 60, 12 * 60}, {12 * 60 + 15, 17 * 60}};  // a quarter of an hour at noon
  const TimeAxis a{Hours{*Zone::find("Europe/Dublin"), week},
                   {.at = kTen, .open_time = hours{10}, .left = 100, .right = 1100, .fold_px = 40}};
  EXPECT_NEAR(a.x(kTen + hours{3}) - a.x(kTen + hours{2}), 100, 0.5);
}

TEST(TimeAxis, IsMonotoneOverTwoWeeksAndADstNight) {
  const Instant begin = at("2026-10-20T00:00:00Z");  // the clocks go back on the 25th
  const TimeAxis a = axis(begin + hours{24 * 5}, hours{50});
  float last = a.x(begin);
  for (Instant t = begin; t < begin + hours{24 * 14}; t += Minutes{17}) {
    const float x = a.x(t);
    ASSERT_GE(x, last);
    last = x;
  }
}

TEST(TimeAxis, VisibleIsWhatStandsBetweenTheEdges) {
  const TimeAxis a = axis(kTen, hours{8});
  const Span v = a.visible();
  EXPECT_NEAR(a.x(v.begin), 100, 1);
  EXPECT_NEAR(a.x(v.end), 1100, 1);
  for (const TimeAxis::Piece& p : a.pieces()) {
    EXPECT_GT(p.x1, 100);
    EXPECT_LT(p.x0, 1100);
  }
}

TEST(TimeAxis, AShopWithoutHoursHasNothingToFold) {
  const TimeAxis a{Hours{Zone::utc(), WeekHours{}},
                   {.at = kTen, .open_time = hours{10}, .left = 0, .right = 1000, .fold_px = 40}};
  EXPECT_NEAR(a.x(kTen + hours{5}) - a.x(kTen), 500, 0.5);
}

TEST(TimeAxis, GivesBackTheInstantOfEachPixel) {
  for (const float part : {0.3F, 0.9F, -4.0F}) {
    const TimeAxis a = axis(kTen, hours{8}, part);
    for (float x = 100; x <= 1100; x += 7) EXPECT_NEAR(a.x(a.at(x)), x, 0.6) << part;
  }
}

TEST(TimeAxis, LooksMonthsAheadAsItLooksAtNow) {
  const Instant spring = at("2027-04-12T09:00:00Z");
  const TimeAxis a = axis(spring, hours{50});
  EXPECT_NEAR(a.x(spring), 400, 0.5);
  const Span v = a.visible();
  EXPECT_NEAR(a.x(v.begin), 100, 1);
  EXPECT_NEAR(a.x(v.end), 1100, 1);
}

// Open day and night; the clocks go forward on 29 March at 1:00 and back on 25 October at 2:00.
TimeAxis sleepless(Instant now) {
  WeekHours week;
  for (auto& day : week.weekday) day = {{0, 24 * 60}};
  return {Hours{*Zone::find("Europe/Dublin"), week},
          {.at = now, .open_time = hours{10}, .left = 0, .right = 1000, .skip_px = 8}};
}

TEST(TimeAxis, TheHourThatSpringSkipsIsAGap) {
  const Instant skip = at("2026-03-29T01:00:00Z");
  const TimeAxis a = sleepless(skip - hours{1});
  int gaps = 0;
  for (const TimeAxis::Piece& p : a.pieces())
    if (p.kind == TimeAxis::Piece::Kind::skipped) {
      ++gaps;
      EXPECT_EQ(p.span.begin, skip);
      EXPECT_NEAR(p.x1 - p.x0, 8, 0.01);
    }
  EXPECT_EQ(gaps, 1);
  EXPECT_NEAR(a.x(skip + hours{1}) - a.x(skip - hours{1}), 208, 0.5);
}

TEST(TimeAxis, TheHourThatAutumnRepeatsTakesTwoHours) {
  const Instant back = at("2026-10-25T01:00:00Z");
  const TimeAxis a = sleepless(back);
  for (const TimeAxis::Piece& p : a.pieces()) EXPECT_NE(p.kind, TimeAxis::Piece::Kind::skipped);
  EXPECT_NEAR(a.x(back + hours{1}) - a.x(back - hours{1}), 200, 0.5);
}

}  // namespace
}  // namespace squeezeout::testing
