// Facts: what happened stands, and its consequences are right.

#include <gtest/gtest.h>

#include "common/floor/ask.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using namespace std::chrono_literals;

const Instant kThursday = at("2026-11-26T10:00:00Z");

// Reserved at ten, started and clamped at once.
struct Clamped {
  Bench b{kThursday};
  GlueUpId id;
  explicit Clamped(RecipeId recipe = kBridge, BuildId build = {}, int step = 0)
      : id(b.reserve(recipe, kAda, {}, build, step)) {
    b.wait(5min);
    CHECK(b.press(Start{id}).has_value());
    b.wait(3min);
    CHECK(b.press(ClampsOn{id, b.now()}).has_value());
  }
  const GlueUp& g() const { return b.glue_up(id); }
};

TEST(Facts, TheWholeWayOfAGlueUp) {
  Clamped c;
  EXPECT_EQ(phase_at(c.g(), c.b.now()), Phase::clamped);
  EXPECT_EQ(off_from(c.g()), kThursday + 8min + 60min);
  EXPECT_EQ(clamps_on_by(c.g()), kThursday + 10min);
  c.b.set(kThursday + 70min);
  EXPECT_EQ(phase_at(c.g(), c.b.now()), Phase::release);
  ASSERT_TRUE(c.b.press(ClampsOff{c.id, c.b.now()}));
  EXPECT_EQ(c.g().progress, Progress::waiting);
  EXPECT_EQ(c.b.floor().gear.free_over(kCaul, {c.b.now(), c.b.now() + 1h}), 1);
  EXPECT_EQ(c.g().times.ready_at, kThursday + 8min + 3h);
  EXPECT_EQ(refused<TooEarly>(c.b.press(Scraped{c.id, c.b.now()}))->from, c.g().times.ready_at);
  c.b.set(kThursday + 4h);
  EXPECT_EQ(phase_at(c.g(), c.b.now()), Phase::ready);
  ASSERT_TRUE(c.b.press(Scraped{c.id, c.b.now()}));
  EXPECT_EQ(c.g().progress, Progress::done);
  EXPECT_FALSE(c.g().off_early);
}

TEST(Facts, ClampsOffEarlyOnlyKnowingly) {
  Clamped c;
  c.b.wait(30min);
  EXPECT_EQ(refused<TooEarly>(c.b.press(ClampsOff{c.id, c.b.now()}))->from, off_from(c.g()));
  ASSERT_TRUE(c.b.press(ClampsOff{c.id, c.b.now(), Override::knowingly}));
  EXPECT_TRUE(c.g().off_early);
}

TEST(Facts, ReallyOffAtGivesTheGearBackFromThen) {
  Clamped c;
  c.b.set(kThursday + 2h);
  const Instant really = kThursday + 75min;
  ASSERT_TRUE(c.b.press(ClampsOff{c.id, really}));
  EXPECT_EQ(c.g().off_at, really);
  EXPECT_EQ(c.b.floor().gear.claims_of(Holder::of(c.id)).at(0).span.end, really);
}

TEST(Facts, TimesOutsideWhatCanBeAreRefused) {
  Clamped c;
  EXPECT_TRUE(refused<BadTime>(c.b.press(ClampsOff{c.id, c.b.now() + 1s})));
  EXPECT_TRUE(
      refused<BadTime>(c.b.press(ClampsOff{c.id, *c.g().clamped_at - 1s, Override::knowingly})));
  EXPECT_TRUE(refused<BadTime>(c.b.press(Spoiled{c.id, kThursday, ""})));
  EXPECT_TRUE(refused<WrongProgress>(c.b.press(ClampsOn{c.id, c.b.now()})));
  EXPECT_TRUE(refused<NoSuch>(c.b.press(ClampsOn{GlueUpId{42}, c.b.now()})));
}

TEST(Facts, ClampsThatStayOnHoldTheirGearAndDisplaceWhatWasPlanned) {
  Clamped c;
  const GlueUpId next = c.b.reserve(kBridge, kBen);  // right behind
  EXPECT_EQ(c.b.glue_up(next).times.stage_begin, c.g().times.release_end);
  c.b.set(c.g().times.release_end);
  EXPECT_FALSE(over_time(c.g(), c.b.now()));
  c.b.tick();
  EXPECT_TRUE(over_time(c.g(), c.b.now()));
  EXPECT_GT(c.g().times.release_end, c.b.now());
  EXPECT_EQ(c.b.glue_up(next).progress, Progress::displaced);
  EXPECT_EQ(c.b.glue_up(next).snag, Snag::other_overran);
  EXPECT_EQ(c.b.glue_up(next).snag_by, c.id);
  EXPECT_EQ(over_stock(c.b.floor()), "");
  // The displaced one takes its next time with one press.
  const auto quote = earliest_for(c.b.floor(), next, c.b.now(), c.b.now());
  ASSERT_TRUE(quote);
  EXPECT_TRUE(c.b.press(Move{next, quote->slot.times.stage_begin}));
  EXPECT_EQ(c.b.glue_up(next).snag, Snag::none);
}

