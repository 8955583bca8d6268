// The plan follows the weather: what grows, what gives way, and what is told.

#include "common/floor/weather.h"

#include <gtest/gtest.h>

#include "common/floor/ask.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using namespace std::chrono_literals;

const Instant kThursday = at("2026-11-26T10:00:00Z");

SetForecast steady_from(Instant t, double celsius) {
  return {{{t, {celsius}, {50}}, {t + 1min, {celsius}, {50}}, {t + 20h, {celsius}, {50}}}};
}

TEST(FollowWeather, AColderForecastLengthensWhatIsPlannedAndSaysWhy) {
  Bench b{kThursday};
  const GlueUpId id = b.reserve(kBridge, kAda, kThursday + 2h);
  EXPECT_EQ(b.glue_up(id).demand.dwell, 60min);
  ASSERT_TRUE(b.press(steady_from(kThursday + 1h, 15)));  // halfway between 120 and 60 min
  const GlueUp& g = b.glue_up(id);
  EXPECT_EQ(g.demand.dwell, 90min);
  EXPECT_EQ(g.times.stage_begin, kThursday + 2h);
  EXPECT_EQ(g.times.release_begin, g.times.clamped_begin + 90min);
  ASSERT_TRUE(g.weather);
  EXPECT_EQ(g.weather->dwell_before, 60min);
  EXPECT_EQ(g.weather->dwell, 90min);
  EXPECT_EQ(g.weather->coldest, Celsius{15});
  EXPECT_FALSE(g.weather->moved_from);
  EXPECT_EQ(over_stock(b.floor()), "");
}

TEST(FollowWeather, WarmthShortensNothingByItself) {
  Bench b{kThursday};
  ASSERT_TRUE(b.press(ClimateReading{{15}, {50}}));
  const GlueUpId id = b.reserve(kBridge, kAda, kThursday + 2h);
  EXPECT_EQ(b.glue_up(id).demand.dwell, 90min);
  const GlueUp before = b.glue_up(id);
  ASSERT_TRUE(b.press(steady_from(kThursday + 1min, 20)));
  EXPECT_EQ(b.glue_up(id), before);
  // The next press takes the warmth.
  b.set(kThursday + 2h + 5min);
  ASSERT_TRUE(b.press(Start{id}));
  EXPECT_EQ(b.glue_up(id).demand.dwell, 60min);
}

TEST(FollowWeather, WhatHasStartedKeepsItsStartAndTheNextInLineMoves) {
  Bench b{kThursday};
  const GlueUpId running = b.reserve(kBridge, kAda, kThursday);  // holds the only caul until 11:14
  const GlueUpId next = b.reserve(kBridge, kBen);                // 11:14
  const GlueUpId apart = b.reserve(kLining, kCyd, kThursday + 5h);
  const Instant next_start = b.glue_up(next).times.stage_begin;
  b.wait(5min);
  ASSERT_TRUE(b.press(Start{running}));
  b.wait(4min);
  ASSERT_TRUE(b.press(ClampsOn{running, b.now()}));
  const GlueUp was = b.glue_up(running);
  // Cold for an hour only: the lining at three is not concerned.
  ASSERT_TRUE(b.press(SetForecast{
      {{b.now() + 1min, {12}, {50}}, {b.now() + 2h, {12}, {50}}, {b.now() + 3h, {20}, {50}}}}));
  const GlueUp& g = b.glue_up(running);
  EXPECT_EQ(g.times.stage_begin, was.times.stage_begin);
  EXPECT_EQ(g.times.clamped_begin, was.times.clamped_begin);
  EXPECT_GT(g.demand.dwell, 100min);
  EXPECT_EQ(g.times.release_begin, g.times.clamped_begin + g.demand.dwell);
  ASSERT_TRUE(g.weather);

  const GlueUp& moved = b.glue_up(next);
  EXPECT_EQ(moved.progress, Progress::reserved);
  EXPECT_EQ(moved.times.stage_begin, g.times.release_end);  // no later than it must
  ASSERT_TRUE(moved.weather);
  EXPECT_EQ(moved.weather->moved_from, next_start);
  EXPECT_EQ(moved.weather->because, running);
  EXPECT_FALSE(b.glue_up(apart).weather);
  EXPECT_EQ(over_stock(b.floor()), "");
}

