// What the screens say, as frames: no ImGui, no window.

#include <gtest/gtest.h>

#include "client/look/dump.h"
#include "client/wall/wall_model.h"
#include "tests/support/screens/stage.h"

namespace squeezeout::testing {
namespace {

using std::chrono::hours;
const Instant kTen = at("2026-11-26T10:00:00Z");

class Frames : public ::testing::Test {
 protected:
  Frames() : bench(kTen) {}
  look::Frame show(Screen screen) {
    stage.view.screen = screen;
    return stage.frame(bench.floor(), bench.now());
  }
  look::Frame card(GlueUpId id) {
    stage.view.glue_up = id;
    return show(Screen::card);
  }
  GlueUpId started(RecipeId recipe, BuilderId builder) {
    const GlueUpId id = bench.reserve(recipe, builder);
    bench.set(bench.glue_up(id).times.open_begin);
    EXPECT_TRUE(bench.press(Start{id}));
    return id;
  }
  GlueUpId clamped(RecipeId recipe, BuilderId builder) {
    const GlueUpId id = started(recipe, builder);
    bench.wait(Minutes{4});
    EXPECT_TRUE(bench.press(ClampsOn{id, bench.now()}));
    return id;
  }
  Stage stage;
  Bench bench;
};

TEST_F(Frames, TheCardOfAWetJointCountsTheOpenTimeDown) {
  const GlueUpId id = started(kBridge, kAda);  // open 5 min
  bench.wait(Minutes{3} + Seconds{13});
  const look::Frame f = card(id);
  EXPECT_TRUE(says(f, "open time left"));
  EXPECT_TRUE(says(f, "47")) << all_texts(f);  // 1 m 47 s, in pieces
  EXPECT_TRUE(says(f, "clamps on by"));
  EXPECT_TRUE(says(f, "10:10"));
  EXPECT_TRUE(says(f, "CLAMPS ON"));
}

TEST_F(Frames, TheCardPastTheOpenTimeSaysSo) {
  const GlueUpId id = started(kBridge, kAda);
  bench.wait(Minutes{8});
  bench.tick();
  const look::Frame f = card(id);
  EXPECT_TRUE(says(f, "past the open time")) << all_texts(f);
}

TEST_F(Frames, TheCardOfAClampedJointSaysTheClockFirst) {
  const GlueUpId id = clamped(kBridge, kAda);  // 10:09, off 11:09
  bench.wait(Minutes{32});
  const look::Frame f = card(id);
  EXPECT_TRUE(says(f, "11:09")) << all_texts(f);
  EXPECT_TRUE(says(f, "28 min"));
  EXPECT_TRUE(says(f, "can come 11:09"));
  EXPECT_TRUE(says(f, "Off anyway"));
}

TEST_F(Frames, TheCardOverTimeOffersWhenItReallyCameOff) {
  const GlueUpId id = clamped(kBridge, kAda);
  bench.set(bench.glue_up(id).times.release_end + Minutes{20});
  bench.tick();
  const look::Frame f = card(id);
  EXPECT_TRUE(says(f, "over by"));
  EXPECT_NE(find(f, "off.5"), nullptr);
  EXPECT_NE(find(f, "off.15"), nullptr);
  EXPECT_TRUE(says(f, "15 min ago"));
}

TEST_F(Frames, AFinishHasTheRecipesOwnWord) {
  const GlueUpId id = clamped(kBridge, kAda);
  bench.set(off_from(bench.glue_up(id)));
  ASSERT_TRUE(bench.press(ClampsOff{id, bench.now()}));
  EXPECT_TRUE(says(card(id), "wait till"));
  bench.set(bench.glue_up(id).times.ready_at);
  EXPECT_TRUE(says(card(id), "STRING UP DONE"));
}

TEST_F(Frames, TheBenchPutsWhatIsUrgentFirst) {
  const GlueUpId later = bench.reserve(kBinding, kAda, kTen + hours{4});
  const GlueUpId now = started(kBridge, kAda);
  const look::Frame f = show(Screen::bench);
  const look::Press* first = find(f, "mine." + std::to_string(now.value));
  const look::Press* second = find(f, "mine." + std::to_string(later.value));
  ASSERT_NE(first, nullptr);
  ASSERT_NE(second, nullptr);
  EXPECT_LT(first->at.y, second->at.y);
}

TEST_F(Frames, TheBenchShowsOthersWithoutAKeyForThem) {
  const GlueUpId id = clamped(kBinding, kBen);
  const look::Frame f = show(Screen::bench);
  EXPECT_TRUE(says(f, "B. · binding")) << all_texts(f);
  EXPECT_EQ(find(f, "mine." + std::to_string(id.value)), nullptr);
  EXPECT_EQ(find(f, "next"), nullptr);
}

TEST_F(Frames, AnEmptyBenchSaysThatAllIsFreeAndReservesByTheBigKey) {
  const look::Frame f = show(Screen::bench);
  EXPECT_TRUE(says(f, "Nothing curing. Gear all free.")) << all_texts(f);
  const look::Press* key = find(f, "reserve.first");
  ASSERT_NE(key, nullptr);
  EXPECT_NE(std::get_if<Pick>(&key->intent), nullptr);
  EXPECT_EQ(key->keys.front(), ' ');
}

TEST_F(Frames, AnEmptyBenchBesideOthersDoesNotSayThatAllIsFree) {
  clamped(kBinding, kBen);
  const look::Frame f = show(Screen::bench);
  EXPECT_FALSE(says(f, "Gear all free")) << all_texts(f);
  EXPECT_TRUE(says(f, "Nothing of yours"));
}

TEST_F(Frames, AShopWithoutRecipesIsSentToItsSetUp) {
  Shop bare = small_shop();
  bare.recipes.clear(), bare.builds.clear();
  Bench empty(kTen, bare);
  stage.view.screen = Screen::bench;
  const look::Frame f = stage.frame(empty.floor(), empty.now());
  const look::Press* key = find(f, "set-up");
  ASSERT_NE(key, nullptr) << all_texts(f);
  EXPECT_EQ(std::get<Go>(key->intent).screen, Screen::setup);
}

TEST_F(Frames, ATileSaysWhenItCouldBe) {
  EXPECT_TRUE(says(show(Screen::bench), "now · off about 11:09")) << all_texts(show(Screen::bench));
  clamped(kBridge, kBen);  // the only caul, till 11:14
  EXPECT_TRUE(says(show(Screen::bench), "11:14 · off about 12:23"))
      << all_texts(show(Screen::bench));
}

TEST_F(Frames, ReserveSaysWhoHoldsTheGear) {
  clamped(kBridge, kBen);
  stage.view.wanted = {.recipe = kBridge, .builder = kAda, .bench = kBench1};
  const look::Frame f = show(Screen::reserve);
  EXPECT_TRUE(says(f, "EARLIEST"));
  EXPECT_TRUE(says(f, "11:14"));
  EXPECT_TRUE(says(f, "Not before 11:14: Ben has")) << all_texts(f);
  EXPECT_TRUE(says(f, "off about 12:23"));
}

TEST_F(Frames, ReserveThatIsNotPossibleHasNoKey) {
  ASSERT_TRUE(bench.press(ClimateReading{{4}, {50}}));
  stage.view.wanted = {.recipe = kBridge, .builder = kAda, .bench = kBench1};
  const look::Frame f = show(Screen::reserve);
  EXPECT_EQ(find(f, "reserve"), nullptr);
  EXPECT_TRUE(says(f, "Not possible now")) << all_texts(f);
}

TEST_F(Frames, TheWallSortsByWhenGearFreesOverTimeFirst) {
  const GlueUpId over = clamped(kBend, kCyd);  // off 11:39
  bench.set(bench.glue_up(over).times.release_end + Minutes{7});
  bench.tick();
  const GlueUpId long_one = clamped(kBinding, kAda);  // two hours
  const GlueUpId short_one = clamped(kBridge, kBen);  // one hour
  stage.view.screen = Screen::wall;
  const Scene scene{.floor = bench.floor(),
                    .now = bench.now(),
                    .view = stage.view,
                    .scale = stage.scale,
                    .letters = stage.letters,
                    .quotes = stage.quotes};
  const auto order = wall::wall_order(scene);
  ASSERT_EQ(order.size(), 3U);
  EXPECT_EQ(order[0]->id, over);
  EXPECT_EQ(order[1]->id, short_one);
  EXPECT_EQ(order[2]->id, long_one);

  const look::Frame f = show(Screen::wall);
  EXPECT_TRUE(says(f, " over")) << all_texts(f);
  EXPECT_TRUE(says(f, "FREE NOW"));
  EXPECT_TRUE(says(f, "deck B")) << all_texts(f);
}

TEST_F(Frames, TheWallHoldsSevenRowsAndCountsTheRest) {
  Shop shop = small_shop();
  shop.gear[1].stock = 100;
  for (unsigned i = 4; i <= 12; ++i)
    shop.builders.push_back({BuilderId{i}, "b" + std::to_string(i), "Builder", kBench2, {}});
  Bench many(kTen, shop);
  std::vector<GlueUpId> ids;
  for (unsigned i = 4; i <= 12; ++i) ids.push_back(many.reserve(kBinding, BuilderId{i}));
  many.set(many.glue_up(ids.front()).times.open_begin);
  for (const GlueUpId id : ids) ASSERT_TRUE(many.press(Start{id}));
  stage.view.screen = Screen::wall;
  const look::Frame f = stage.frame(many.floor(), many.now());
  int rows = 0;
  for (const look::Words& w : texts(f)) rows += w.text == "glue wet" ? 1 : 0;
  EXPECT_EQ(rows, 7);
  EXPECT_TRUE(says(f, "+2 later")) << all_texts(f);
}

TEST_F(Frames, TheWallsSecondsRun) {
  stage.view.screen = Screen::wall;
  const look::Frame a = stage.frame(bench.floor(), kTen),
                    b = stage.frame(bench.floor(), kTen + Seconds{1});
  EXPECT_FALSE(look::same_picture(a, b));
}

TEST_F(Frames, TheBoardIsDrawnAnewOnlyWhenSomethingMoved) {
  stage.view.screen = Screen::board;
  const look::Frame a = stage.frame(bench.floor(), kTen);
  int drawn = 0;
  for (int second = 1; second <= 59; ++second)
    if (!look::same_picture(a, stage.frame(bench.floor(), kTen + Seconds{second}))) {
      drawn = second;
      break;
    }
  EXPECT_GE(drawn, 5) << "a pixel is 16 s wide at 8 h";
  EXPECT_LE(drawn, 20) << "and the now line does move";
}

TEST_F(Frames, TheDaySheetTellsPlanAndFact) {
  const GlueUpId id = clamped(kBridge, kAda);
  bench.set(off_from(bench.glue_up(id)) + Minutes{5});
  ASSERT_TRUE(bench.press(ClampsOff{id, bench.now()}));
  bench.wait(Minutes{1});
  const look::Frame f = show(Screen::day);
  EXPECT_TRUE(says(f, "Day sheet · Thu 26 Nov")) << all_texts(f);
  EXPECT_TRUE(says(f, "1 started"));
  EXPECT_TRUE(says(f, "1 h → 1 h 05")) << all_texts(f);
  EXPECT_TRUE(says(f, "Deep clamp"));
}

TEST_F(Frames, GearSaysFreeHeldAndBroken) {
  clamped(kBridge, kAda);  // 3 of 6 deep clamps
  ASSERT_TRUE(bench.press(GearBroken{kDeep, 1, "pad"}));
  stage.view.kind = kDeep;
  const look::Frame f = show(Screen::gear);
  EXPECT_TRUE(says(f, "2 free · 3 held · 1 out of use")) << all_texts(f);
  EXPECT_TRUE(says(f, "Ada has 3 till")) << all_texts(f);
}

// "When is the caul free?" is one press at a bench: Gear.
TEST_F(Frames, GearThatIsAllHeldSaysWhenItIsFree) {
  clamped(kBridge, kBen);
  const look::Frame f = show(Screen::gear);
  EXPECT_TRUE(says(f, "free 11:14")) << all_texts(f);
}

TEST_F(Frames, NotLiveTheCardOfSomebodyElseHasNoCountdown) {
  const GlueUpId bens = started(kBinding, kBen);
  bench.wait(Minutes{1});
  EXPECT_TRUE(says(card(bens), "open time left"));
  stage.link = Link::not_live;
  const look::Frame f = card(bens);
  EXPECT_FALSE(says(f, "open time left")) << all_texts(f);
  EXPECT_TRUE(says(f, "clamps on by"));
  EXPECT_TRUE(says(f, "planned"));
}

TEST_F(Frames, WithoutAFloorTheScreenSaysWhatItWaitsFor) {
  const look::Frame f = stage.frame(Floor{}, kTen);
  EXPECT_TRUE(says(f, "Waiting for the server"));
}

TEST_F(Frames, TheDumpNamesWidgetsSizesAndColours) {
  const std::string json = look::dump_json({Screen::bench, 7, 1000}, show(Screen::bench),
                                           look::Palette{look::Theme::dark}, stage.scale);
  EXPECT_NE(json.find(R"("screen":"bench","revision":7)"), std::string::npos);
  EXPECT_NE(
      json.find(R"("id":"tile.0","label":"No. 14 · bridge","kind":"button","clickable":true)"),
      std::string::npos)
      << json;
  EXPECT_NE(json.find(R"("keys":"1 Esc")"), std::string::npos);
  look::Frame arrows;
  arrows.presses.push_back({"a", "a", {}, {look::kUp, look::kBackspace}, Back{}});
  EXPECT_NE(look::dump_json({Screen::bench, 7, 1000}, arrows, look::Palette{look::Theme::dark},
                            stage.scale)
                .find(R"("keys":"Up Backspace")"),
            std::string::npos);
  EXPECT_NE(json.find(R"("fg":"#eceff2")"), std::string::npos);
}

}  // namespace
}  // namespace squeezeout::testing
