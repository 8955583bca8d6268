// The board under the hand: wheel and keys zoom about what they stand on, picked bars come into sight, one build or one lane alone.

#include <gtest/gtest.h>

#include <set>

#include "tests/ui/hands.h"

namespace squeezeout::testing {
namespace {

using std::chrono::hours;

const Instant kTen = at("2026-11-26T10:00:00Z");

template <class T>
const T* meant(const std::optional<look::Pressed>& pressed) {
  return pressed ? std::get_if<T>(&pressed->intent) : nullptr;
}

class BoardKeys : public ::testing::Test {
 protected:
  BoardKeys() : bench(kTen), hands(stage) { stage.view = ada_at_bench_1(Screen::board); }
  look::Frame frame() { return stage.frame(bench.floor(), bench.now()); }
  void press(int key) {
    const auto pressed = hands.key(frame(), key);
    ASSERT_TRUE(pressed) << "nothing is pressed by " << static_cast<char>(key);
    stage.view = after(stage.view, pressed->intent);
  }
  // Where it is drawn; none: nowhere.
  std::optional<look::Rect> bar(GlueUpId id) {
    const look::Frame f = frame();
    for (const look::Press& p : f.presses)
      if (p.id.starts_with("bar.") && p.id.ends_with("." + std::to_string(id.value))) return p.at;
    return std::nullopt;
  }
  float left() const { return stage.scale.px(58); }
  Instant instant(float x) { return look::instant_at(*frame().time, x); }
  Stage stage;
  Bench bench;
  Hands hands;
};

TEST_F(BoardKeys, TheWheelZoomsAboutThePointer) {
  bench.reserve(kBridge, kAda);
  for (const float steps : {1.0F, 1.0F, -1.0F, -1.0F, -1.0F, -1.0F}) {
    const look::Point pointer{1'400, 500};
    const Instant stood = instant(pointer.x);
    const auto pressed = hands.wheel(frame(), pointer, steps);
    ASSERT_NE(meant<Zoom>(pressed), nullptr);
    const int before = stage.view.zoom;
    stage.view = after(stage.view, pressed->intent);
    EXPECT_EQ(stage.view.zoom, before - static_cast<int>(steps));
    const auto wide = kZooms[stage.view.zoom].open_time / 500;  // some pixels
    EXPECT_LE(std::chrono::abs(instant(pointer.x) - stood), wide + Minutes{1});
  }
}

TEST_F(BoardKeys, ASmoothWheelNeedsAWholeStep) {
  EXPECT_FALSE(hands.wheel(frame(), {1'400, 500}, 0.4F));
  EXPECT_FALSE(hands.wheel(frame(), {1'400, 500}, 0.4F));
  EXPECT_NE(meant<Zoom>(hands.wheel(frame(), {1'400, 500}, 0.4F)), nullptr);
  EXPECT_FALSE(hands.wheel(frame(), {100, 500}, 1)) << "the lanes' names are not time";
}

TEST_F(BoardKeys, KeysZoomAboutNowWhileItIsInSight) {
  press('.');
  ASSERT_TRUE(stage.view.outlook.at);
  press(',');
  press(',');
  const auto now_at = [&] {
    for (float x = left(); x < stage.width; x += 1)
      if (instant(x) >= bench.now()) return x;
    return 0.0F;
  };
  const float before = now_at();
  ASSERT_GT(before, left());
  press('+');
  EXPECT_NEAR(now_at(), before, 4);
  press('0');
  EXPECT_FALSE(stage.view.outlook.at) << "and goes on with the clock";
}

TEST_F(BoardKeys, PansToHistoryAtTheLeft) {
  const GlueUpId id = bench.reserve(kBend, kCyd);
  bench.set(bench.glue_up(id).times.open_begin);
  ASSERT_TRUE(bench.press(Start{id}));
  bench.wait(Minutes{4});
  ASSERT_TRUE(bench.press(ClampsOn{id, bench.now()}));
  bench.set(off_from(bench.glue_up(id)));
  ASSERT_TRUE(bench.press(ClampsOff{id, bench.now()}));
  bench.wait(hours{24});
  bench.tick();
  stage.view.zoom = 0;
  ASSERT_FALSE(bar(id)) << "it is past the left edge";
  const Instant before = instant(left());
  press(',');
  EXPECT_LT(instant(left()), before);
  press(look::kLeft);
  EXPECT_LT(instant(left()), before - Minutes{20});
  for (int pans = 0; pans < 60 && !bar(id); ++pans) press(look::kLeft);
  ASSERT_TRUE(bar(id)) << "what is past stays on record";
  EXPECT_GE(bar(id)->x, left() - 1);
}

TEST_F(BoardKeys, StepsGoToBarsThatAreOutOfSight) {
  const GlueUpId near = bench.reserve(kBridge, kAda);
  const GlueUpId far = bench.reserve(kBend, kCyd, kTen + hours{24 * 5});
  stage.view.picked = near;
  ASSERT_TRUE(bar(near));
  ASSERT_FALSE(bar(far));
  press('K');
  EXPECT_EQ(stage.view.picked, far);
  EXPECT_TRUE(bar(far)) << "the board has gone there";
  EXPECT_TRUE(says(frame(), "bend · Cyd"));
  press('J');
  EXPECT_EQ(stage.view.picked, near);
  EXPECT_TRUE(bar(near));
}

TEST_F(BoardKeys, WhatIsLastIsGoneTo) {
  const GlueUpId first = bench.reserve(kBridge, kAda);
  const GlueUpId last = bench.reserve(kBinding, kBen, kTen + hours{24 * 4});
  stage.view.picked = first;
  EXPECT_EQ(find(frame(), "pick.last"), nullptr) << "it is a key of the chain";
  press('C');
  press('L');
  EXPECT_EQ(stage.view.picked, last);
  EXPECT_TRUE(bar(last));
  stage.view = after(View{}, Go{Screen::board, last});
  EXPECT_TRUE(bar(last)) << "from another screen too";
}

TEST_F(BoardKeys, OneBuildAlone) {
  const GlueUpId own = bench.reserve(kBridge, kAda, {}, kBuild14, 0);
  const GlueUpId other = bench.reserve(kBend, kCyd);
  ASSERT_TRUE(bar(other));
  press('F');
  EXPECT_EQ(stage.view.only, kBuild14);
  EXPECT_TRUE(bar(own));
  EXPECT_FALSE(bar(other));
  EXPECT_TRUE(says(frame(), "Only No. 14: 1 of 2 glue-ups.")) << all_texts(frame());
  EXPECT_FALSE(says(frame(), "Free all this time")) << "others may hold it";
  press('A');
  EXPECT_TRUE(bar(other));
}

TEST_F(BoardKeys, OneBuildAloneDoesNotSayThatOthersRest) {
  bench.reserve(kBridge, kAda, kTen + hours{2}, kBuild14, 0);
  const GlueUpId other = bench.reserve(kBend, kCyd);
  bench.set(bench.glue_up(other).times.open_begin);
  ASSERT_TRUE(bench.press(Start{other}));
  stage.view.only = kBuild14;
  for (const Lanes lanes : {Lanes::bench, Lanes::builder}) {
    stage.view.lanes = lanes;
    ASSERT_FALSE(bar(other));
    EXPECT_TRUE(says(frame(), "1 running")) << all_texts(frame());
  }
}

// 30 bars of one kind at once: four rows and "+26"; a press shows the lane with all its rows, page by page.
TEST_F(BoardKeys, WhatHasNoRowIsAPressAway) {
  Shop shop = small_shop();
  shop.gear[1].stock = 200;
  for (unsigned i = 4; i <= 33; ++i)
    shop.builders.push_back({BuilderId{i}, "b" + std::to_string(i), "Builder", kBench2, {}});
  bench = Bench(kTen, shop);
  for (unsigned i = 4; i <= 33; ++i) bench.reserve(kBinding, BuilderId{i}, kTen + hours{1});
  const auto bars = [&] {
    std::set<std::string> out;
    const look::Frame f = frame();
    for (const look::Press& p : f.presses)
      if (p.id.starts_with("bar.short.")) out.insert(p.id);
    return out;
  };
  EXPECT_EQ(bars().size(), 4U);
  const auto pressed = hands.click(frame(), "rows.short");
  ASSERT_NE(meant<OnlyLane>(pressed), nullptr);
  press('X');
  EXPECT_EQ(stage.view.lane, "short");
  std::set<std::string> seen = bars();
  for (int page = 0; page < 9 && find(frame(), "page.next") != nullptr; ++page) {
    press('N');
    seen.merge(bars());
  }
  EXPECT_EQ(seen.size(), 30U);
  press('A');
  EXPECT_EQ(bars().size(), 4U);
}

// Large letters: what stands on every page leaves a lane less room than it wants. Each of its bars is drawn whole or counted.
TEST_F(BoardKeys, WhereRoomIsShortEachBarIsDrawnOrCounted) {
  Shop shop = small_shop();
  shop.gear[1].stock = 200;
  for (unsigned i = 4; i <= 33; ++i)
    shop.builders.push_back({BuilderId{i}, "b" + std::to_string(i), "Builder", kBench2, {}});
  bench = Bench(kTen, shop);
  GlueUpId picked;
  for (unsigned i = 4; i <= 33; ++i)
    picked = bench.reserve(kBinding, BuilderId{i}, kTen + hours{1});
  Stage large(1920, 1080, look::kUsualMmPerPx, 2);
  large.view = stage.view, large.view.picked = picked;
  const look::Frame f = large.frame(bench.floor(), bench.now());
  int drawn = 0, counted = 0;
  for (const look::Press& p : f.presses) {
    if (p.id.starts_with("bar.short.")) ++drawn;
    if (p.id != "rows.short") continue;
    for (const look::Words& w : texts(f))
      if (w.text.starts_with("+") && p.at.contains(w.at)) counted = std::stoi(w.text.substr(1));
  }
  EXPECT_GE(drawn, 1);
  EXPECT_EQ(drawn + counted, 30) << drawn << " drawn";
  EXPECT_NE(find(f, "bar.short." + std::to_string(picked.value)), nullptr);
}

TEST_F(BoardKeys, ThePickedBarIsFoundOnItsPage) {
  for (unsigned i = 6; i <= 29; ++i) {
    Shop shop = *bench.floor().shop;
    shop.gear.push_back({.id = GearKindId{i},
                         .key = "x" + std::to_string(i),
                         .name = "Extra " + std::to_string(i),
                         .gear_class = GearClass::mould,
                         .stock = 1});
    shop.gear.back().style = "x" + std::to_string(i);
    Recipe r = shop.recipes[3];
    r.id = RecipeId{i}, r.key = r.name = "r" + std::to_string(i);
    r.needs = {{.gear_class = GearClass::mould, .count = 1}};
    r.needs[0].style = "x" + std::to_string(i);
    shop.recipes.push_back(r);
    ASSERT_TRUE(bench.press(LoadShop{shop}));
  }
  GlueUpId first, last;
  for (const Recipe& r : bench.floor().shop->recipes) {
    if (r.id <= kBend) continue;
    last = bench.reserve(r.id, kCyd);
    if (!first) first = last;
  }
  ASSERT_NE(find(frame(), "page.next"), nullptr);
  ASSERT_FALSE(bar(last)) << "on another page";
  stage.view.picked = first;
  std::set<GlueUpId> seen{first};
  while (find(frame(), "pick.later") != nullptr && seen.size() < 99) {
    press('K');
    EXPECT_TRUE(bar(stage.view.picked));
    ASSERT_TRUE(seen.insert(stage.view.picked).second);
  }
  EXPECT_EQ(seen.size(), 24U);
}

TEST_F(BoardKeys, AnEmptyShopSaysWhatCanBeDone) {
  EXPECT_TRUE(says(frame(), "Nothing curing. Gear all free.")) << all_texts(frame());
  const auto pressed = hands.click(frame(), "board.reserve");
  ASSERT_NE(meant<Go>(pressed), nullptr);
  EXPECT_EQ(meant<Go>(pressed)->screen, Screen::bench);
  stage.link = Link::not_live, stage.silent = Minutes{5};
  EXPECT_FALSE(says(frame(), "Gear all free")) << "that is not known";
}

TEST_F(BoardKeys, GearThatIsOutOfUseIsNotSaidToBeFree) {
  ASSERT_TRUE(bench.press(GearBroken{kShort, 2}));
  stage.view.lanes = Lanes::bench;
  EXPECT_FALSE(says(frame(), "Gear all free")) << all_texts(frame());
  EXPECT_TRUE(says(frame(), "Nothing curing or planned."));
}

TEST_F(BoardKeys, AShopWithoutHoursSaysSo) {
  Shop shop = small_shop();
  shop.hours = {};
  bench = Bench(kTen, shop);
  EXPECT_TRUE(says(frame(), "No opening hours")) << all_texts(frame());
}

}  // namespace
}  // namespace squeezeout::testing