TEST(FollowWeather, BelowTheFloorItMovesToTheWarmMorning) {
  Bench b{kThursday};
  const GlueUpId id = b.reserve(kBridge, kAda, at("2026-11-26T15:00:00Z"));
  const Instant dawn = at("2026-11-27T07:00:00Z");
  ASSERT_TRUE(b.press(
      SetForecast{{{kThursday + 3h, {5}, {60}}, {dawn, {5}, {60}}, {dawn + 2h, {20}, {50}}}}));
  const GlueUp& g = b.glue_up(id);
  EXPECT_EQ(g.progress, Progress::reserved);
  EXPECT_GE(g.times.open_begin, dawn + 40min);  // 10 C after 40 minutes
  EXPECT_LT(g.times.open_begin, dawn + 2h);
  ASSERT_TRUE(g.weather);
  EXPECT_EQ(g.weather->moved_from, at("2026-11-26T15:00:00Z"));
  EXPECT_FALSE(g.weather->because);
}

TEST(FollowWeather, WithoutAWarmHourItIsASnag) {
  Bench b{kThursday};
  const GlueUpId id = b.reserve(kBridge, kAda, kThursday + 4h);
  ASSERT_TRUE(b.press(SetForecast{{{kThursday + 2h, {5}, {60}}, {kThursday + 30h, {5}, {60}}}}));
  EXPECT_EQ(b.glue_up(id).progress, Progress::displaced);
  EXPECT_EQ(b.glue_up(id).snag, Snag::too_cold);
}

TEST(FollowWeather, TheLaterStepOfABuildMovesBehindTheEarlier) {
  Bench b{kThursday};
  const GlueUpId bridge = b.reserve(kBridge, kAda, kThursday + 1h, kBuild14, 0);
  const Instant ready = b.glue_up(bridge).times.ready_at;
  const GlueUpId binding = b.reserve(kBinding, kAda, std::nullopt, kBuild14, 1);
  EXPECT_EQ(b.glue_up(binding).times.stage_begin, ready);
  ASSERT_TRUE(b.press(steady_from(kThursday + 30min, 11)));  // the wait grows as well
  EXPECT_GT(b.glue_up(bridge).times.ready_at, ready);
  EXPECT_GE(b.glue_up(binding).times.stage_begin, b.glue_up(bridge).times.ready_at);
  EXPECT_EQ(b.glue_up(binding).progress, Progress::reserved);
}

TEST(Weather, ReadingsThenForecastThenTheDailyCourse) {
  Shop shop = small_shop();
  shop.daily = {{7 * 60, {19}, {50}}, {18 * 60, {14}, {60}}};
  Bench b{kThursday, shop};
  ASSERT_TRUE(b.press(ClimateReading{{21}, {45}}));
  ASSERT_TRUE(b.press(SetForecast{{{kThursday + 2h, {17}, {50}}}}));
  const Weather w = weather_of(b.floor(), kThursday);
  EXPECT_EQ(w.air(kThursday), Celsius{21});
  EXPECT_EQ(w.air(kThursday + 1h), Celsius{19});
  EXPECT_EQ(w.air(kThursday + 2h), Celsius{17});
  EXPECT_EQ(w.air(at("2026-11-26T18:00:00Z")), Celsius{14});
  EXPECT_EQ(w.air(at("2026-11-27T07:00:00Z")), Celsius{19});
  EXPECT_EQ(w.humidity(at("2026-11-27T18:00:00Z")), Percent{60});
}

