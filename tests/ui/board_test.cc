// The board: lanes, phases in four channels, labels, detail by width, "+N".

#include <gtest/gtest.h>

#include <cmath>

#include "client/board/lane_model.h"
#include "client/board/row_model.h"
#include "tests/support/screens/stage.h"

namespace squeezeout::testing {
namespace {

using board::Lane;
using board::Segment;
using look::Box;
using look::Role;
using std::chrono::hours;
using State = board::Segment::State;

const Instant kTen = at("2026-11-26T10:00:00Z");

std::string phases(const GlueUp& g, Instant now, Lane::Shows shows) {
  std::string out;
  for (const Segment& s : board::segments_of(g, now, shows)) {
    out += std::string(out.empty() ? "" : " ") + std::string(to_string(s.phase));
    out += s.state == State::planned ? "?" : s.state == State::over ? "!" : "";
  }
  return out;
}

TEST(Segments, FollowTheFacts) {
  Bench b(kTen);
  const GlueUpId id = b.reserve(kBinding, kAda);
  const auto held = [&] { return phases(b.glue_up(id), b.now(), Lane::Shows::held); };
  const auto waits = [&] { return phases(b.glue_up(id), b.now(), Lane::Shows::waiting); };
  EXPECT_EQ(held(), "stage?");
  b.set(b.glue_up(id).times.open_begin);
  ASSERT_TRUE(b.press(Start{id}));
  b.wait(Minutes{1});
  EXPECT_EQ(held(), "stage open clamped?");
  b.wait(Minutes{3});
  ASSERT_TRUE(b.press(ClampsOn{id, b.now()}));
  EXPECT_EQ(held(), "stage open clamped");
  EXPECT_EQ(waits(), "waiting?");
  b.set(b.glue_up(id).times.release_end + Minutes{6});
  b.tick();
  EXPECT_EQ(held(), "stage open clamped release!");
  ASSERT_TRUE(b.press(ClampsOff{id, b.now()}));
  EXPECT_EQ(waits(), "waiting");
  b.set(b.glue_up(id).times.ready_at + Minutes{30});
  EXPECT_EQ(waits(), "waiting ready");
}

TEST(Segments, AWetJointGrowsWithTheClockUntilTheClampsAreOn) {
  Bench b(kTen);
  const GlueUpId id = b.reserve(kBridge, kAda);
  b.set(b.glue_up(id).times.open_begin);
  ASSERT_TRUE(b.press(Start{id}));
  const Instant late = b.now() + Minutes{30};
  for (const Segment& s : board::segments_of(b.glue_up(id), late, Lane::Shows::held))
    if (s.phase == Phase::open) {
      EXPECT_EQ(s.span.end, late);
    }
}

class BoardTest : public ::testing::Test {
 protected:
  BoardTest() : bench(kTen) { stage.view = ada_at_bench_1(Screen::board); }
  look::Frame frame() { return stage.frame(bench.floor(), bench.now()); }
  float now_x(const look::Frame& f) {  // the now line: the narrow upright box in the text's colour
    for (const look::Mark& m : f.marks)
      if (const auto* b = std::get_if<Box>(&m);
          b != nullptr && b->ink == Role::text && b->at.w == 3 && b->at.h > 50)
        return b->at.centre().x;
    ADD_FAILURE() << "no now line";
    return 0;
  }
  GlueUpId clamped(RecipeId recipe, BuilderId builder) {
    const GlueUpId id = bench.reserve(recipe, builder);
    bench.set(bench.glue_up(id).times.open_begin);
    EXPECT_TRUE(bench.press(Start{id}));
    bench.wait(Minutes{4});
    EXPECT_TRUE(bench.press(ClampsOn{id, bench.now()}));
    return id;
  }
  Stage stage;
  Bench bench;
};

TEST_F(BoardTest, TheNowLineStandsAtThirtyPercentOfTheAxis) {
  clamped(kBridge, kAda);
  const float left = stage.scale.px(58);
  EXPECT_NEAR(now_x(frame()), left + 0.3F * (stage.width - left), 2);
}

TEST_F(BoardTest, LabelsNeverCrossTheNowLineOrTheEdges) {
  clamped(kBridge, kAda);
  bench.reserve(kLining, kBen);
  bench.reserve(kBinding, kCyd);
  const float left = stage.scale.px(58);
  for (int zoom = 0; zoom < kZoomCount; ++zoom)
    for (const Lanes lanes : {Lanes::gear, Lanes::bench, Lanes::builder})
      for (int minutes = 0; minutes < 180; minutes += 7) {
        stage.view.zoom = zoom, stage.view.lanes = lanes;
        const look::Frame f = stage.frame(bench.floor(), bench.now() + Minutes{minutes});
        const float x = now_x(f);
        for (const look::Words& w : texts(f)) {
          if (w.at.x < left || w.at.y < stage.scale.px(70)) continue;  // headers and the axis
          if (w.at.y > stage.height - stage.scale.px(40)) continue;    // the legend
          EXPECT_FALSE(w.at.x < x - 1 && w.at.right() > x + 1)
              << w.text << " crosses now, zoom " << zoom << " +" << minutes << " min";
          EXPECT_LE(w.at.right(), stage.width) << w.text;
        }
      }
}

TEST_F(BoardTest, GearLanesShowOnlyHeldTimeAndWaitingHasItsOwn) {
  const GlueUpId id = clamped(kBinding, kAda);  // waits 24 h
  bench.set(off_from(bench.glue_up(id)));
  ASSERT_TRUE(bench.press(ClampsOff{id, bench.now()}));
  bench.wait(Minutes{30});
  const look::Frame f = frame();
  const look::Press* held = find(f, "bar.short." + std::to_string(id.value));
  const look::Press* waits = find(f, "bar.waiting." + std::to_string(id.value));
  ASSERT_NE(held, nullptr);
  ASSERT_NE(waits, nullptr);
  EXPECT_LT(held->at.right(), now_x(f)) << "the clamps are free and look free";
  EXPECT_GT(waits->at.right(), now_x(f));

  stage.view.lanes = Lanes::bench;
  const look::Frame by_bench = frame();
  EXPECT_EQ(find(by_bench, "bar.waiting." + std::to_string(id.value)), nullptr);
  EXPECT_NE(find(by_bench, "bar.1." + std::to_string(id.value)), nullptr);
}

TEST_F(BoardTest, AWetJointIsSeenAtEveryZoom) {
  const GlueUpId id = bench.reserve(kBridge, kAda);
  bench.set(bench.glue_up(id).times.open_begin);
  ASSERT_TRUE(bench.press(Start{id}));
  bench.wait(Minutes{1});
  for (int zoom = 0; zoom < kZoomCount; ++zoom) {
    stage.view.zoom = zoom;
    float widest = 0;
    for (const look::Mark& m : frame().marks)
      if (const auto* b = std::get_if<Box>(&m);
          b != nullptr && b->ink == Role::open && b->fill == look::Fill::solid &&
          b->at.y < stage.height - stage.scale.px(40))  // not the legend
        widest = std::max(widest, b->at.w);
    EXPECT_GE(stage.scale.mm(widest), 6.9F) << "zoom " << zoom;
  }
}

TEST_F(BoardTest, OverTimeIsAmberAndSaidInTheLane) {
  const GlueUpId id = clamped(kBridge, kAda);
  bench.set(bench.glue_up(id).times.release_end + Minutes{7});
  bench.tick();
  const look::Frame f = frame();
  EXPECT_TRUE(says(f, "still on · A. 12 min over")) << all_texts(f);
}

TEST_F(BoardTest, ClosedHoursAreLabelled) {
  const look::Frame f = frame();
  EXPECT_TRUE(says(f, "closed"));
  EXPECT_TRUE(says(f, "15 h")) << all_texts(f);
}

TEST_F(BoardTest, IdleGearIsNamedNotDrawn) {
  clamped(kBridge, kAda);
  const look::Frame f = frame();
  EXPECT_TRUE(says(f, "Free all this time: Short clamp ×10, Deck A, Deck B")) << all_texts(f);
}

TEST(Pack, PutsWhatOverlapsIntoRowsAndCountsTheRest) {
  Lane lane;
  GlueUp g;
  for (int i = 0; i < 7; ++i) lane.bars.push_back({&g, 1, {kTen, kTen + hours{1}}});
  lane.bars.push_back({&g, 1, {kTen + hours{1}, kTen + hours{2}}});
  const board::TimeAxis axis{Hours{Zone::utc(), WeekHours{}},
                             {.at = kTen, .open_time = hours{10}, .left = 0, .right = 1000}};
  const board::Packed p = board::pack(lane, axis, 3);
  ASSERT_EQ(p.rows.size(), 3U);
  EXPECT_EQ(p.dropped, 4);
  EXPECT_EQ(p.rows[0].bars.size(), 2U) << "what follows at once stands in the same row";
  EXPECT_TRUE(p.strips.empty());
}

TEST(Pack, WhatIsPickedHasARowInAnyCase) {
  std::vector<GlueUp> all(6);
  Lane lane;
  for (unsigned i = 0; i < all.size(); ++i) {
    all[i].id = GlueUpId{i + 1};
    lane.bars.push_back({&all[i], 1, {kTen, kTen + hours{1}}});
  }
  const board::TimeAxis axis{Hours{Zone::utc(), WeekHours{}},
                             {.at = kTen, .open_time = hours{10}, .left = 0, .right = 1000}};
  for (const int rows : {1, 3}) {
    const board::Packed p = board::pack(lane, axis, rows, GlueUpId{5});
    EXPECT_EQ(p.rows.back().bars.front().glue_up->id, GlueUpId{5});
    EXPECT_EQ(p.rows.size(), static_cast<std::size_t>(rows));
    EXPECT_EQ(p.dropped, 6 - rows);
  }
  EXPECT_EQ(board::pack(lane, axis, 3, GlueUpId{2}).rows[1].bars.front().glue_up->id, GlueUpId{2})
      << "one that has a row keeps it";
}

TEST(Pack, MergesWhatIsTooNarrowIntoABusyStrip) {
  Lane lane;
  GlueUp g;
  const board::TimeAxis axis{Hours{Zone::utc(), WeekHours{}},
                             {.at = kTen, .open_time = hours{100}, .left = 0, .right = 1000}};
  for (int i = 0; i < 20; ++i)  // 10 px an hour: six minutes are one
    lane.bars.push_back({&g, 1, {kTen + Minutes{6 * i}, kTen + Minutes{6 * i + 6}}});
  const board::Packed p = board::pack(lane, axis, 3);
  EXPECT_TRUE(p.rows.empty());
  ASSERT_EQ(p.strips.size(), 1U);
  EXPECT_NEAR(p.strips[0].w, 20, 0.5);
}

// 30 bars of one kind at once: four rows and "+26", none dropped in silence.
TEST_F(BoardTest, WhatDoesNotFitIsCounted) {
  Shop shop = small_shop();
  shop.gear[1].stock = 200;
  for (unsigned i = 4; i <= 33; ++i)
    shop.builders.push_back({BuilderId{i}, "b" + std::to_string(i), "Builder", kBench2, {}});
  Bench many(kTen, shop);
  for (unsigned i = 4; i <= 33; ++i) many.reserve(kBinding, BuilderId{i}, kTen + hours{1});
  const look::Frame f = stage.frame(many.floor(), many.now());
  EXPECT_TRUE(says(f, "+26")) << all_texts(f);
}

int links(const look::Frame& f) {
  int n = 0;
  for (const look::Mark& m : f.marks)
    if (const auto* icon = std::get_if<look::Icon>(&m)) n += icon->glyph == look::Glyph::link;
  return n;
}

// Two wait for one another's caul, a third for nobody.
class ChainTest : public BoardTest {
 protected:
  ChainTest() {
    first = bench.reserve(kBridge, kAda);
    second = bench.reserve(kBridge, kBen);
    apart = bench.reserve(kBend, kCyd);
  }
  int outlined(const look::Frame& f,
               GlueUpId id) {  // bars of it with a line of the text's colour around them
    int n = 0;
    for (const look::Press& p : f.presses) {
      if (!p.id.starts_with("bar.") || !p.id.ends_with("." + std::to_string(id.value))) continue;
      for (const look::Mark& m : f.marks)
        if (const auto* b = std::get_if<Box>(&m))
          n += b->line == look::Line::dashed && b->edge == Role::text && b->at == p.at;
    }
    return n;
  }
  GlueUpId first, second, apart;
};

TEST_F(ChainTest, IsHiddenUntilItIsAskedFor) {
  const look::Frame f = frame();
  EXPECT_EQ(links(f), 0);
  EXPECT_EQ(outlined(f, first), 0);
  const look::Press* key = find(f, "chain");
  ASSERT_NE(key, nullptr);
  EXPECT_EQ(key->keys, std::vector<int>{'C'});
  stage.view = after(stage.view, key->intent);
  EXPECT_EQ(stage.view.chain, Chain::shown);
  stage.view = after(stage.view, find(frame(), "chain")->intent);
  EXPECT_EQ(stage.view.chain, Chain::hidden);
}

TEST_F(ChainTest, IsOutlinedHasAnIconAndSaysItsReason) {
  stage.view.chain = Chain::shown;
  const look::Frame f = frame();
  EXPECT_GT(outlined(f, first), 0);
  EXPECT_GT(outlined(f, second), 0);
  EXPECT_EQ(outlined(f, apart), 0) << "it waits for nothing and nothing waits for it";
  EXPECT_GE(links(f), 3) << "before both names, and in the strip";
  EXPECT_TRUE(says(f, "ready last")) << all_texts(f);
  EXPECT_TRUE(says(f, "Not before 11:14: Ada has 3 of the 6 deep clamps")) << all_texts(f);
}

TEST_F(ChainTest, KeysGoAlongIt) {
  stage.view.chain = Chain::shown;
  look::Frame f = frame();
  EXPECT_EQ(find(f, "pick.later"), nullptr) << "the last is shown first";
  const look::Press* earlier = find(f, "pick.earlier");
  ASSERT_NE(earlier, nullptr);
  EXPECT_EQ(earlier->keys, std::vector<int>{'J'});
  stage.view = after(stage.view, earlier->intent);
  EXPECT_EQ(stage.view.picked, first);
  f = frame();
  EXPECT_TRUE(says(f, "It starts when it was wanted.")) << all_texts(f);
  EXPECT_EQ(find(f, "pick.earlier"), nullptr);
}

TEST_F(ChainTest, OfABarThatIsNotOnThePlansChainIsItsOwn) {
  stage.view.chain = Chain::shown;
  stage.view.picked = apart;
  const look::Frame f = frame();
  EXPECT_GT(outlined(f, apart), 0);
  EXPECT_EQ(outlined(f, first), 0);
}

TEST_F(ChainTest, APickedBarSaysWhyItStandsThereWithoutTheChain) {
  stage.view.picked = second;
  const look::Frame f = frame();
  EXPECT_EQ(links(f), 0);
  EXPECT_TRUE(says(f, "11:14 · bridge · Ben")) << all_texts(f);
  EXPECT_TRUE(says(f, "Not before 11:14: Ada has 3 of the 6 deep clamps")) << all_texts(f);
  const look::Press* open = find(f, "open");
  ASSERT_NE(open, nullptr);
  EXPECT_EQ(open->keys, std::vector<int>{'O'});
}

TEST_F(ChainTest, WithNothingPickedKPicksWhatStartsFirst) {
  const look::Frame f = frame();
  GlueUpId picks;
  for (const look::Press& p : f.presses)
    if (p.keys == std::vector<int>{'K'}) picks = std::get<PickBar>(p.intent).glue_up;
  EXPECT_EQ(picks, first);
}

TEST_F(BoardTest, TheHeadOfTheNowLineCoversNoWords) {
  bench.reserve(kBend, kCyd);
  stage.view.zoom = 3;
  for (int minutes = 7 * 60; minutes < 22 * 60; minutes += 50) {  // through the closed night
    const look::Frame f = stage.frame(bench.floor(), bench.now() + Minutes{minutes});
    for (const look::Mark& m : f.marks) {
      const auto* head = std::get_if<look::Icon>(&m);
      if (head == nullptr || head->glyph != look::Glyph::head) continue;
      for (const look::Words& w : texts(f))
        EXPECT_FALSE(w.at.overlaps(head->at)) << w.text << " +" << minutes << " min";
    }
  }
}

}  // namespace
}  // namespace squeezeout::testing
