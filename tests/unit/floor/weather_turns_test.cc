// The weather turns: readings that come and go, a course that goes on, presses taken back, and what runs meanwhile.

#include <gtest/gtest.h>

#include "common/floor/ask.h"
#include "common/floor/weather.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using namespace std::chrono_literals;

const Instant kThursday = at("2026-11-26T10:00:00Z");

TEST(WeatherTurns, AColdReadingPutsOutOnlyWhatIsNearAndAWarmOneBringsItBack) {
  Bench b{kThursday};
  const GlueUpId near = b.reserve(kBridge, kAda, kThursday + 1h);
  const GlueUpId far = b.reserve(kLining, kBen, kThursday + 4h);
  const GlueUp was = b.glue_up(near);
  b.wait(10min);
  ASSERT_TRUE(b.press(ClimateReading{{9}, {50}}));  // a door stood open
  EXPECT_EQ(b.glue_up(near).progress, Progress::displaced);
  EXPECT_EQ(b.glue_up(near).snag, Snag::too_cold);
  EXPECT_EQ(b.glue_up(far).progress, Progress::reserved);
  b.wait(10min);
  ASSERT_TRUE(b.press(ClimateReading{{20}, {50}}));
  EXPECT_EQ(b.glue_up(near).progress, Progress::reserved);
  EXPECT_EQ(b.glue_up(near).times.stage_begin, was.times.stage_begin);
  EXPECT_EQ(b.glue_up(near).held, was.held);
}

TEST(WeatherTurns, TheLaterStepsOfABuildComeBackWithTheEarlier) {
  Bench b{kThursday};
  const GlueUpId bridge = b.reserve(kBridge, kAda, kThursday + 1h, kBuild14, 0);
  const GlueUpId binding = b.reserve(kBinding, kAda, std::nullopt, kBuild14, 1);
  const GlueUp was = b.glue_up(binding);
  ASSERT_TRUE(b.press(ClimateReading{{5}, {50}}));
  ASSERT_EQ(b.glue_up(bridge).progress, Progress::displaced);
  ASSERT_EQ(b.glue_up(binding).progress, Progress::displaced);
  b.wait(10min);
  ASSERT_TRUE(b.press(ClimateReading{{20}, {50}}));
  EXPECT_EQ(b.glue_up(bridge).progress, Progress::reserved);
  EXPECT_EQ(b.glue_up(binding).progress, Progress::reserved);
  EXPECT_EQ(b.glue_up(binding).times.stage_begin, was.times.stage_begin);
}

TEST(WeatherTurns, TheDailyCourseGoesOnAfterItsPointHasPassed) {
  Shop shop = small_shop();
  shop.daily = {{7 * 60, {19}, {50}}, {18 * 60, {12}, {60}}};
  Bench b{at("2026-11-26T09:00:00Z"), shop};
  ASSERT_TRUE(b.press(ClimateReading{{19}, {45}}));
  const Instant nine = at("2026-11-26T21:00:00Z");
  const double before = weather_of(b.floor(), at("2026-11-26T17:59:00Z")).air(nine).value;
  const double after = weather_of(b.floor(), at("2026-11-26T18:01:00Z")).air(nine).value;
  EXPECT_DOUBLE_EQ(before, after);
  EXPECT_LT(after, 14);
  // And without any reading the course alone is known, today as tomorrow.
  Bench unread{at("2026-11-26T09:00:00Z"), shop};
  EXPECT_EQ(weather_of(unread.floor(), nine).air(at("2026-11-26T18:00:00Z")), Celsius{12});
}

TEST(WeatherTurns, UntilNowItIsAsLastReadWhateverIsForecast) {
  Bench b{kThursday};
  ASSERT_TRUE(b.press(SetForecast{{{kThursday + 12h, {5}, {50}}, {kThursday + 20h, {5}, {50}}}}));
  EXPECT_EQ(weather_of(b.floor(), kThursday).air(kThursday), Celsius{20});
  EXPECT_EQ(weather_of(b.floor(), kThursday).air(kThursday - 10h), Celsius{20});
  EXPECT_TRUE(b.press(Reserve{.recipe = kBridge, .builder = kAda, .after = kThursday}));
}