TEST(Weather, ALoggersFileMayComeLateAndOutOfOrder) {
  Bench b{kThursday};
  ASSERT_TRUE(b.press(ClimateReading{{21}, {45}}));
  ASSERT_TRUE(b.press(ReadClimate{{{kThursday - 3h, {15}, {55}}, {kThursday - 1h, {18}, {50}}}}));
  const Weather w = weather_of(b.floor(), kThursday);
  EXPECT_EQ(w.air(kThursday - 2h), Celsius{16.5});
  EXPECT_EQ(b.floor().climate.air, Celsius{21});
  const auto bad_answer = b.press(ReadClimate{{{kThursday - 1h, {61}, {50}}}});
  const auto* bad = refused<BadAir>(bad_answer);
  ASSERT_TRUE(bad);
  EXPECT_EQ(bad->what, BadAir::What::celsius);
  EXPECT_EQ(refused<BadAir>(b.press(ReadClimate{{{kThursday + 1h, {20}, {50}}}}))->what,
            BadAir::What::instant);
  EXPECT_EQ(refused<BadAir>(
                b.press(ReadClimate{{{kThursday - 1h, {20}, {50}}, {kThursday - 1h, {21}, {50}}}}))
                ->what,
            BadAir::What::instant);
  EXPECT_EQ(refused<BadAir>(b.press(ReadClimate{{{kThursday - 8 * 24h, {20}, {50}}}}))->what,
            BadAir::What::instant);
  EXPECT_EQ(
      refused<BadAir>(b.press(SetForecast{
                          {{kThursday + 1h, {20}, {std::numeric_limits<double>::quiet_NaN()}}}}))
          ->what,
      BadAir::What::humidity);
  EXPECT_EQ(refused<BadAir>(b.press(SetForecast{{{kThursday + 15 * 24h, {20}, {50}}}}))->what,
            BadAir::What::instant);
}

