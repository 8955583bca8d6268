// Never silently stale: what the screens say when the server is not heard.

#include <gtest/gtest.h>

#include "tests/support/screens/stage.h"

namespace squeezeout::testing {
namespace {

const Instant kTen = at("2026-11-26T10:00:00Z");

class NotLive : public ::testing::Test {
 protected:
  NotLive() : bench(kTen) {
    ben = bench.reserve(kBinding, kBen);
    ada = bench.reserve(kBridge, kAda);
    bench.set(bench.glue_up(ben).times.open_begin);
    EXPECT_TRUE(bench.press(Start{ben}));
    EXPECT_TRUE(bench.press(Start{ada}));
    bench.wait(Minutes{4});
    EXPECT_TRUE(bench.press(ClampsOn{ben, bench.now()}));
    EXPECT_TRUE(bench.press(ClampsOn{ada, bench.now()}));
    bench.wait(Minutes{10});
  }
  look::Frame show(Screen screen) {
    stage.view.screen = screen;
    return stage.frame(bench.floor(), bench.now());
  }
  void silent_for(Seconds s) {
    stage.silent = s;
    stage.link = s > kNotLive ? Link::not_live : s > kLate ? Link::late : Link::live;
    bench.wait(s);
  }
  Stage stage;
  Bench bench;
  GlueUpId ben, ada;
};

constexpr Screen kAll[] = {Screen::bench, Screen::reserve, Screen::card,  Screen::board,
                           Screen::wall,  Screen::day,     Screen::snags, Screen::gear};

TEST_F(NotLive, LiveIsSaidOnEveryScreen) {
  for (const Screen s : kAll) {
    EXPECT_TRUE(says(show(s), "LIVE")) << to_string(s);
    EXPECT_FALSE(says(show(s), "NOT LIVE")) << to_string(s);
  }
}

TEST_F(NotLive, AfterThreeSecondsTheLatenessIsSaid) {
  silent_for(Seconds{4});
  for (const Screen s : kAll) EXPECT_TRUE(says(show(s), "4 s late")) << to_string(s);
}

TEST_F(NotLive, AfterTenSecondsABannerCrossesEveryScreen) {
  silent_for(Seconds{12});
  for (const Screen s : kAll) {
    const look::Frame f = show(s);
    EXPECT_TRUE(says(f, "NOT LIVE since 10:19 · times below are plans")) << to_string(s) << "\n"
                                                                         << all_texts(f);
    bool full_width = false;
    for (const look::Mark& m : f.marks)
      if (const auto* b = std::get_if<look::Box>(&m); b != nullptr)
        full_width |= b->ink == look::Role::text && b->at.x == 0 && b->at.w == f.width;
    EXPECT_TRUE(full_width) << to_string(s);
  }
}

TEST_F(NotLive, TimesOfOthersArePlansOrNotKnown) {
  silent_for(Seconds{12});
  const look::Frame f = show(Screen::wall);
  EXPECT_TRUE(says(f, "planned")) << all_texts(f);
  EXPECT_TRUE(says(f, "WAS FREE"));
  EXPECT_FALSE(says(f, "FREE NOW"));
  silent_for(std::chrono::hours{3});  // Ben's clamps were due long ago
  EXPECT_TRUE(says(show(Screen::wall), "not known")) << all_texts(show(Screen::wall));
}

TEST_F(NotLive, OnesOwnCardKeepsCounting) {
  stage.view.glue_up = ada;
  silent_for(Seconds{60});
  const look::Frame f = show(Screen::card);
  EXPECT_TRUE(says(f, "49 min")) << all_texts(f);  // clamped 10:09, off 11:09
  EXPECT_NE(find(f, "anyway"), nullptr) << "a fact is taken, and sent later";
}

TEST_F(NotLive, WhatIsClampedElsewhereIsToldAsItWas) {
  stage.view.builder = kBen, stage.view.bench = kBench2;
  Bench alone(kTen);  // Ben's joint is the only one
  const GlueUpId id = alone.reserve(kBinding, kBen);
  alone.set(alone.glue_up(id).times.open_begin);
  ASSERT_TRUE(alone.press(Start{id}));
  EXPECT_TRUE(says(stage.frame(alone.floor(), alone.now()), "Nothing is clamped elsewhere"));
  stage.link = Link::not_live;
  const look::Frame f = stage.frame(alone.floor(), alone.now());
  EXPECT_FALSE(says(f, "Nothing is clamped elsewhere"));
  EXPECT_TRUE(says(f, "Nothing was clamped elsewhere")) << all_texts(f);
}

TEST_F(NotLive, SnagsAreToldAsTheyWere) {
  const GlueUpId later = bench.reserve(kBridge, kAda, kTen + std::chrono::hours{4});
  EXPECT_TRUE(says(show(Screen::snags), "No snags"));
  silent_for(Seconds{12});
  look::Frame f = show(Screen::snags);
  EXPECT_FALSE(says(f, "No snags"));
  EXPECT_FALSE(says(f, "is reserved")) << all_texts(f);
  EXPECT_TRUE(says(f, "There were no snags")) << all_texts(f);
  bench.wait(std::chrono::hours{6});
  bench.tick();
  ASSERT_EQ(bench.glue_up(later).progress, Progress::displaced) << "nobody started it";
  f = show(Screen::snags);
  EXPECT_TRUE(says(f, "1 glue-up had lost its place")) << all_texts(f);
  EXPECT_FALSE(says(f, "Snags 1")) << "a number that nobody can know";
  silent_for(Seconds{0});
  EXPECT_TRUE(says(show(Screen::snags), "Snags 1")) << all_texts(show(Screen::snags));
}

TEST_F(NotLive, NothingCanBeReserved) {
  silent_for(Seconds{12});
  stage.view.wanted = {.recipe = kBridge, .builder = kAda, .bench = kBench1};
  EXPECT_EQ(find(show(Screen::reserve), "reserve"), nullptr);
}

TEST_F(NotLive, PressesThatWaitAreCounted) {
  silent_for(Seconds{12});
  stage.facts_waiting = 2;
  EXPECT_TRUE(says(show(Screen::bench), "2 presses are not sent yet"));
}

}  // namespace
}  // namespace squeezeout::testing
