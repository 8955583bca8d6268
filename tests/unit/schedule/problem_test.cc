// The arithmetic of the model: ends, ready, cost, the next open window.

#include "common/schedule/problem.h"

#include <gtest/gtest.h>

#include "tests/support/schedule/checker.h"
#include "tests/support/schedule/exhaustive.h"
#include "tests/support/schedule/random_problem.h"

namespace squeezeout::schedule::testing {
namespace {

class TwiceAtNight final : public Length {
 public:
  Tick at(Tick begin) const override { return begin < 10 ? 3 : 6; }
};

TEST(Problem, EndsWithTheLastPart) {
  Mode mode{.parts = {Part{.length = 2}, Part{.by_begin = std::make_shared<TwiceAtNight>()}}};
  EXPECT_EQ(end_of(mode, {.begins = {0, 2}}), 5);
  EXPECT_EQ(end_of(mode, {.begins = {8, 10}}), 16);
}

TEST(Problem, IsReadyAtTheEndAndNotBeforeTheWait) {
  Mode mode{.parts = {Part{.length = 2}, Part{.length = 3}}};
  const Placed placed{.begins = {10, 12}};
  EXPECT_EQ(ready_of(mode, placed), 15);
  mode.wait = Wait{.from_part = 1, .length = 2};
  EXPECT_EQ(ready_of(mode, placed), 15);
  mode.wait->length = 9;
  EXPECT_EQ(ready_of(mode, placed), 21);
  mode.wait->from_part = 0;
  EXPECT_EQ(ready_of(mode, placed), 19);
  mode.wait->by_begin = std::make_shared<TwiceAtNight>();
  EXPECT_EQ(ready_of(mode, placed), 16);
}

TEST(Problem, CostsLatenessThenDisturbanceThenMakespan) {
  const Mode mode{.parts = {Part{.length = 4}}};
  Problem p{.tasks = {{.modes = {mode, Mode{.parts = {Part{.length = 4}}, .penalty = 5}},
                       .due = 6,
                       .weight = 3,
                       .announced = 2},
                      {.modes = {mode}}}};
  EXPECT_EQ(cost_of(p, {{.begins = {2}}, {.begins = {0}}}), (Cost{0, 0, 6}));
  EXPECT_EQ(cost_of(p, {{.begins = {5}}, {.begins = {0}}}), (Cost{9, kMoved + 3, 9}));
  EXPECT_EQ(cost_of(p, {{.mode = 1, .begins = {0}}, {.begins = {9}}}), (Cost{0, kMoved + 7, 13}));
  EXPECT_LT((Cost{0, 99, 99}), (Cost{1, 0, 0}));
  EXPECT_LT((Cost{0, 0, 99}), (Cost{0, 1, 0}));
}

// The floor plans 75 days ahead, in minutes.
TEST(Problem, NoDistancesOutweighOneMoreTaskMoved) {
  constexpr Tick kFarthest = 75 * 24 * 60;
  Problem p;
  std::vector<Placed> far, near;
  for (int i = 0; i < 9'000; ++i) {
    p.tasks.push_back({.modes = {Mode{.parts = {Part{}}}}, .announced = 0});
    far.push_back({.begins = {kFarthest}});
    near.push_back({.begins = {1}});
  }
  far.back() = {.begins = {0}};
  EXPECT_LT(cost_of(p, far).disturbed, cost_of(p, near).disturbed);
}

TEST(Problem, NextOpenLiesWithinOneWindow) {
  const Problem p{.calendars = {{.open = {{0, 4}, {10, 13}, {20, 30}}}}};
  EXPECT_EQ(next_open(p, {.length = 99, .calendar = -1}, 7), 7);
  EXPECT_EQ(next_open(p, {.length = 4, .calendar = 0}, 0), 0);
  EXPECT_EQ(next_open(p, {.length = 4, .calendar = 0}, 1), 20);
  EXPECT_EQ(next_open(p, {.length = 3, .calendar = 0}, 2), 10);
  EXPECT_EQ(next_open(p, {.length = 3, .calendar = 0}, 11), 20);
  EXPECT_EQ(next_open(p, {.length = 0, .calendar = 0}, 4), 10) << "a moment at closing is closed";
  EXPECT_EQ(next_open(p, {.length = 10, .calendar = 0}, 21), kFar);
  EXPECT_EQ(next_open(p, {.length = 11, .calendar = 0}, 0), kFar);
}

TEST(Problem, NextOpenNeverFalls) {
  const Problem p{.calendars = {{.open = {{3, 5}, {6, 11}, {14, 15}, {20, 28}}}}};
  for (Tick length = 0; length < 10; ++length) {
    for (Tick from = -2; from < 30; ++from) {
      const Tick at = next_open(p, {.length = length, .calendar = 0}, from);
      EXPECT_GE(at, from);
      EXPECT_LE(at, next_open(p, {.length = length, .calendar = 0}, from + 1));
      EXPECT_TRUE(at == kFar || next_open(p, {.length = length, .calendar = 0}, at) == at);
    }
  }
}

TEST(Problem, NextAllowedLiesWithinAWindow) {
  Mode mode{.parts = {Part{.length = 9}}};
  EXPECT_EQ(next_allowed(mode, 7), 7);
  mode.starts = {{2, 4}, {8, 9}};
  EXPECT_EQ(next_allowed(mode, 0), 2);
  EXPECT_EQ(next_allowed(mode, 3), 3);
  EXPECT_EQ(next_allowed(mode, 4), 8);
  EXPECT_EQ(next_allowed(mode, 9), kFar);
}

TEST(Problem, LeastLengthCountsTheWaitFromWhereItBegins) {
  Task task{.modes = {Mode{.parts = {Part{.length = 2}, Part{.length = 3}}}}};
  EXPECT_EQ(least_length(task), 5);
  task.modes[0].wait = Wait{.from_part = 0, .length = 9};
  EXPECT_EQ(least_length(task), 9);
  task.modes[0].wait->from_part = 1;
  EXPECT_EQ(least_length(task), 11);
  task.modes[0].wait->length = 1;
  EXPECT_EQ(least_length(task), 5);
  task.modes[0].wait =
      Wait{.from_part = 1, .length = 9, .by_begin = std::make_shared<TwiceAtNight>()};
  EXPECT_EQ(least_length(task), 5) << "by the hour: not known before it begins";
  task.modes.push_back(Mode{.parts = {Part{.length = 4}}});
  EXPECT_EQ(least_length(task), 4);
}

// The judge counts costs by itself.
TEST(Problem, CostsWhatTheJudgeCounts) {
  int checked = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    const Problem p = random_problem(seed, {.tasks = 3, .horizon = 16});
    auto all = try_everything(p);
    if (!all.best) continue;
    all.best->cost = cost_of(p, all.best->tasks);
    const auto faults = faults_of(p, *all.best);
    EXPECT_TRUE(faults.empty()) << "seed " << seed << ": " << faults.front();
    ++checked;
  }
  EXPECT_GT(checked, 80);
}

}  // namespace
}  // namespace squeezeout::schedule::testing