TEST(Facts, ForgottenOverNightTheClampsAreHeldUntilTheMorning) {
  Bench b{at("2026-11-26T15:50:00Z")};
  const GlueUpId id = b.reserve(kBridge, kAda);
  ASSERT_TRUE(b.press(Start{id}));
  ASSERT_TRUE(b.press(ClampsOn{id, b.now()}));
  EXPECT_EQ(b.glue_up(id).times.release_end, at("2026-11-26T16:55:00Z"));
  b.set(at("2026-11-26T17:05:00Z"));
  b.tick();
  EXPECT_EQ(b.glue_up(id).times.release_end, at("2026-11-27T08:05:00Z"));
}

TEST(Facts, GlueStillWetPastThePlanMovesTheRest) {
  Bench b{kThursday};
  const GlueUpId id = b.reserve(kBridge, kAda);
  ASSERT_TRUE(b.press(Start{id}));
  b.wait(6min);
  b.tick();
  EXPECT_GT(b.glue_up(id).times.clamped_begin, b.now());
  EXPECT_EQ(b.glue_up(id).times.release_begin, b.glue_up(id).times.clamped_begin + 60min);
}

TEST(Facts, WhatIsNotStartedInTimeGivesItsGearBack) {
  Bench b{kThursday};
  const GlueUpId id = b.reserve(kBridge, kAda);
  b.set(b.glue_up(id).times.open_begin + kStartGrace - 1s);
  b.tick();
  EXPECT_EQ(b.glue_up(id).progress, Progress::reserved);
  b.wait(1s);
  b.tick();
  EXPECT_EQ(b.glue_up(id).progress, Progress::displaced);
  EXPECT_EQ(b.glue_up(id).snag, Snag::not_started);
  EXPECT_EQ(b.floor().gear.size(), 0U);
  EXPECT_TRUE(b.press(Start{id}));  // still wanted: starts now when it fits
}

TEST(Facts, AWaitWithNothingLeftToDoEndsByItself) {
  Clamped c{kLining};
  c.b.set(kThursday + 80min);
  ASSERT_TRUE(c.b.press(ClampsOff{c.id, c.b.now()}));
  c.b.set(c.g().times.ready_at);
  c.b.tick();
  EXPECT_EQ(c.g().progress, Progress::done);
  EXPECT_EQ(c.g().ended_at, c.g().times.ready_at);
}

TEST(Facts, FactsToldLateCountFromWhenTheyHappened) {
  Bench b{kThursday};
  const GlueUpId id = b.reserve(kBridge, kAda);
  ASSERT_TRUE(b.press(Start{id}));
  b.wait(3h);  // the bench was cut off; the clamps went on after three minutes
  ASSERT_TRUE(b.press(ClampsOn{id, kThursday + 3min}));
  EXPECT_EQ(b.glue_up(id).clamped_at, kThursday + 3min);
  EXPECT_EQ(off_from(b.glue_up(id)), kThursday + 63min);
  EXPECT_GT(b.glue_up(id).times.release_end, b.now());  // still on, as far as anybody knows
  ASSERT_TRUE(b.press(ClampsOff{id, kThursday + 70min}));
  EXPECT_EQ(b.glue_up(id).off_at, kThursday + 70min);
  EXPECT_EQ(over_stock(b.floor()), "");
}

TEST(Facts, LateMovesTheReleaseAndOnlyWhatIsInTheWay) {
  Clamped c;
  const GlueUpId behind = c.b.reserve(kBridge, kBen);
  const GlueUpId elsewhere = c.b.reserve(kBend, kCyd);
  ASSERT_TRUE(c.b.press(Late{c.id, 10min}));
  EXPECT_EQ(c.g().times.release_begin, kThursday + 78min);
  EXPECT_EQ(c.b.glue_up(behind).progress, Progress::displaced);
  EXPECT_EQ(c.b.glue_up(elsewhere).progress, Progress::reserved);
  EXPECT_TRUE(refused<BadCount>(c.b.press(Late{c.id, 0min})));
  EXPECT_TRUE(refused<BadCount>(c.b.press(Late{c.id, std::chrono::hours{25}})));
}

TEST(Facts, SpoiledFreesTheGearTheStepAndDisplacesLaterSteps) {
  Clamped c{kBridge, kBuild14, 0};
  const GlueUpId binding = c.b.reserve(kBinding, kAda, {}, kBuild14, 1);
  c.b.wait(5min);
  ASSERT_TRUE(c.b.press(Spoiled{c.id, c.b.now(), "caul slipped"}));
  EXPECT_EQ(c.g().progress, Progress::spoiled);
  EXPECT_EQ(c.b.floor().gear.free_over(kCaul, {c.b.now(), c.b.now() + 1h}), 1);
  EXPECT_EQ(c.b.glue_up(binding).snag, Snag::earlier_step);
  EXPECT_EQ(next_step(c.b.floor(), kBuild14)->step, 0);
}