TEST(Weather, ASensorThatTalksEverySecondIsThinned) {
  Bench b{kThursday};
  for (int i = 0; i < 4'000; ++i, b.wait(1s))
    ASSERT_TRUE(b.press(ClimateReading{{20.0 + i % 2}, {45}}));
  EXPECT_LT(b.floor().readings.size(), 20u);
  EXPECT_EQ(b.floor().readings.back().at, b.now() - 1s);
}

TEST(Lots, AStaleBottleIsRefusedForAStructuralJointAndWarnedOfElsewhere) {
  Shop shop = small_shop();
  shop.recipes[0].joint = {.length = {180},
                           .width = {30},
                           .a = {"", "sitka-spruce"},
                           .b = {"", "sugar-maple"},
                           .traits = {Trait::structural}};
  shop.sheets[0].shelf_days = 365;
  Bench b{kThursday, shop};
  Lot lot{.sheet = kResin, .label = "old", .made = kThursday - 24h * 400};
  ASSERT_TRUE(b.press(PutLot{lot}));
  const auto answer = b.press(Reserve{.recipe = kBridge, .builder = kAda, .after = kThursday});
  const auto* no = refused<NotPossible>(answer);
  ASSERT_TRUE(no);
  EXPECT_EQ(std::get<StaleLot>(no->why).lot, LotId{1});
  EXPECT_EQ(std::get<StaleLot>(no->why).since, kThursday - 24h * 35);
  // A reason does not help; elsewhere, or from a fresh bottle, it goes.
  EXPECT_TRUE(refused<NotPossible>(b.press(
      Reserve{.recipe = kBridge, .builder = kAda, .after = kThursday, .reason = "tested"})));
  EXPECT_TRUE(b.press(Reserve{.recipe = kLining, .builder = kBen, .after = kThursday}));
  lot.label = "new", lot.made = kThursday - 24h;
  ASSERT_TRUE(b.press(PutLot{lot}));
  EXPECT_TRUE(b.press(Reserve{.recipe = kBridge, .builder = kAda, .after = kThursday}));
}

TEST(Lots, WarmStorageHalvesTheLife) {
  AdhesiveSheet s;
  s.shelf_days = 100;
  Lot lot{.made = kThursday};
  EXPECT_EQ(stale_from(lot, s), kThursday + 24h * 100);
  lot.stored = Stored::warm;
  EXPECT_EQ(stale_from(lot, s), kThursday + 24h * 50);
  lot.expires = kThursday + 24h * 20;
  EXPECT_EQ(stale_from(lot, s), lot.expires);
  EXPECT_EQ(age_of(lot, s, kThursday + 24h * 19), LotAge::old);
  EXPECT_EQ(age_of(lot, s, kThursday + 24h * 20), LotAge::stale);
  EXPECT_EQ(age_of(Lot{}, s, kThursday), LotAge::unknown);
}

TEST(Pots, OneMixServesSeveralGlueUpsUntilItSets) {
  Shop shop = small_shop();
  shop.sheets[0].chemistry = Chemistry::epoxy_slow;
  shop.sheets[0].working_life = 30min;
  shop.gear[1].stock = 30;
  Bench b{kThursday, shop};
  const GlueUpId first = b.reserve(kBridge, kAda), second = b.reserve(kLining, kBen),
                 third = b.reserve(kLining, kCyd, kThursday + 40min);
  b.wait(5min);
  ASSERT_TRUE(b.press(MixPot{kResin, {}, kBench1}));
  const PotId pot{1};
  EXPECT_EQ(b.floor().pot(pot)->until, b.now() + 30min);
  ASSERT_TRUE(b.press(Start{first, Override::no, pot}));
  b.wait(24min);
  // Six minutes are left of the pot: enough for four, and the limit is the sooner of both.
  const auto late = b.press(Start{second, Override::no, pot});
  EXPECT_TRUE(late);
  EXPECT_EQ(clamps_on_by(b.glue_up(second)), std::min(b.now() + 5min, b.floor().pot(pot)->until));
  b.set(kThursday + 40min);
  EXPECT_EQ(refused<PotSpent>(b.press(Start{third, Override::no, pot}))->until,
            b.floor().pot(pot)->until);
  EXPECT_TRUE(refused<NoSuch>(b.press(Start{third, Override::no, PotId{9}})));
  EXPECT_TRUE(b.press(Start{third}));
}

TEST(Learned, FiveGlueUpsTeachTheTimeThatIsPlanned) {
  Shop shop = small_shop();
  shop.sheets[0].open = 10min;
  Bench b{kThursday, shop};
  for (int i = 0; i < 6; ++i) {
    const GlueUpId id = b.reserve(kBridge, kAda);
    EXPECT_EQ(b.glue_up(id).demand.assembly, i < 5 ? 4min : 7min) << i;
    b.set(b.glue_up(id).times.open_begin);
    ASSERT_TRUE(b.press(Start{id}));
    b.wait(Minutes{i < 4 ? 6 : 7});
    ASSERT_TRUE(b.press(ClampsOn{id, b.now()}));
    b.set(off_from(b.glue_up(id)));
    ASSERT_TRUE(b.press(ClampsOff{id, b.now()}));
  }
  // Another builder, or another recipe, is another matter.
  EXPECT_TRUE(assembly_times(b.floor(), kBridge, kBen).empty());
  // An undo takes the lesson back; a press that somebody forgot is none.
  const std::size_t known = assembly_times(b.floor(), kBridge, kAda).size();
  const GlueUpId last = b.reserve(kBridge, kAda);
  b.set(b.glue_up(last).times.open_begin);
  ASSERT_TRUE(b.press(Start{last}));
  b.wait(5min);
  ASSERT_TRUE(b.press(ClampsOn{last, b.now()}));
  EXPECT_EQ(assembly_times(b.floor(), kBridge, kAda).size(), known + 1);
  ASSERT_TRUE(b.press(Undo{last}));
  EXPECT_EQ(assembly_times(b.floor(), kBridge, kAda).size(), known);
  b.wait(40min);
  ASSERT_TRUE(b.press(ClampsOn{last, b.now()}));
  EXPECT_EQ(assembly_times(b.floor(), kBridge, kAda).size(), known);
}

TEST(Learned, ABuilderWhoNeedsLongerThanTheGlueStaysOpenIsTold) {
  Bench b{kThursday};
  for (int i = 0; i < 5; ++i) {
    const GlueUpId id = b.reserve(kBridge, kAda);
    b.set(b.glue_up(id).times.open_begin);
    ASSERT_TRUE(b.press(Start{id}));
    b.wait(6min);
    ASSERT_TRUE(b.press(ClampsOn{id, b.now()}));
    b.set(off_from(b.glue_up(id)));
    ASSERT_TRUE(b.press(ClampsOff{id, b.now()}));
  }
  const Reserve again{.recipe = kBridge, .builder = kAda, .after = b.now()};
  const auto answer = b.press(again);
  const auto* no = refused<NotPossible>(answer);
  ASSERT_TRUE(no);
  EXPECT_EQ(std::get<OpenTooShort>(no->why), (OpenTooShort{kResin, 6min, 5min}));
  Reserve knowingly = again;
  knowingly.reason = "a helper comes";
  ASSERT_TRUE(b.press(knowingly));
  EXPECT_EQ(b.glue_up(GlueUpId{b.floor().last_glue_up}).reason, "a helper comes");
}

}  // namespace
}  // namespace squeezeout::testing
