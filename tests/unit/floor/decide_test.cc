// Requests: what is granted and what is refused, with which facts.

#include "common/floor/decide.h"

#include <gtest/gtest.h>

#include "common/floor/ask.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using namespace std::chrono_literals;

const Instant kThursday = at("2026-11-26T10:00:00Z");  // the shop is open 8 to 17

Reserve wanted(RecipeId recipe, BuilderId builder, std::optional<Instant> start = {}) {
  return {.recipe = recipe,
          .build = {},
          .step = 0,
          .builder = builder,
          .bench = {},
          .sheet = {},
          .after = {},
          .start = start};
}

TEST(ReserveCommand, TheEarliestMomentOfAllItsGear) {
  Bench b{kThursday};
  const GlueUp& g = b.glue_up(b.reserve(kBridge, kAda));
  EXPECT_EQ(g.progress, Progress::reserved);
  EXPECT_EQ(g.times.stage_begin, kThursday);
  EXPECT_EQ(g.times.clamped_begin, kThursday + 9min);
  EXPECT_EQ(g.times.release_begin, kThursday + 69min);
  EXPECT_EQ(g.promised, g.times);
  EXPECT_EQ(g.held, (std::vector<Held>{{kDeep, 3}, {kCaul, 1}}));
  EXPECT_EQ(g.bench, kBench1);  // the builder's own
  EXPECT_EQ(g.sheet, kResin);   // the usual glue
}

TEST(ReserveCommand, TheLoserLearnsWhoHoldsItAndTheNextSlot) {
  Bench b{kThursday};
  const GlueUpId first = b.reserve(kBridge, kAda);
  const auto answer = b.press(wanted(kBridge, kBen, kThursday));
  const auto* no = refused<DoesNotFit>(answer);
  ASSERT_TRUE(no);
  ASSERT_EQ(no->why.size(), 1U);
  const auto& fact = std::get<GearShort>(no->why[0].fact);
  EXPECT_EQ(fact.kinds, std::vector<GearKindId>{kCaul});
  EXPECT_EQ(fact.free, 0);
  EXPECT_EQ(fact.holders.at(0).holder, Holder::of(first));
  ASSERT_TRUE(no->next);
  EXPECT_EQ(no->next->times.stage_begin, b.glue_up(first).times.release_end);
  EXPECT_TRUE(b.press(wanted(kBridge, kBen, no->next->times.stage_begin)));
}

TEST(ReserveCommand, RecordsHowLongItWaitsForGear) {
  Bench b{kThursday};
  b.reserve(kBridge, kAda);
  EXPECT_EQ(b.glue_up(b.reserve(kBridge, kBen)).waited_for_gear, 74min);
  EXPECT_EQ(b.glue_up(b.reserve(kBinding, kCyd)).waited_for_gear, 0s);
}

TEST(ReserveCommand, AStartThatWasReadTwoMinutesAgoMayStillBeTaken) {
  Bench b{kThursday};
  b.wait(90s);
  EXPECT_TRUE(b.press(wanted(kBridge, kAda, kThursday)));
  b.wait(90s);
  EXPECT_TRUE(refused<BadTime>(b.press(wanted(kBinding, kBen, kThursday))));
}

TEST(ReserveCommand, Refusals) {
  Bench b{kThursday};
  EXPECT_EQ(refused<NoSuch>(b.press(wanted(RecipeId{99}, kAda)))->what, Thing::recipe);
  EXPECT_EQ(refused<NoSuch>(b.press(wanted(kBridge, BuilderId{99})))->what, Thing::builder);
  Reserve r = wanted(kBridge, kAda);
  r.bench = BenchId{99};
  EXPECT_EQ(refused<NoSuch>(b.press(r))->what, Thing::bench);
  r = wanted(kBridge, kAda);
  r.sheet = kCement;
  EXPECT_TRUE(std::holds_alternative<GlueNotInRecipe>(refused<NotPossible>(b.press(r))->why));
  r.sheet = SheetId{99};
  EXPECT_EQ(refused<NoSuch>(b.press(r))->what, Thing::sheet);
  EXPECT_TRUE(
      refused<BadTime>(b.press(wanted(kBridge, kAda, kThursday + std::chrono::hours{24 * 800}))));
  ASSERT_TRUE(b.press(ClimateReading{{6}, {60}}));
  const auto cold = b.press(wanted(kBridge, kAda));
  EXPECT_EQ(std::get<BelowFloor>(refused<NotPossible>(cold)->why).floor, Celsius{10});
  Floor nothing;
  EXPECT_EQ(
      std::get<NoSuch>(decide(nothing, {{}, {}, kThursday, wanted(kBridge, kAda)}).error()).what,
      Thing::shop);
}

