// Presses of the craft's screens, through real ImGui, counted: what is one press is one.

#include <gtest/gtest.h>

#include "client/view/offer.h"
#include "tests/ui/craft_shop.h"
#include "tests/ui/hands.h"

namespace squeezeout::testing {
namespace {

using std::chrono::hours;
const Instant kTen = at("2026-11-26T10:00:00Z");

class CraftPresses : public ::testing::Test {
 protected:
  CraftPresses() : bench(kTen, craft_shop()), hands(stage) {}
  look::Frame show() { return stage.frame(bench.floor(), bench.now()); }
  look::Frame show(Screen screen) {
    stage.view.screen = screen;
    return show();
  }
  void want(RecipeId recipe, SheetId sheet = {}) {
    stage.view.wanted = {.recipe = recipe, .builder = kAda, .bench = kBench1, .sheet = sheet};
    stage.view.screen = Screen::reserve;
  }
  // One press, by key; what it means is done: on the floor, or in the view.
  void press(int key) {
    ++presses;
    const auto pressed = hands.key(show(), key);
    ASSERT_TRUE(pressed) << "key " << key;
    done(*pressed);
  }
  void click(const std::string& id) {
    ++presses;
    const auto pressed = hands.click(show(), id);
    ASSERT_TRUE(pressed) << id;
    done(*pressed);
  }
  void done(const look::Pressed& pressed) {
    if (const auto* ask = std::get_if<Ask>(&pressed.intent)) {
      ASSERT_TRUE(bench.press(ask->body)) << "what a screen offers can be had: " << pressed.id;
    }
    stage.view = after(stage.view, pressed.intent);
  }
  Stage stage;
  Bench bench;
  Hands hands;
  int presses = 0;
};

TEST_F(CraftPresses, AGlueThatDoesNotSuitIsOnePressMoreForItsReason) {
  want(kFretboard, kResin);
  const look::Frame frame = show();
  EXPECT_EQ(find(frame, "reserve"), nullptr) << "not without a reason";
  EXPECT_TRUE(says(frame, "RESERVE ANYWAY, because"));
  for (std::size_t i = 0; i < kReasons.size(); ++i)
    EXPECT_NE(find(frame, "reserve.because." + std::to_string(i)), nullptr);
  press('Y');
  EXPECT_EQ(presses, 1);
  const GlueUp& g = bench.glue_up(GlueUpId{1});
  EXPECT_EQ(g.reason, "Dry run went well") << "on record";
  EXPECT_EQ(g.sheet, kResin);
  stage.view.glue_up = g.id;
  EXPECT_TRUE(says(show(Screen::card), "although it does not suit: dry run went well"));
}

// Not a usual recipe, another glue, later, for somebody else: six presses.
TEST_F(CraftPresses, ANewKindOfGlueUpIsSixPressesAtMost) {
  stage.view.screen = Screen::bench;
  press('R');
  const look::Frame all = show();
  std::string tile;
  for (const look::Press& p : all.presses)
    if (const auto* pick = std::get_if<Pick>(&p.intent);
        pick != nullptr && pick->wanted.recipe == kLining && !pick->wanted.build)
      tile = p.id;
  ASSERT_FALSE(tile.empty());
  click(tile);
  const SheetId usual = bench.floor().recipe(kLining)->glues.front();
  press('B');
  ASSERT_NE(stage.view.wanted.sheet, usual);
  const SheetId sheet = stage.view.wanted.sheet;
  press('L');
  press('S');
  press(find(show(), "reserve") != nullptr ? static_cast<int>(' ') : static_cast<int>('X'));
  EXPECT_EQ(presses, 6);
  const GlueUp& g = bench.glue_up(GlueUpId{1});
  EXPECT_EQ(g.recipe, kLining);
  EXPECT_EQ(g.sheet, sheet);
  EXPECT_NE(g.builder, kAda);
  EXPECT_GE(g.times.stage_begin, kTen + Minutes{30});
}

TEST_F(CraftPresses, LaterIsTakenBackToTheEarliestInOnePress) {
  want(kBridge);
  press('L');
  press('L');
  ASSERT_GT(stage.view.wanted.after, kTen);
  press('0');
  EXPECT_EQ(stage.view.wanted.after, Instant{});
  EXPECT_EQ(find(show(), "earliest"), nullptr);
}

TEST_F(CraftPresses, AGlueIsOneLetter) {
  want(kFretboard);
  press('B');
  EXPECT_EQ(stage.view.screen, Screen::reserve);
  EXPECT_TRUE(stage.view.wanted.sheet) << "the second of the ranking";
  EXPECT_NE(stage.view.wanted.sheet, kEpoxy);
}

TEST_F(CraftPresses, WhyIsOnePressAndEscGoesBackToWhereItWasAsked) {
  want(kBridge);
  press('W');
  EXPECT_EQ(stage.view.screen, Screen::figures);
  EXPECT_EQ(presses, 1);
  press(look::kEscape);
  EXPECT_EQ(stage.view.screen, Screen::reserve);

  stage.view.glue_up = bench.reserve(kBridge, kAda);
  stage.view.screen = Screen::card;
  press('W');
  EXPECT_EQ(stage.view.screen, Screen::figures);
  EXPECT_TRUE(says(show(), "Why these figures"));
  click("close");
  EXPECT_EQ(stage.view.screen, Screen::card);
  press(look::kEscape);
  EXPECT_EQ(stage.view.screen, Screen::bench);
}

TEST_F(CraftPresses, APotIsOnePressAndSoIsStartingFromIt) {
  stage.view.glue_up = bench.reserve(kFretboard, kAda);
  bench.set(bench.glue_up(stage.view.glue_up).times.open_begin);
  stage.view.screen = Screen::card;
  press('P');
  ASSERT_EQ(bench.floor().pots.size(), 1U);
  press('P');
  EXPECT_EQ(presses, 2);
  const GlueUp& g = bench.glue_up(stage.view.glue_up);
  EXPECT_EQ(g.progress, Progress::open);
  EXPECT_EQ(g.pot, PotId{1});
}

TEST_F(CraftPresses, APotThatWouldSetFirstIsNotOffered) {
  const GlueUpId id = stage.view.glue_up = bench.reserve(kFretboard, kAda);
  ASSERT_TRUE(bench.press(MixPot{.sheet = kEpoxy, .bench = kBench1}));
  bench.set(bench.floor().pots.at(PotId{1}).until - Minutes{2});  // assembly takes four
  ASSERT_EQ(bench.glue_up(id).progress, Progress::reserved);
  const look::Frame frame = show(Screen::card);
  EXPECT_EQ(find(frame, "pot.start"), nullptr);
  EXPECT_NE(find(frame, "pot.mix"), nullptr);
}

TEST_F(CraftPresses, AReadingNeedsNoKeyboard) {
  ASSERT_TRUE(bench.press(ClimateReading{{20}, {50}}));
  stage.view.screen = Screen::air;
  click("air.celsius.less");
  click("air.celsius.less");
  click("air.humidity.more");
  EXPECT_TRUE(says(show(), "18 °C"));
  press('E');
  EXPECT_EQ(presses, 4);
  EXPECT_EQ(bench.floor().climate.air.value, 18);
  EXPECT_EQ(bench.floor().climate.humidity.value, 55);
}

TEST_F(CraftPresses, AColdNightIsOnePressFromItsScreen) {
  stage.view.screen = Screen::air;
  press('C');
  EXPECT_EQ(presses, 1);
  ASSERT_FALSE(bench.floor().forecast.empty());
  EXPECT_TRUE(says(show(), "Coldest in the next 24 h: 12 °C"));
  press('F');
  EXPECT_TRUE(bench.floor().forecast.empty());
}

TEST_F(CraftPresses, TheHoursOfANightGoRound) {
  stage.view.screen = Screen::air;
  stage.view.air = AirDraft{.from = 23, .to = 0};
  click("night.from.more");
  EXPECT_EQ(stage.view.air->from, 0);
  click("night.to.less");
  EXPECT_EQ(stage.view.air->to, 23);
}

TEST_F(CraftPresses, TheCelsiusStopWhereTheFloorWould) {
  stage.view.air = AirDraft{.celsius = 60, .humidity = 100, .low = -40};
  const look::Frame frame = show(Screen::air);
  EXPECT_EQ(find(frame, "air.celsius.more"), nullptr);
  EXPECT_EQ(find(frame, "air.humidity.more"), nullptr);
  EXPECT_EQ(find(frame, "night.low.less"), nullptr);
  EXPECT_NE(find(frame, "air.celsius.less"), nullptr);
}

TEST_F(CraftPresses, ABottleIsPutOpenedAndUsedUp) {
  stage.view.screen = Screen::air;
  press('G');
  press('G');
  press('B');
  ASSERT_EQ(bench.floor().lots.size(), 1U);
  EXPECT_EQ(bench.floor().lots.at(LotId{1}).sheet, kEpoxy) << "the third glue";
  EXPECT_EQ(bench.floor().lots.at(LotId{1}).opened, kTen);
  EXPECT_EQ(find(show(), "lot.1.opened"), nullptr) << "it is open";
  ASSERT_TRUE(bench.press(PutLot{{.sheet = kResin, .made = kTen - hours{48}}}));
  click("lot.2.opened");
  EXPECT_EQ(bench.floor().lots.at(LotId{2}).opened, kTen);
  click("lot.2.used");
  EXPECT_TRUE(bench.floor().lots.at(LotId{2}).used_up);
  EXPECT_EQ(find(show(), "lot.2.used"), nullptr);
}

TEST_F(CraftPresses, AMovedGlueUpCanTakeAnotherTime) {
  const GlueUpId id = bench.reserve(kBridge, kAda, kTen + hours{4});
  const Percent rh{50};
  ASSERT_TRUE(bench.press(SetForecast{{{kTen + hours{2}, {20}, rh},
                                       {kTen + hours{3}, {8}, rh},
                                       {kTen + hours{5}, {8}, rh},
                                       {kTen + hours{6}, {20}, rh}}}));
  ASSERT_TRUE(bench.glue_up(id).weather && bench.glue_up(id).weather->moved_from);
  stage.view.screen = Screen::snags;
  click("take." + std::to_string(id.value) + ".0");
  EXPECT_EQ(presses, 1);
  EXPECT_FALSE(bench.glue_up(id).weather) << "a press takes the note away";
  EXPECT_TRUE(says(show(), "No snags"));
}

}  // namespace
}  // namespace squeezeout::testing