TEST(WeatherTurns, AnUndoComesBackIntoTodaysWeather) {
  Bench b{kThursday};
  const GlueUpId id = b.reserve(kBridge, kAda);
  b.wait(5min);
  ASSERT_TRUE(b.press(Start{id}));
  b.wait(3min);
  ASSERT_TRUE(b.press(ClampsOn{id, b.now()}));
  const Instant on = b.now();
  b.wait(1min);
  ASSERT_TRUE(b.press(ClampsOff{id, b.now(), Override::knowingly}));  // by mistake
  ASSERT_TRUE(b.press(ClimateReading{{12}, {50}}));
  ASSERT_TRUE(b.press(Undo{id}));
  EXPECT_GT(b.glue_up(id).demand.dwell, 100min);
  b.set(on + 61min);
  EXPECT_TRUE(refused<TooEarly>(b.press(ClampsOff{id, b.now()})));
}

TEST(WeatherTurns, AnUndoNeverPlansIntoTheCold) {
  Bench b{kThursday};
  const GlueUpId id = b.reserve(kBridge, kAda, kThursday + 2h);
  ASSERT_TRUE(b.press(Move{id, kThursday + 3h}));
  const Instant dawn = at("2026-11-27T07:00:00Z");
  ASSERT_TRUE(b.press(
      SetForecast{{{kThursday + 1h, {5}, {60}}, {dawn, {5}, {60}}, {dawn + 2h, {20}, {50}}}}));
  ASSERT_GT(b.glue_up(id).times.open_begin, dawn);
  ASSERT_TRUE(b.press(Undo{id}));
  EXPECT_GT(b.glue_up(id).times.open_begin, dawn);
}

TEST(WeatherTurns, ClampsThatAreOnBelowTheFloorStayOnUntilItIsWarmAgain) {
  Bench b{kThursday};
  const GlueUpId id = b.reserve(kBridge, kAda);
  b.wait(5min);
  ASSERT_TRUE(b.press(Start{id}));
  b.wait(3min);
  ASSERT_TRUE(b.press(ClampsOn{id, b.now()}));
  ASSERT_TRUE(b.press(ClimateReading{{2}, {50}}));
  EXPECT_EQ(b.glue_up(id).demand.dwell, kNeverSets);
  EXPECT_EQ(b.glue_up(id).weather->coldest, Celsius{2});
  b.wait(30min);
  ASSERT_TRUE(b.press(ClimateReading{{20}, {50}}));
  // It was below the floor for some of the half hour: an hour at 20 C comes on top.
  EXPECT_GT(b.glue_up(id).demand.dwell, 60min);
  EXPECT_LT(b.glue_up(id).demand.dwell, 3h);
  EXPECT_EQ(over_stock(b.floor()), "");
}

TEST(WeatherTurns, OtherSheetsFromTheFileCountAtOnce) {
  Bench b{kThursday};
  const GlueUpId id = b.reserve(kBridge, kAda, kThursday + 1h);
  Shop slower = small_shop();
  slower.sheets[0].dwell = {{{10}, 300min}, {{20}, 180min}};
  ASSERT_TRUE(b.press(LoadShop{slower}));
  EXPECT_EQ(b.glue_up(id).demand.dwell, 180min);
  EXPECT_EQ(b.glue_up(id).times.release_begin, b.glue_up(id).times.clamped_begin + 180min);
}