TEST(ReserveCommand, ABuildGoesStepByStep) {
  Bench b{kThursday};
  const auto step_at = [](int step, RecipeId recipe) {
    Reserve r = wanted(recipe, kAda);
    r.build = kBuild14;
    r.step = step;
    return r;
  };
  EXPECT_EQ(refused<StepMissing>(b.press(step_at(1, kBinding)))->step, 0);
  EXPECT_TRUE(refused<NoSuch>(b.press(step_at(0, kBinding))));  // the chain says bridge
  EXPECT_TRUE(refused<BadCount>(b.press(step_at(3, kBridge))));
  const GlueUpId bridge = b.reserve(kBridge, kAda, {}, kBuild14, 0);
  EXPECT_EQ(refused<AlreadyReserved>(b.press(step_at(0, kBridge)))->glue_up, bridge);
  EXPECT_EQ(next_step(b.floor(), kBuild14)->step, 1);
  const GlueUpId binding = b.reserve(kBinding, kAda, {}, kBuild14, 1);
  EXPECT_GE(b.glue_up(binding).times.stage_begin, b.glue_up(bridge).times.ready_at);
}

TEST(ReserveCommand, OutsideHoursKnowingly) {
  Bench b{at("2026-11-26T20:00:00Z")};
  EXPECT_EQ(b.glue_up(b.reserve(kBridge, kAda)).times.stage_begin, at("2026-11-27T08:00:00Z"));
  Reserve r = wanted(kBinding, kBen);
  r.hours = Override::knowingly;
  ASSERT_TRUE(b.press(r));
  EXPECT_EQ(b.glue_up(GlueUpId{2}).times.stage_begin, b.now());
  EXPECT_TRUE(b.glue_up(GlueUpId{2}).outside_hours);
}

TEST(ReserveCommand, DwellThatEndsAt2210HoldsTheClampsUntilTheReleaseAfterOpening) {
  Bench b{at("2026-11-26T15:00:00Z")};
  // 15:56 stage, 16:01 glue, 16:05 clamped; binding dwells 2 h by its sheet, made 6 h 05 here.
  Shop longer = small_shop();
  longer.recipes[1].dwell = 6h + 5min;
  ASSERT_TRUE(b.press(LoadShop{longer}));
  const GlueUpId id = b.reserve(kBinding, kAda, at("2026-11-26T15:56:00Z"));
  const GlueUp& g = b.glue_up(id);
  EXPECT_EQ(off_from(g), at("2026-11-26T22:10:00Z"));
  EXPECT_EQ(g.times.release_begin, at("2026-11-27T08:00:00Z"));
  EXPECT_EQ(g.times.release_end, at("2026-11-27T08:05:00Z"));
  const Span night{at("2026-11-26T22:10:00Z"), at("2026-11-27T08:05:00Z")};
  EXPECT_EQ(b.floor().gear.free_over(kShort, night), 6);
  EXPECT_EQ(
      b.floor().gear.free_over(kShort, {at("2026-11-27T08:05:00Z"), at("2026-11-27T09:00:00Z")}),
      10);
}

