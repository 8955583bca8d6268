// Corners that a strict reading of the rules found: each of them once broke a promise, or the program.

#include <gtest/gtest.h>

#include "common/floor/ask.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using namespace std::chrono_literals;

const Instant kThursday = at("2026-11-26T10:00:00Z");
constexpr auto kDay = std::chrono::hours{24};

GlueUpId clamped(Bench& b, RecipeId recipe, BuilderId builder, BuildId build = {},
                 int step_of_build = 0) {
  const GlueUpId id = b.reserve(recipe, builder, {}, build, step_of_build);
  CHECK(b.press(Start{id}).has_value());
  b.wait(2min);
  CHECK(b.press(ClampsOn{id, b.now()}).has_value());
  return id;
}

TEST(Corners, ADayLateAgainAndAgainIsRefusedBeforeTheClaimIsTooLong) {
  Bench b{kThursday};
  const GlueUpId id = clamped(b, kBridge, kAda);
  int granted = 0;
  while (b.press(Late{id, kDay})) ASSERT_LT(++granted, 400);
  EXPECT_GT(granted, 200);
  EXPECT_TRUE(refused<BadTime>(b.press(Late{id, kDay})));
  EXPECT_LE(b.glue_up(id).times.held().length(), kMaxClaim);
}

TEST(Corners, AClockThatJumpsTenYearsLetsForgottenClampsGo) {
  for (const bool wet : {false, true}) {
    Bench b{kThursday};
    const GlueUpId id = wet ? b.reserve(kBridge, kAda) : clamped(b, kBridge, kAda);
    if (wet) {
      ASSERT_TRUE(b.press(Start{id}));
    }
    b.wait(kDay * 3653);
    b.tick();
    EXPECT_EQ(b.glue_up(id).progress, Progress::waiting);
    const PhaseTimes& t = b.glue_up(id).times;
    EXPECT_LE(t.open_begin, t.clamped_begin);
    EXPECT_LE(t.clamped_begin, t.release_begin);
    EXPECT_LE(t.release_begin, t.release_end);
    EXPECT_EQ(over_stock(b.floor()), "");
  }
}

TEST(Corners, ADwellOfAYearIsHeldNoLongerThanAClaimMayBe) {
  Bench b{kThursday};
  const GlueUpId id = b.reserve(kBridge, kAda);
  Shop longer = small_shop();
  longer.recipes[0].dwell = kMaxClaim;
  ASSERT_TRUE(b.press(LoadShop{longer}));
  ASSERT_TRUE(b.press(Start{id, Override::knowingly}));
  EXPECT_LE(b.glue_up(id).times.held().length(), kMaxClaim);
}

TEST(Corners, OtherGearIsClaimedFromNowOnNotFromWhenTheFirstWasLaidOut) {
  Bench b{kThursday};
  ASSERT_TRUE(b.press(SetStock{kShort, 8}));
  const GlueUpId ben = clamped(b, kLining, kBen);           // all 8 short ones
  const GlueUpId ada = b.reserve(kBinding, kAda, b.now());  // 4 deep ones
  const GlueUpId cyd = b.reserve(kBinding, kCyd);           // right behind, deep ones too
  ASSERT_EQ(b.glue_up(cyd).held, (std::vector<Held>{{kShort, 4}}));
  ASSERT_TRUE(b.press(ClampsOff{ben, b.now(), Override::knowingly}));
  ASSERT_TRUE(b.press(GearBroken{kDeep, 3, "bent"}));  // Ada's plan gives way
  ASSERT_EQ(b.glue_up(ada).progress, Progress::displaced);
  b.wait(5min);
  ASSERT_TRUE(b.press(Start{ada}));  // 8 short ones are free now
  EXPECT_EQ(b.glue_up(ada).times.stage_begin, b.now());
  EXPECT_EQ(over_stock(b.floor()), "");
}

TEST(Corners, UndoCountsFromThePressNotFromTheFact) {
  Bench b{kThursday};
  const GlueUpId id = clamped(b, kBridge, kAda);
  b.wait(2h);
  ASSERT_TRUE(b.press(ClampsOff{id, kThursday + 70min}));  // an hour ago, mistyped
  EXPECT_TRUE(b.press(Undo{id}));
  EXPECT_EQ(b.glue_up(id).progress, Progress::clamped);
}

TEST(Corners, UndoKeepsTheOrderOfABuild) {
  Bench b{kThursday};
  const GlueUpId first = b.reserve(kBridge, kAda, {}, kBuild14, 0);
  const GlueUpId second = b.reserve(kBinding, kAda, at("2026-11-27T08:00:00Z"), kBuild14, 1);
  ASSERT_TRUE(b.press(Move{second, at("2026-11-30T09:00:00Z")}));
  ASSERT_TRUE(b.press(Move{first, at("2026-11-27T09:00:00Z")}));
  const auto no = b.press(Undo{second});
  ASSERT_TRUE(refused<DoesNotFit>(no));
  EXPECT_EQ(std::get<NotReadyYet>(refused<DoesNotFit>(no)->why.at(0).fact).waits_for, first);
}

