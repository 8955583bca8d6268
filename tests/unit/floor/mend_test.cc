// What gives way when a fact takes gear: reserved ones only, the latest start first, and their build's later steps with them.

#include "common/floor/mend.h"

#include <gtest/gtest.h>

#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using namespace std::chrono_literals;

const Instant kThursday = at("2026-11-26T10:00:00Z");

TEST(Mend, TheLatestStartGivesWayFirst) {
  Bench b{kThursday};
  const GlueUpId early = b.reserve(kBinding, kAda, kThursday + 1h);  // 4 clamps, short ones first
  const GlueUpId late = b.reserve(kBinding, kBen, kThursday + 90min);
  ASSERT_TRUE(b.press(GearBroken{kShort, 4, "rust"}));
  EXPECT_EQ(b.glue_up(early).progress, Progress::reserved);
  EXPECT_EQ(b.glue_up(late).progress, Progress::displaced);
  EXPECT_EQ(b.glue_up(late).snag, Snag::gear_broken);
  EXPECT_TRUE(b.glue_up(late).held.empty());
}

TEST(Mend, LaterStepsOfABuildGoWithTheEarlierOne) {
  Bench b{kThursday};
  const GlueUpId bridge = b.reserve(kBridge, kAda, kThursday + 1h, kBuild14, 0);
  const GlueUpId binding = b.reserve(kBinding, kAda, {}, kBuild14, 1);
  const GlueUpId lining = b.reserve(kLining, kAda, {}, kBuild14, 2);
  ASSERT_TRUE(b.press(GearBroken{kCaul, 1, "cracked"}));
  EXPECT_EQ(b.glue_up(bridge).snag, Snag::gear_broken);
  EXPECT_EQ(b.glue_up(binding).snag, Snag::earlier_step);
  EXPECT_EQ(b.glue_up(lining).snag, Snag::earlier_step);
}

TEST(Mend, AMoveThatKeepsTheOrderLeavesLaterStepsAlone) {
  Bench b{kThursday};
  const GlueUpId bridge = b.reserve(kBridge, kAda, {}, kBuild14, 0);
  const GlueUpId binding = b.reserve(kBinding, kAda, at("2026-11-27T09:00:00Z"), kBuild14, 1);
  ASSERT_TRUE(b.press(Move{bridge, kThursday + 1h}));
  EXPECT_EQ(b.glue_up(binding).progress, Progress::reserved);
  ASSERT_TRUE(b.press(Move{bridge, kThursday + 5h}));  // ready at 18:09, still before nine
  EXPECT_EQ(b.glue_up(binding).progress, Progress::reserved);
  ASSERT_TRUE(b.press(Move{bridge, at("2026-11-27T08:00:00Z")}));
  EXPECT_EQ(b.glue_up(binding).snag, Snag::earlier_step);
}

TEST(Mend, EventsFreeBeforeTheyTake) {
  Bench b{kThursday};
  const GlueUpId first = b.reserve(kBridge, kAda);
  ASSERT_TRUE(b.press(Start{first}));
  ASSERT_TRUE(b.press(ClampsOn{first, b.now()}));
  b.reserve(kBridge, kBen);
  const auto answer = b.press(Late{first, 30min});
  ASSERT_TRUE(answer);
  ASSERT_EQ(answer->size(), 2U);
  EXPECT_EQ(std::get<GlueUpChanged>(answer->at(0)).what, Change::displaced);
  EXPECT_EQ(std::get<GlueUpChanged>(answer->at(1)).what, Change::late);
}

}  // namespace
}  // namespace squeezeout::testing
