// The demo's week leaves a floor worth looking at, and the same one every time.

#include <gtest/gtest.h>

#include <cstdio>

#include "common/floor/apply.h"
#include "common/floor/ask.h"
#include "common/floor/decide.h"
#include "common/time/rfc3339.h"
#include "proto/shop_file.h"
#include "server/demo/week.h"

namespace squeezeout {
namespace {

Shop demo_shop() { return read_shop_file("demo shop", demo_shop_text()).value(); }

Floor play(const std::vector<Stamped>& week) {
  Floor floor;
  for (const Stamped& command : week) (void)step(floor, command);
  return floor;
}

struct Counts {
  int wet = 0, clamped = 0, over = 0, waiting = 0, reserved = 0, displaced = 0, spoiled = 0,
      done = 0;
};

Counts count(const Floor& floor, Instant now) {
  Counts c;
  for (const auto& [id, g] : floor.glue_ups) {
    c.wet += g.progress == Progress::open;
    c.clamped += g.progress == Progress::clamped;
    c.over += over_time(g, now);
    c.waiting += g.progress == Progress::waiting;
    c.reserved += g.progress == Progress::reserved;
    c.displaced += g.progress == Progress::displaced;
    c.spoiled += g.progress == Progress::spoiled;
    c.done += g.progress == Progress::done;
  }
  return c;
}

class DemoWeek : public testing::TestWithParam<const char*> {};

TEST_P(DemoWeek, ends_in_full_work) {
  const Instant now = *parse_rfc3339(GetParam());
  const auto week = demo_week(demo_shop(), now);
  const Floor floor = play(week);
  const Counts c = count(floor, now);
  std::printf(
      "%s: %zu presses; wet %d, clamped %d (over %d), waiting %d, reserved %d, displaced %d, "
      "spoiled %d, done %d\n",
      GetParam(), week.size(), c.wet, c.clamped, c.over, c.waiting, c.reserved, c.displaced,
      c.spoiled, c.done);
  EXPECT_EQ(c.wet, 1);
  EXPECT_EQ(c.over, 1);
  EXPECT_GE(c.wet + c.clamped, 4);
  EXPECT_LE(c.wet + c.clamped, 6);
  EXPECT_GE(c.waiting, 2);
  EXPECT_LE(c.waiting, 6);
  EXPECT_GE(c.reserved, 4);
  EXPECT_EQ(c.displaced, 2);
  int can_be_placed = 0;
  for (const GlueUpId id : floor.displaced)
    can_be_placed += earliest_for(floor, id, now, now).has_value();
  EXPECT_EQ(can_be_placed, 1);
  EXPECT_EQ(c.spoiled, 1);
  EXPECT_GE(c.done, 10);
  for (const auto& [id, g] : floor.glue_ups) {
    if (over_time(g, now)) {
      EXPECT_NEAR(static_cast<double>((now - g.promised.release_end).count()) / 60, 14, 1.5);
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Thursdays, DemoWeek,
                         testing::Values("2026-11-26T14:12:00Z", "2026-06-11T14:12:00+01:00",
                                         "2027-02-04T14:12:00Z"));

TEST(DemoWeekTime, stamps_never_go_back_and_end_at_now) {
  const Instant now = *parse_rfc3339("2026-03-02T09:00:00Z");  // a Monday morning
  const auto week = demo_week(demo_shop(), now);
  ASSERT_FALSE(week.empty());
  for (std::size_t i = 1; i < week.size(); ++i) ASSERT_LE(week[i - 1].at, week[i].at);
  EXPECT_EQ(week.back().at, now);
}

TEST(DemoWeekTime, is_the_same_every_time) {
  const Instant now = *parse_rfc3339("2026-11-26T14:12:00Z");
  EXPECT_EQ(floor_hash(play(demo_week(demo_shop(), now))),
            floor_hash(play(demo_week(demo_shop(), now))));
}

}  // namespace
}  // namespace squeezeout
