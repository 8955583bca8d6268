// What the board says aloud: who stands in whose way, what lost its place, what will be late; nights that the clock has twice.

#include <gtest/gtest.h>

#include "client/board/contention.h"
#include "tests/support/screens/stage.h"

namespace squeezeout::testing {
namespace {

using std::chrono::hours;

const Instant kTen = at("2026-11-26T10:00:00Z");

class BoardTags : public ::testing::Test {
 protected:
  BoardTags() : bench(kTen) { stage.view = ada_at_bench_1(Screen::board); }
  look::Frame frame() { return stage.frame(bench.floor(), bench.now()); }
  void clamp(GlueUpId id) {
    bench.set(bench.glue_up(id).times.open_begin);
    ASSERT_TRUE(bench.press(Start{id}));
    bench.wait(Minutes{4});
    ASSERT_TRUE(bench.press(ClampsOn{id, bench.now()}));
  }
  int amber(const look::Frame& f) {  // edges around bars and tags on them
    int n = 0;
    for (const look::Mark& m : f.marks)
      if (const auto* b = std::get_if<look::Box>(&m))
        n += b->edge == look::Role::amber && b->line != look::Line::none &&
             b->at.y < stage.height - stage.scale.px(40);
    return n;
  }
  Stage stage;
  Bench bench;
};

TEST_F(BoardTags, ClampsThatStayOnSayWhoWantsThem) {
  bench.reserve(kLining, kCyd, kTen + hours{3} + Minutes{30});  // 8 of the 16 clamps
  const GlueUpId late = bench.reserve(kLining, kAda);
  clamp(late);
  stage.view.zoom = 0;
  bench.set(bench.glue_up(late).times.release_end + Minutes{3});
  bench.tick();
  EXPECT_TRUE(says(frame(), "min over · Cyd wants it 13:30")) << all_texts(frame());
  EXPECT_GT(amber(frame()), 0);

  stage.link = Link::not_live, stage.silent = Minutes{1};
  EXPECT_TRUE(says(frame(), "min over")) << "it is Ada's own";
  EXPECT_FALSE(says(frame(), "wants it")) << "whether Cyd still does is not known";
}

TEST_F(BoardTags, WhatLostItsPlaceHasALaneAndNamesWhoTookIt) {
  const GlueUpId first = bench.reserve(kBridge, kAda);
  const GlueUpId second = bench.reserve(kBridge, kBen);  // waits for the only caul
  EXPECT_FALSE(says(frame(), "Lost places"));
  clamp(first);
  bench.set(bench.glue_up(second).times.stage_begin + Minutes{2});
  bench.tick();
  ASSERT_EQ(bench.glue_up(second).progress, Progress::displaced);
  stage.view.zoom = 1;
  const look::Frame f = frame();
  EXPECT_TRUE(says(f, "Lost places")) << all_texts(f);
  EXPECT_TRUE(says(f, "1 wants a new time"));
  EXPECT_NE(find(f, "bar.lost." + std::to_string(second.value)), nullptr);
  stage.view.picked = second;
  EXPECT_NE(find(frame(), "other_time"), nullptr) << "it can be given one here";
  EXPECT_TRUE(says(frame(), "lost its place") || says(frame(), "wants it")) << all_texts(frame());

  stage.view.bench = {}, stage.view.builder = {};
  stage.link = Link::not_live, stage.silent = Minutes{20};
  const look::Frame stale = frame();
  EXPECT_FALSE(says(stale, "wants a new time"));
  EXPECT_TRUE(says(stale, "1 had none"));
}

TEST_F(BoardTags, ABuildThatWillBeLateSaysSoOnItsBar) {
  Shop shop = small_shop();
  shop.builds[0].due = kTen + hours{2};
  bench = Bench(kTen, shop);
  bench.reserve(kBridge, kAda, {}, kBuild14, 0);
  stage.view.zoom = 1;
  Quotes quotes;
  const Scene scene{.floor = bench.floor(),
                    .now = bench.now(),
                    .view = stage.view,
                    .scale = stage.scale,
                    .letters = stage.letters,
                    .quotes = quotes};
  const std::vector<AtRisk> risks = builds_at_risk(bench.floor(), bench.now());
  ASSERT_EQ(risks.size(), 1U);
  const board::Tags tags = board::tags_of(scene);
  if (risks[0].last) {
    ASSERT_TRUE(tags.contains(risks[0].last));
    EXPECT_NE(tags.at(risks[0].last).front().find("due 12:00"), std::string::npos);
  } else {
    EXPECT_TRUE(tags.empty()) << "a step that is not reserved has no bar";
  }
}

TEST_F(BoardTags, ANightThatHasAnHourTwiceSaysWhich) {
  Shop shop = small_shop();
  for (auto& day : shop.hours.weekday) day = {{0, 24 * 60}};
  bench = Bench(at("2026-10-25T00:10:00Z"), shop);
  EXPECT_TRUE(says(frame(), "1:00 (2nd)")) << all_texts(frame());
  EXPECT_TRUE(says(frame(), "1:30 (1st)"));
  bench = Bench(at("2027-03-28T00:10:00Z"), shop);
  EXPECT_FALSE(says(frame(), "1:30")) << "nobody's clock shows that";
  EXPECT_TRUE(says(frame(), "2:30"));
}

TEST_F(BoardTags, MidnightBeginsADay) {
  Shop shop = small_shop();
  for (auto& day : shop.hours.weekday) day = {{0, 24 * 60}};
  bench = Bench(at("2026-11-26T23:30:00Z"), shop);
  EXPECT_TRUE(says(frame(), "Thu 26 Nov"));
  EXPECT_TRUE(says(frame(), "Fri 27 Nov")) << all_texts(frame());
}

TEST_F(BoardTags, AWeekAheadIsTheWeekAhead) {
  bench.reserve(kBend, kCyd, kTen + hours{24 * 7});
  stage.view.outlook.at = kTen + hours{24 * 7};
  EXPECT_TRUE(says(frame(), "Thu 3 Dec")) << all_texts(frame());
  EXPECT_TRUE(says(frame(), "C. · bend"));
}

}  // namespace
}  // namespace squeezeout::testing