TEST(WeatherTurns, AFreshBottleDoesNotAnswerForAPotFromAStaleOne) {
  Shop shop = small_shop();
  shop.recipes[0].joint = {.length = {180},
                           .width = {30},
                           .a = {"", "sitka-spruce"},
                           .b = {"", "sugar-maple"},
                           .traits = {Trait::structural}};
  shop.sheets[0].shelf_days = 365;
  Bench b{kThursday, shop};
  ASSERT_TRUE(b.press(PutLot{{.sheet = kResin, .label = "new", .made = kThursday - 24h}}));
  ASSERT_TRUE(b.press(PutLot{{.sheet = kResin, .label = "old", .made = kThursday - 24h * 800}}));
  const GlueUpId id = b.reserve(kBridge, kAda);
  b.wait(5min);
  ASSERT_TRUE(b.press(MixPot{kResin, LotId{2}, kBench1}));
  const auto no_answer = b.press(Start{id, Override::no, PotId{1}});
  const auto* no = refused<NotPossible>(no_answer);
  ASSERT_TRUE(no);
  EXPECT_EQ(std::get<StaleLot>(no->why).lot, LotId{2});
  EXPECT_TRUE(b.press(Start{id}));
}

TEST(WeatherTurns, AReasonSpeaksOnlyForTheOpenTimeOfItsHour) {
  Shop shop = small_shop();
  shop.recipes[0].joint = {.length = {180},
                           .width = {30},
                           .a = {"", "sitka-spruce"},
                           .b = {"", "sugar-maple"},
                           .traits = {Trait::beside_neck}};
  Bench b{kThursday, shop};
  // Water beside a neck needs a reason; it says nothing of a glue that would skin first.
  EXPECT_TRUE(refused<NotPossible>(
      b.press(Reserve{.recipe = kBridge, .builder = kAda, .after = kThursday + 2h})));
  ASSERT_TRUE(b.press(
      Reserve{.recipe = kBridge, .builder = kAda, .after = kThursday + 1h, .reason = "tested"}));
  const GlueUpId id{b.floor().last_glue_up};
  const Instant was = b.glue_up(id).times.stage_begin;
  ASSERT_TRUE(b.press(SetForecast{{{kThursday + 30min, {34}, {25}},
                                   {kThursday + 3h, {34}, {25}},
                                   {kThursday + 4h, {20}, {50}}}}));
  EXPECT_GT(b.glue_up(id).times.stage_begin, was);
}

Shop with_hot_form() {
  Shop shop = small_shop();
  shop.gear[3].hot = shop.gear[4].hot = true;  // the decks of "bend" are hot forms here
  return shop;
}

TEST(HotForm, SolventThatIsAMinuteLateStandsAsidePlansButNotWhatRuns) {
  Bench b{kThursday, with_hot_form()};
  const GlueUpId binding = b.reserve(kBinding, kAda);
  const GlueUpId bend = b.reserve(kBend, kBen);
  EXPECT_GE(b.glue_up(bend).times.stage_begin,
            b.glue_up(binding).times.open_begin + b.glue_up(binding).demand.fumes);
  b.set(b.glue_up(binding).times.open_begin + 30s);  // its fumes now reach into the form's plan
  ASSERT_TRUE(b.press(Start{binding}));
  // The form in its turn waits while the cement is in the air, and it is still spread late.
  b.set(b.glue_up(bend).times.open_begin);
  const auto no_answer = b.press(Start{bend});
  const auto* no = refused<DoesNotFit>(no_answer);
  ASSERT_TRUE(no);
  EXPECT_EQ(std::get<BesideHeat>(no->why.front().fact).with, binding);
  EXPECT_TRUE(refused<DoesNotFit>(b.press(Start{bend, Override::knowingly})));
  ASSERT_TRUE(b.press(ClampsOn{binding, b.now()}));
  b.wait(kFlashOff + 1s);
  EXPECT_TRUE(b.press(Start{bend}));
}

TEST(Pots, OldMixesDoNotStandInTheWay) {
  Bench b{kThursday};
  for (std::size_t i = 0; i < kMaxPots; ++i) ASSERT_TRUE(b.press(MixPot{kResin, {}, kBench1}));
  EXPECT_TRUE(refused<TooMany>(b.press(MixPot{kResin, {}, kBench1})));
  b.wait(24h * 3);
  EXPECT_TRUE(b.press(MixPot{kResin, {}, kBench1}));
}

}  // namespace
}  // namespace squeezeout::testing
