// What a repair proposes: the fewest, the least, and never what has started.
#include <gtest/gtest.h>

#include "common/floor/replan.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using namespace std::chrono_literals;

const Instant kNine = at("2026-11-26T09:00:00Z");  // a Thursday

schedule::Budget budget() { return {.seed = 1, .work = 20'000}; }

AdoptPlan adopt(const Proposal& p) {
  AdoptPlan plan;
  for (const Shift& s : p.shifts) plan.moves.push_back({s.glue_up, s.to.stage_begin, s.sheet});
  return plan;
}

TEST(Repair, OfASoundFloorIsNothing) {
  Bench b{kNine};
  b.reserve(kBridge, kAda, kNine + 1h);
  const Proposal p = repair(b.floor(), b.now(), budget());
  EXPECT_TRUE(p.shifts.empty() && p.no_place.empty());
  EXPECT_TRUE(p.optimal);
  EXPECT_EQ(p.before, p.after);
}

// Clamps off one second after the planned end: the next in line waits for a minute, and nobody else is touched.
TEST(Repair, ASecondTooLateIsANudgeOfAMinute) {
  Bench b{kNine};
  const GlueUpId runs = b.reserve(kBridge, kAda);
  const Instant end = b.glue_up(runs).times.release_end;
  const GlueUpId next = b.reserve(kBridge, kBen, end);
  const GlueUpId after_next = b.reserve(kBridge, kAda, b.glue_up(next).times.release_end + 5min);
  const Instant stood = b.glue_up(after_next).times.stage_begin;
  b.set(b.glue_up(runs).times.open_begin);
  ASSERT_TRUE(b.press(Start{runs}));
  b.set(b.glue_up(runs).times.clamped_begin);
  ASSERT_TRUE(b.press(ClampsOn{runs, b.now()}));
  b.set(end + 1s);
  ASSERT_TRUE(b.press(ClampsOff{runs, b.now()}));
  ASSERT_EQ(b.glue_up(next).progress, Progress::displaced);

  const Proposal p = repair(b.floor(), b.now(), budget());
  ASSERT_EQ(p.shifts.size(), 1u);
  EXPECT_EQ(p.shifts[0].glue_up, next);
  EXPECT_FALSE(p.shifts[0].from);
  EXPECT_EQ(p.shifts[0].to.stage_begin, end + 1min);
  EXPECT_TRUE(p.optimal);
  EXPECT_LT(p.after, p.before);
  ASSERT_TRUE(b.press(adopt(p)));
  EXPECT_EQ(b.glue_up(after_next).times.stage_begin, stood);
}

TEST(Repair, GoesBackWhereItStoodWhenThatIsFree) {
  Bench b{kNine};
  const GlueUpId one = b.reserve(kBend, kAda, kNine + 2h);
  const GlueUpId two = b.reserve(kBend, kBen, kNine + 2h);
  ASSERT_TRUE(b.press(GearBroken{kDeckA, 1, ""}));
  ASSERT_EQ(b.floor().displaced.size(), 1u);
  ASSERT_TRUE(b.press(GearMended{kDeckA, 1}));
  const Proposal p = repair(b.floor(), b.now(), budget());
  ASSERT_EQ(p.shifts.size(), 1u);
  EXPECT_EQ(p.shifts[0].to.stage_begin, kNine + 2h);
  EXPECT_EQ(p.after.disturbed, 0);
  EXPECT_TRUE(p.optimal);
  ASSERT_TRUE(b.press(adopt(p)));
  EXPECT_EQ(b.glue_up(one).times.stage_begin, b.glue_up(two).times.stage_begin);
}

// The caul is held twice in a row; what lost its place in between would need both of them to move. One later start is fewer.
TEST(Repair, MovesTheFewest) {
  Bench b{kNine};
  const GlueUpId one = b.reserve(kBend, kAda, kNine + 2h);
  const GlueUpId two = b.reserve(kBend, kBen, kNine + 2h);
  const GlueUpId later = b.reserve(kBend, kCyd, kNine + 4h);
  ASSERT_TRUE(b.press(GearBroken{kDeckA, 1, "warped"}));
  const Proposal p = repair(b.floor(), b.now(), budget());
  EXPECT_TRUE(p.optimal);
  ASSERT_TRUE(b.press(adopt(p)));
  int moved = 0;
  for (const auto& [id, start] :
       {std::pair{one, kNine + 2h}, {two, kNine + 2h}, {later, kNine + 4h}}) {
    EXPECT_EQ(b.glue_up(id).progress, Progress::reserved);
    moved += b.glue_up(id).times.stage_begin != start;
  }
  EXPECT_EQ(moved, 1);
  EXPECT_EQ(over_stock(b.floor()), "");
}

TEST(Repair, LaterStepsComeBackWithTheEarlier) {
  Bench b{kNine};
  const GlueUpId bridge = b.reserve(kBridge, kAda, kNine + 1h, kBuild14, 0);
  const GlueUpId binding = b.reserve(kBinding, kAda, std::nullopt, kBuild14, 1);
  b.set(kNine + 1h + 21min);
  b.tick();  // not started
  ASSERT_EQ(b.glue_up(bridge).progress, Progress::displaced);
  ASSERT_EQ(b.glue_up(binding).progress, Progress::displaced);
  const Proposal p = repair(b.floor(), b.now(), budget());
  ASSERT_EQ(p.shifts.size(), 2u);
  ASSERT_TRUE(b.press(adopt(p)));
  EXPECT_GE(b.glue_up(binding).times.stage_begin, b.glue_up(bridge).times.ready_at);
}

TEST(Repair, WhatHasNoPlaceIsNamed) {
  Bench b{kNine};
  const GlueUpId id = b.reserve(kBridge, kAda, kNine + 1h);
  ASSERT_TRUE(b.press(GearBroken{kCaul, 1, "split"}));
  ASSERT_EQ(b.glue_up(id).progress, Progress::displaced);
  const Proposal p = repair(b.floor(), b.now(), budget());
  EXPECT_TRUE(p.shifts.empty());
  EXPECT_EQ(p.no_place, std::vector<GlueUpId>{id});
}

TEST(Repair, CutShortItStillProposesWhatTheFloorTakes) {
  Bench b{kNine};
  const GlueUpId id = b.reserve(kBend, kAda, kNine + 1h);
  b.reserve(kBend, kBen, kNine + 1h);
  ASSERT_TRUE(b.press(GearBroken{kDeckA, 1, ""}));
  (void)id;
  schedule::Budget cut = budget();
  cut.stop = [] { return true; };
  const Proposal p = repair(b.floor(), b.now(), cut);
  EXPECT_TRUE(p.cancelled);
  EXPECT_FALSE(p.optimal);
  ASSERT_EQ(p.shifts.size(), 1u);
  EXPECT_TRUE(b.press(adopt(p)));
}

TEST(Repair, TheSameSeedProposesTheSame) {
  Bench b{kNine};
  for (const BuilderId who : {kAda, kBen}) b.reserve(kBend, who, kNine + 2h);
  b.reserve(kBend, kCyd, kNine + 4h);
  ASSERT_TRUE(b.press(GearBroken{kDeckB, 1, ""}));
  EXPECT_EQ(repair(b.floor(), b.now(), budget()).shifts,
            repair(b.floor(), b.now(), budget()).shifts);
}

}  // namespace
}  // namespace squeezeout::testing
