#include "common/report/day.h"

#include <gtest/gtest.h>

#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using namespace std::chrono_literals;

const Date kThursday = std::chrono::year{2026} / 11 / 26;
const Instant kTen = at("2026-11-26T10:00:00Z");

const KindLine& kind(const DaySheet& s, GearKindId id) {
  for (const KindLine& k : s.kinds) {
    if (k.kind == id) return k;
  }
  CHECK(!"no such kind on the sheet");
}

// One bridge: 3 deep clamps and the caul from 10:00 to 11:20; the glue wet for 3 min, clamped for 72.
struct OneBridge {
  Bench b{kTen};
  GlueUpId id = b.reserve(kBridge, kAda);
  OneBridge() {
    b.set(kTen + 5min);
    CHECK(b.press(Start{id}).has_value());
    b.set(kTen + 8min);
    CHECK(b.press(ClampsOn{id, b.now()}).has_value());
    b.set(kTen + 80min);
    CHECK(b.press(ClampsOff{id, b.now()}).has_value());
  }
};

TEST(DaySheet, PlannedAgainstActual) {
  OneBridge o;
  const DaySheet s = day_sheet(o.b.floor(), kThursday, at("2026-11-26T17:00:00Z"));
  ASSERT_EQ(s.lines.size(), 1U);
  EXPECT_EQ(s.lines[0].open_planned, 4min);
  EXPECT_EQ(s.lines[0].open_actual, 3min);
  EXPECT_EQ(s.lines[0].dwell_planned, 60min);
  EXPECT_EQ(s.lines[0].dwell_actual, 72min);
  EXPECT_EQ(s.lines[0].release_late, 6min);  // promised until 11:14
  EXPECT_EQ(s.started, 1);
  EXPECT_EQ(s.finished, 0);  // waits to be strung up
}

TEST(DaySheet, APressOfThisVerySecondCounts) {
  OneBridge o;
  EXPECT_TRUE(day_sheet(o.b.floor(), kThursday, o.b.now()).lines.at(0).dwell_actual);
}

TEST(DaySheet, GearHoursAndUtilisation) {
  OneBridge o;
  const DaySheet s = day_sheet(o.b.floor(), kThursday, at("2026-11-26T17:00:00Z"));
  EXPECT_EQ(s.open_time, 9h);
  EXPECT_EQ(kind(s, kDeep).held, 3 * 80min);
  EXPECT_EQ(kind(s, kDeep).peak, 3);
  EXPECT_DOUBLE_EQ(kind(s, kDeep).utilisation, 3 * 80.0 / (6 * 9 * 60));
  EXPECT_DOUBLE_EQ(kind(s, kCaul).utilisation, 80.0 / (9 * 60));
  EXPECT_EQ(kind(s, kShort).held, 0s);
  // Seen at noon, only what has happened by then counts.
  const DaySheet noon = day_sheet(o.b.floor(), kThursday, at("2026-11-26T11:00:00Z"));
  EXPECT_EQ(noon.open_time, 3h);
  EXPECT_EQ(kind(noon, kDeep).held, 3 * 60min);
}

TEST(DaySheet, WaitingForGearNamesTheBottleneck) {
  Bench b{kTen};
  b.reserve(kBridge, kAda);
  b.reserve(kBridge, kBen);  // waits 74 min for the caul; the clamps it gets were free all the time
  const DaySheet s = day_sheet(b.floor(), kThursday, b.now());
  EXPECT_EQ(s.waited_for_gear, 74min);
  EXPECT_EQ(kind(s, kCaul).waited, 74min);
}

TEST(DaySheet, BrokenGearIsOutOfUseNotInUse) {
  Bench b{kTen};
  ASSERT_TRUE(b.press(GearBroken{kDeep, 2, "bent"}));
  b.set(kTen + 2h);
  const DaySheet s = day_sheet(b.floor(), kThursday, b.now());
  EXPECT_EQ(kind(s, kDeep).out_of_use, 2 * 2h);
  EXPECT_EQ(kind(s, kDeep).held, 0s);
}

TEST(DaySheet, OvernightAndFirstTomorrow) {
  Bench b{at("2026-11-26T15:00:00Z")};
  const GlueUpId binding = b.reserve(kBinding, kAda);
  ASSERT_TRUE(b.press(Start{binding}));
  ASSERT_TRUE(b.press(ClampsOn{binding, b.now()}));  // off from 17:00: held until 8:00
  const GlueUpId tomorrow = b.reserve(kBridge, kBen, at("2026-11-27T09:00:00Z"));
  const DaySheet s = day_sheet(b.floor(), kThursday, at("2026-11-26T17:00:00Z"));
  EXPECT_EQ(s.curing_overnight, std::vector<GlueUpId>{binding});
  EXPECT_EQ(s.first_tomorrow, (std::vector<NextCall>{{at("2026-11-27T08:00:00Z"), binding},
                                                     {at("2026-11-27T09:00:00Z"), tomorrow}}));
  const DaySheet next =
      day_sheet(b.floor(), std::chrono::year{2026} / 11 / 27, at("2026-11-27T08:30:00Z"));
  EXPECT_EQ(kind(next, kShort).held, 4 * (8h + 5min));  // from midnight to the planned release
}

TEST(DaySheet, CountsSpoiledCancelledAndDone) {
  OneBridge o;
  const GlueUpId bad = o.b.reserve(kBinding, kBen);
  ASSERT_TRUE(o.b.press(Start{bad}));
  o.b.wait(1min);
  ASSERT_TRUE(o.b.press(Spoiled{bad, o.b.now(), "skinned over"}));
  const GlueUpId off = o.b.reserve(kBend, kCyd);
  ASSERT_TRUE(o.b.press(Cancel{off}));
  o.b.set(at("2026-11-26T14:00:00Z"));
  ASSERT_TRUE(o.b.press(Scraped{o.id, o.b.now()}));
  const DaySheet s = day_sheet(o.b.floor(), kThursday, at("2026-11-26T17:00:00Z"));
  EXPECT_EQ(s.started, 2);
  EXPECT_EQ(s.spoiled, 1);
  EXPECT_EQ(s.cancelled, 1);
  EXPECT_EQ(s.finished, 1);
}

TEST(DaySheet, ADstDayHasItsTrueLength) {
  Shop shop = small_shop();
  for (auto& day : shop.hours.weekday) day = {{0, 24 * 60}};
  Bench b{at("2026-10-24T20:00:00Z"), shop};
  ASSERT_TRUE(b.press(GearBroken{kCaul, 1, ""}));
  b.set(at("2026-10-26T12:00:00Z"));
  const DaySheet s = day_sheet(b.floor(), std::chrono::year{2026} / 10 / 25, b.now());
  EXPECT_EQ(s.open_time, 25h);
  EXPECT_EQ(kind(s, kCaul).out_of_use, 25h);
}

}  // namespace
}  // namespace squeezeout::testing