TEST(Undo, TakesBackTheLastPress) {
  Clamped c;
  ASSERT_TRUE(c.b.press(Undo{c.id}));
  EXPECT_EQ(c.g().progress, Progress::open);
  EXPECT_FALSE(c.g().clamped_at);
  ASSERT_TRUE(c.b.press(Undo{c.id}));  // and again: it comes back
  EXPECT_EQ(c.g().progress, Progress::clamped);
}

TEST(Undo, AReservationWithNoOtherPressIsCancelled) {
  Bench b{kThursday};
  const GlueUpId id = b.reserve(kBridge, kAda);
  ASSERT_TRUE(b.press(Undo{id}));
  EXPECT_EQ(b.glue_up(id).progress, Progress::cancelled);
}

TEST(Undo, BreaksNobodysPromise) {
  Clamped c;
  c.b.set(kThursday + 70min);
  ASSERT_TRUE(c.b.press(ClampsOff{c.id, c.b.now()}));
  const GlueUpId theirs = c.b.reserve(kBridge, kBen);
  ASSERT_TRUE(c.b.press(Start{theirs}));
  const auto no = c.b.press(Undo{c.id});
  ASSERT_TRUE(refused<DoesNotFit>(no));
  EXPECT_EQ(std::get<GearShort>(refused<DoesNotFit>(no)->why[0].fact).holders.at(0).holder,
            Holder::of(theirs));
}

TEST(Undo, NotAfterAnHour) {
  Clamped c;
  c.b.wait(61min);
  EXPECT_TRUE(refused<NothingToUndo>(c.b.press(Undo{c.id})));
  EXPECT_TRUE(refused<NoSuch>(c.b.press(Undo{GlueUpId{77}})));
}

TEST(Gear, BrokenPiecesGoAndPlansGiveWay) {
  Bench b{kThursday};
  const GlueUpId running = b.reserve(kBridge, kAda);  // 3 of 6 deep
  ASSERT_TRUE(b.press(Start{running}));
  const GlueUpId planned = b.reserve(kBridge, kBen, kThursday + 3h);
  EXPECT_EQ(refused<BadCount>(b.press(GearBroken{kDeep, 4, "screw"}))->most,
            3);  // the others are in a joint
  ASSERT_TRUE(b.press(GearBroken{kDeep, 3, "screw"}));
  EXPECT_EQ(b.glue_up(running).progress, Progress::open);
  EXPECT_EQ(b.glue_up(planned).progress, Progress::reserved);  // three are back by then
  b.wait(3min);
  ASSERT_TRUE(b.press(ClampsOn{running, b.now()}));
  b.wait(62min);
  ASSERT_TRUE(b.press(ClampsOff{running, b.now()}));
  ASSERT_TRUE(b.press(GearBroken{kDeep, 1, "bent"}));
  EXPECT_EQ(b.glue_up(planned).snag, Snag::gear_broken);
  EXPECT_EQ(over_stock(b.floor()), "");
  ASSERT_TRUE(b.press(GearMended{kDeep, 2}));
  EXPECT_EQ(b.floor().gear.free_over(kDeep, {b.now(), b.now() + 1h}), 4);
  EXPECT_EQ(refused<BadCount>(b.press(GearMended{kDeep, 3}))->most, 2);
}

TEST(Gear, StockIsNotCutBelowWhatIsPromised) {
  Bench b{kThursday};
  const GlueUpId id = b.reserve(kBridge, kAda);
  const auto no = b.press(SetStock{kDeep, 2});
  ASSERT_TRUE(refused<BelowClaims>(no));
  EXPECT_EQ(refused<BelowClaims>(no)->clashes.at(0).holder, Holder::of(id));
  EXPECT_TRUE(b.press(SetStock{kDeep, 3}));
  EXPECT_EQ(b.floor().gear.stock(kDeep), 3);
  EXPECT_TRUE(refused<BadCount>(b.press(SetStock{kDeep, -1})));
  EXPECT_TRUE(refused<BadCount>(b.press(SetStock{kDeep, 10'001})));
}

TEST(Gear, NowAddsUp) {
  Clamped c;
  ASSERT_TRUE(c.b.press(GearBroken{kDeep, 1, "bent"}));
  for (const GearNow& n : gear_now(c.b.floor(), c.b.now())) {
    EXPECT_EQ(n.stock, n.broken + n.held + n.free);
    if (n.kind != kDeep) continue;
    EXPECT_EQ(n.broken, 1);
    EXPECT_EQ(n.held, 3);
    EXPECT_EQ(n.more_at, c.g().times.release_end);
  }
}

TEST(Climate, AColdReadingLengthensWhatIsReservedAfterIt) {
  Bench b{kThursday};
  ASSERT_TRUE(b.press(ClimateReading{{15}, {55}}));
  EXPECT_EQ(b.glue_up(b.reserve(kBridge, kAda)).demand.dwell, 90min);
  EXPECT_TRUE(refused<BadCount>(b.press(ClimateReading{{99}, {55}})));
  EXPECT_TRUE(refused<BadCount>(b.press(ClimateReading{{20}, {101}})));
}

}  // namespace
}  // namespace squeezeout::testing
