// A plan of the whole floor, and what of it is late.
#include "common/floor/replan.h"

#include <gtest/gtest.h>

#include "common/floor/as_problem.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using namespace std::chrono_literals;

const Instant kNine = at("2026-11-26T09:00:00Z");  // a Thursday

schedule::Budget budget() { return {.seed = 1, .work = 200'000}; }

Shop shop_with_due(Instant due) {
  Shop s = small_shop();
  s.builds[0].due = due;
  return s;
}

AdoptPlan adopt(const Proposal& p) {
  AdoptPlan plan;
  for (const Shift& s : p.shifts) plan.moves.push_back({s.glue_up, s.to.stage_begin, s.sheet});
  return plan;
}

TEST(Replan, MovesNobodyForNothing) {
  Bench b{kNine};
  b.reserve(kBridge, kAda, kNine + 1h);
  b.reserve(kBridge, kBen, kNine + 3h);
  const Proposal p = replan(b.floor(), b.now(), budget());
  EXPECT_TRUE(p.shifts.empty());
  EXPECT_TRUE(p.optimal);
}

// The one caul is promised to others first; the build that is due goes before them.
TEST(Replan, WhatIsDueGoesFirst) {
  Bench b{kNine, shop_with_due(kNine + 48h)};
  b.reserve(kBridge, kBen, kNine + 1h);
  b.reserve(kBridge, kCyd, kNine + 3h);
  const GlueUpId due = b.reserve(kBridge, kAda, kNine + 5h, kBuild14, 0);
  const GlueUpId last = b.reserve(kBinding, kAda, std::nullopt, kBuild14, 1);
  const Proposal p = replan(b.floor(), b.now(), budget());
  EXPECT_LT(p.after.late, p.before.late);
  ASSERT_FALSE(p.shifts.empty());
  const Instant ready = b.glue_up(last).times.ready_at;
  ASSERT_TRUE(b.press(adopt(p)));
  EXPECT_LT(b.glue_up(last).times.ready_at, ready);
  EXPECT_LT(b.glue_up(due).times.stage_begin, kNine + 5h);
  EXPECT_EQ(over_stock(b.floor()), "");
}

// The caul is in use: what is due comes as soon as it is free, and no sooner.
TEST(Replan, WhatHasStartedStays) {
  Shop shop = shop_with_due(kNine + 2h);
  shop.builds[0].steps.resize(1);
  Bench b{kNine, shop};
  const GlueUpId runs = b.reserve(kBridge, kBen);
  ASSERT_TRUE(b.press(Start{runs}));
  ASSERT_TRUE(b.press(Reserve{
      .recipe = kBridge, .build = kBuild14, .builder = kAda, .after = kNine, .start = kNine + 5h}));
  const GlueUpId due{b.floor().last_glue_up};
  const GlueUp before = b.glue_up(runs);
  const Proposal p = replan(b.floor(), b.now(), budget());
  ASSERT_EQ(p.shifts.size(), 1u);
  EXPECT_EQ(p.shifts[0].glue_up, due);
  EXPECT_EQ(p.shifts[0].to.stage_begin, before.times.release_end);
  ASSERT_TRUE(b.press(adopt(p)));
  EXPECT_EQ(b.glue_up(runs), before);
}

TEST(BuildsAtRisk, ToldDaysAhead) {
  // Bridge 3 h to be ready, binding 24 h, lining: not before Friday.
  Bench b{kNine, shop_with_due(kNine + 7h)};
  b.reserve(kBridge, kAda, kNine + 1h, kBuild14, 0);
  const auto risks = builds_at_risk(b.floor(), b.now());
  ASSERT_EQ(risks.size(), 1u);
  EXPECT_EQ(risks[0].build, kBuild14);
  EXPECT_GT(risks[0].ready, kNine + 24h);
  EXPECT_FALSE(risks[0].last) << "a step that is not reserved yet";
}

TEST(BuildsAtRisk, NoneWhenThereIsTime) {
  Bench b{kNine, shop_with_due(kNine + 24h * 20)};
  b.reserve(kBridge, kAda, kNine + 1h, kBuild14, 0);
  EXPECT_TRUE(builds_at_risk(b.floor(), b.now()).empty());
}

TEST(BuildsAtRisk, NamesTheGlueUpThatIsLate) {
  Shop s = shop_with_due(kNine + 2h);
  s.builds[0].steps.resize(1);
  Bench b{kNine, s};
  const GlueUpId bridge = b.reserve(kBridge, kAda, kNine + 1h, kBuild14, 0);
  const auto risks = builds_at_risk(b.floor(), b.now());
  ASSERT_EQ(risks.size(), 1u);
  EXPECT_EQ(risks[0], (AtRisk{kBuild14, kNine + 2h, b.glue_up(bridge).times.ready_at, bridge}));
}

TEST(BuildsAtRisk, WithNobodyToDoItItIsNotReady) {
  Shop s = shop_with_due(kNine + 24h);
  s.builds[0].builder = {};
  Bench b{kNine, s};
  b.floor().shop->builders.clear();
  const auto risks = builds_at_risk(b.floor(), b.now());
  ASSERT_EQ(risks.size(), 1u);
  EXPECT_EQ(risks[0], (AtRisk{kBuild14, kNine + 24h, kNine + kHorizon, {}}));
}

// The first step is done, and its glue-up over for good: the next is placed behind it.
TEST(BuildsAtRisk, GoesOnBehindStepsThatAreDone) {
  Bench b{kNine, shop_with_due(kNine + 24h)};
  const GlueUpId bridge = b.reserve(kBridge, kAda, {}, kBuild14, 0);
  b.wait(5min);
  ASSERT_TRUE(b.press(Start{bridge}));
  b.wait(4min);
  ASSERT_TRUE(b.press(ClampsOn{bridge, b.now()}));
  b.wait(4h);
  ASSERT_TRUE(b.press(ClampsOff{bridge, b.now()}));
  ASSERT_TRUE(b.press(Scraped{bridge, b.now()}));
  ASSERT_EQ(b.glue_up(bridge).progress, Progress::done);
  b.wait(1h);
  const auto risks = builds_at_risk(b.floor(), b.now());
  ASSERT_EQ(risks.size(), 1u);
  EXPECT_EQ(risks[0].last, GlueUpId{});
  // Binding now, ready a day after its clamps are on; then the lining.
  const Instant bound = b.now() + 9min + 24h;
  EXPECT_GT(risks[0].ready, bound);
  EXPECT_LT(risks[0].ready, bound + 24h);
}

TEST(AsProblem, TakesWhatStaysAndTranslatesWhatMoves) {
  Bench b{kNine};
  const GlueUpId moves = b.reserve(kBridge, kAda, kNine + 1h);
  b.reserve(kBridge, kBen, kNine + 3h);
  const AsProblem as = as_problem(b.floor(), {moves}, b.now(), Glues::as_they_are);
  ASSERT_EQ(as.tasks.size(), 1u);
  EXPECT_EQ(as.base, kNine);
  const schedule::Task& task = as.problem.tasks[0];
  EXPECT_EQ(task.announced, 60);
  ASSERT_EQ(task.modes.size(), 1u);
  const schedule::Mode& mode = task.modes[0];
  ASSERT_EQ(mode.parts.size(), 3u);
  EXPECT_EQ(mode.parts[0].length, 9);
  EXPECT_EQ(mode.parts[1].length_at(69), 60);
  EXPECT_EQ(mode.parts[2].length, 5);
  EXPECT_EQ(mode.held, (std::vector<schedule::Need>{{3, {0}}, {1, {2}}}));
  int caul = 0, ben = 0;
  for (const schedule::Taken& t : as.problem.taken) {
    if (t.resource == 2) {
      EXPECT_EQ(t.span, (schedule::Window{180, 254}));
      ++caul;
    }
    if (t.resource == 6) ++ben;
  }
  EXPECT_EQ(caul, 1);
  EXPECT_EQ(ben, 2) << "spreading and release";
}

}  // namespace
}  // namespace squeezeout::testing