TEST(MoveCommand, ToATimeThatFitsAndNoOther) {
  Bench b{kThursday};
  const GlueUpId one = b.reserve(kBridge, kAda);
  const GlueUpId two = b.reserve(kBridge, kBen);
  EXPECT_TRUE(refused<DoesNotFit>(b.press(Move{two, kThursday + 10min})));
  ASSERT_TRUE(b.press(Move{one, kThursday + 4h}));
  EXPECT_TRUE(b.press(Move{two, kThursday}));
  EXPECT_EQ(b.glue_up(two).promised.stage_begin, kThursday);
  EXPECT_TRUE(b.press(Move{two, kThursday + 30min}));  // over its own claim
  EXPECT_TRUE(refused<NoSuch>(b.press(Move{GlueUpId{99}, kThursday})));
}

TEST(CancelCommand, FreesTheGearAndTheStep) {
  Bench b{kThursday};
  const GlueUpId one = b.reserve(kBridge, kAda, {}, kBuild14, 0);
  ASSERT_TRUE(b.press(Cancel{one}));
  EXPECT_EQ(b.floor().gear.size(), 0U);
  EXPECT_EQ(next_step(b.floor(), kBuild14)->step, 0);
  EXPECT_TRUE(refused<WrongProgress>(b.press(Cancel{one})));
}

TEST(StartCommand, EarlyLateAndNotAtAll) {
  Bench b{kThursday};
  const GlueUpId early = b.reserve(kBridge, kAda, kThursday + 2h);
  ASSERT_TRUE(b.press(Start{early}));
  EXPECT_EQ(b.glue_up(early).times.stage_begin, kThursday);
  EXPECT_EQ(b.glue_up(early).times.clamped_begin, kThursday + 4min);
  const GlueUpId held_up = b.reserve(kBridge, kBen);
  EXPECT_TRUE(refused<DoesNotFit>(b.press(Start{held_up})));  // the caul is on Ada's joint
  EXPECT_TRUE(refused<WrongProgress>(b.press(Start{early})));

  const GlueUpId late = b.reserve(kBinding, kCyd, kThursday);
  b.wait(12min);
  ASSERT_TRUE(b.press(Start{late}));
  EXPECT_EQ(b.glue_up(late).times.stage_begin, kThursday);
  EXPECT_EQ(b.glue_up(late).times.clamped_begin, kThursday + 16min);
}

TEST(StartCommand, NeverIntoSomebodysPromiseUnlessKnowingly) {
  Bench b{kThursday};
  const GlueUpId mine = b.reserve(kBridge, kAda, kThursday);
  const GlueUpId theirs = b.reserve(kBridge, kBen);  // right behind, same caul
  b.wait(14min);
  const auto no = b.press(Start{mine});
  ASSERT_TRUE(refused<DoesNotFit>(no));
  EXPECT_EQ(b.glue_up(theirs).progress, Progress::reserved);
  ASSERT_TRUE(b.press(Start{mine, Override::knowingly}));
  EXPECT_EQ(b.glue_up(theirs).progress, Progress::displaced);
  EXPECT_EQ(b.glue_up(theirs).snag, Snag::started_over);
  EXPECT_EQ(b.glue_up(theirs).snag_by, mine);
  EXPECT_EQ(over_stock(b.floor()), "");
}

TEST(StartCommand, OutsideHoursOnlyKnowingly) {
  Bench b{at("2026-11-26T16:55:00Z")};
  const GlueUpId g = b.reserve(kBridge, kAda);  // tomorrow 8:00
  b.wait(10min);
  EXPECT_TRUE(
      std::holds_alternative<ShopClosed>(refused<DoesNotFit>(b.press(Start{g}))->why[0].fact));
  EXPECT_TRUE(b.press(Start{g, Override::knowingly}));
  EXPECT_TRUE(b.glue_up(g).outside_hours);
}

TEST(StartCommand, NotBeforeTheBuildsEarlierStepIsReady) {
  Bench b{kThursday};
  const GlueUpId bridge = b.reserve(kBridge, kAda, {}, kBuild14, 0);
  const GlueUpId binding = b.reserve(kBinding, kAda, {}, kBuild14, 1);
  const auto no = b.press(Start{binding});
  EXPECT_EQ(std::get<NotReadyYet>(refused<DoesNotFit>(no)->why[0].fact).waits_for, bridge);
}

}  // namespace
}  // namespace squeezeout::testing