TEST(Corners, UndoOfAMoveIntoThePastIsRefused) {
  Bench b{kThursday};
  const GlueUpId id = b.reserve(kBridge, kAda);
  ASSERT_TRUE(b.press(Move{id, kThursday + 5h}));
  b.wait(50min);
  EXPECT_TRUE(refused<BadTime>(b.press(Undo{id})));
  EXPECT_EQ(b.glue_up(id).times.stage_begin, kThursday + 5h);
}

TEST(Corners, AnUndoThatALaterStepForbidsNamesIt) {
  Bench b{kThursday};
  const GlueUpId first = b.reserve(kBridge, kAda, kThursday + 2h, kBuild14, 0);
  ASSERT_TRUE(b.press(Move{first, kThursday + 10min}));
  b.reserve(kBinding, kAda, kThursday + 4h, kBuild14, 1);
  const auto no = b.press(Undo{first});
  ASSERT_TRUE(refused<DoesNotFit>(no));
  ASSERT_FALSE(refused<DoesNotFit>(no)->why.empty());
}

TEST(Corners, OneBuilderHasOneWetGlueUp) {
  Bench b{kThursday};
  const GlueUpId one = b.reserve(kBinding, kAda);
  const GlueUpId two = b.reserve(kBend, kAda);
  ASSERT_TRUE(b.press(Start{one}));
  EXPECT_EQ(std::get<BuilderBusy>(refused<DoesNotFit>(b.press(Start{two}))->why.at(0).fact).with,
            one);
  EXPECT_TRUE(b.press(Start{two, Override::knowingly}));
}

TEST(Corners, SpreadingMustEndBeforeClosing) {
  Bench b{at("2026-11-26T16:58:00Z")};
  const GlueUpId id = b.reserve(kBridge, kAda);  // tomorrow
  EXPECT_TRUE(
      std::holds_alternative<ShopClosed>(refused<DoesNotFit>(b.press(Start{id}))->why.at(0).fact));
}

TEST(Corners, WhatWasSaidOfASpoiledOneIsKept) {
  Bench b{kThursday};
  const GlueUpId id = clamped(b, kBridge, kAda);
  ASSERT_TRUE(b.press(Spoiled{id, b.now(), "skinned over"}));
  EXPECT_EQ(b.glue_up(id).note, "skinned over");
}

TEST(Corners, AReloadKeepsTheChainAndWhatWasCountedAtTheBench) {
  Bench b{kThursday};
  b.reserve(kBridge, kAda, {}, kBuild14, 0);
  ASSERT_TRUE(b.press(SetStock{kDeep, 4}));
  Shop s = small_shop();
  s.name = "Renamed";
  ASSERT_TRUE(b.press(LoadShop{s}));
  EXPECT_EQ(b.floor().gear.stock(kDeep), 4);  // the file says 6, as it did before
  s.gear[0].stock = 9;
  ASSERT_TRUE(b.press(LoadShop{s}));
  EXPECT_EQ(b.floor().gear.stock(kDeep), 9);
  s.builds[0].steps.insert(s.builds[0].steps.begin(), kBend);
  EXPECT_TRUE(refused<BadShop>(b.press(LoadShop{s})));
}

TEST(Corners, AMendedPieceStaysOnRecordAsHavingBeenOut) {
  Bench b{kThursday};
  ASSERT_TRUE(b.press(GearBroken{kDeep, 3, "bent"}));
  b.wait(2h);
  ASSERT_TRUE(b.press(GearMended{kDeep, 2}));
  EXPECT_EQ(b.floor().gear.free_over(kDeep, {kThursday, kThursday + 2h}), 3);
  EXPECT_EQ(b.floor().gear.free_over(kDeep, {b.now(), b.now() + 1h}), 5);
  EXPECT_EQ(refused<BadCount>(b.press(GearMended{kDeep, 2}))->most, 1);
}

TEST(Corners, AnEarlierStepThatIsReadyInTenWeeksIsWaitedFor) {
  Bench b{kThursday};
  b.reserve(kBridge, kAda, at("2027-02-08T09:00:00Z"), kBuild14, 0);
  const GlueUpId second = b.reserve(kBinding, kAda, {}, kBuild14, 1);
  EXPECT_GE(b.glue_up(second).times.stage_begin, at("2027-02-08T12:00:00Z"));
}

TEST(Corners, ANumberOfAKindIsNeverGivenTwice) {
  Bench b{kThursday};
  Shop s = small_shop();
  GearKind extra = s.gear.back();
  extra.id = GearKindId{6};
  extra.key = "extra";
  s.gear.push_back(extra);
  ASSERT_TRUE(b.press(LoadShop{s}));
  ASSERT_TRUE(b.press(LoadShop{small_shop()}));
  s.gear.back().key = "another";
  ASSERT_TRUE(b.press(LoadShop{s}));
  EXPECT_EQ(b.floor().shop->gear.back().id, GearKindId{7});
}

}  // namespace
}  // namespace squeezeout::testing
