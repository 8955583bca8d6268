// Every schedule that the search hands out is one, on problems of each kind; the same seed and work give the same; it ends when
// told; and it finds the optimum where trying everything does.

#include "common/schedule/improve.h"

#include <gtest/gtest.h>

#include "common/schedule/generate.h"
#include "common/schedule/improve_flat.h"
#include "common/schedule/improve_random.h"
#include "tests/support/schedule/checker.h"
#include "tests/support/schedule/exhaustive.h"
#include "tests/support/schedule/random_problem.h"

namespace squeezeout::schedule {
namespace {

void expect_valid(const Problem& problem, const Schedule& schedule) {
  for (const std::string& fault : testing::faults_of(problem, schedule)) ADD_FAILURE() << fault;
}

Task task_of(Tick length, std::vector<Need> held) {
  Task task;
  task.modes.push_back({.parts = {{.length = length}}, .held = std::move(held)});
  return task;
}

// Tasks of one part over a few resources, each after some before it; with most lags where asked.
enum class Lags { least, most };
Problem plain_problem(std::uint64_t seed, int tasks, Lags lags) {
  Random random(seed);
  Problem problem;
  for (int r = 0; r < 3; ++r) problem.capacity.push_back(2 + random.below(5));
  for (int i = 0; i < tasks; ++i) {
    std::vector<Need> held;
    for (int r = 0; r < 3; ++r)
      if (random.below(2) == 0)
        held.push_back({1 + random.below(problem.capacity[static_cast<std::size_t>(r)]), {r}});
    problem.tasks.push_back(task_of(random.below(7), std::move(held)));
    for (int k = 0; k < 2 && i > 0; ++k)
      if (random.below(3) > 0)
        problem.lags.push_back({random.below(i), i, random.below(4) / 3, Lag::After::ready});
    if (lags == Lags::most && i > 0 && random.below(3) == 0)
      problem.lags.push_back({i, random.below(i), -(20 + random.below(40)), Lag::After::start});
  }
  if (random.below(3) == 0) problem.taken.push_back({0, 1, {3, 9}});
  return problem;
}

std::optional<Schedule> improved(const Problem& problem, std::uint64_t seed, std::int64_t work) {
  const auto bounds = bounds_of(problem);
  if (!std::holds_alternative<Bounds>(bounds)) return std::nullopt;
  Improver improver(problem, std::get<Bounds>(bounds), seed);
  improver.run(work, {});
  return improver.best();
}

TEST(Improve, EverySchedulePassesTheJudge) {
  int found = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    const Problem problem = testing::random_problem(
        seed, {.tasks = 3 + static_cast<int>(seed % 12), .resources = 4, .horizon = 60});
    const auto best = improved(problem, seed, 2'000);
    if (!best) continue;
    ++found;
    expect_valid(problem, *best);
    if (HasFailure()) FAIL() << "seed " << seed;
  }
  EXPECT_GT(found, 100);
}

TEST(Improve, EveryPlainSchedulePassesTheJudge) {
  for (const Lags lags : {Lags::least, Lags::most}) {
    int found = 0;
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
      const Problem problem = plain_problem(seed, 5 + static_cast<int>(seed % 40), lags);
      const auto best = improved(problem, seed, 1'000);
      if (!best) continue;
      ++found;
      expect_valid(problem, *best);
      if (HasFailure()) FAIL() << "seed " << seed;
    }
    EXPECT_GE(found, lags == Lags::least ? 100 : 60);
  }
}

TEST(Improve, FindsTheOptimumOfSmallPlainProblems) {
  for (const Lags lags : {Lags::least, Lags::most}) {
    int compared = 0, met = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
      Problem problem = plain_problem(seed, 5, lags);
      problem.horizon = 40;
      const testing::Exhausted all = testing::try_everything(problem);
      if (all.status != testing::Exhausted::Status::optimal) continue;
      ++compared;
      const auto best = improved(problem, seed, 2'000);
      met += best && best->cost == all.best->cost;
    }
    EXPECT_GE(compared, 40);
    EXPECT_EQ(met, compared);
  }
}

TEST(Improve, FindsTheOptimumOfMostSmallFloors) {
  int compared = 0, found = 0, met = 0;
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    const Problem problem = testing::random_problem(seed, {.tasks = 3, .horizon = 16});
    const testing::Exhausted all = testing::try_everything(problem);
    if (all.status != testing::Exhausted::Status::optimal) continue;
    ++compared;
    const auto best = improved(problem, seed, 2'000);
    if (!best) continue;
    ++found;
    EXPECT_GE(best->cost, all.best->cost);
    met += best->cost == all.best->cost;
  }
  EXPECT_GE(compared, 50);
  EXPECT_GE(found * 100, compared * 97);
  EXPECT_GE(met * 100, compared * 90);
}

TEST(Improve, NeedsAreMetTogetherWheneverTheyCanBe) {
  Problem problem;  // deep clamps do for shallow work too: the first need must leave them
  problem.capacity = {2, 3};
  problem.tasks.push_back(task_of(5, {{2, {1, 0}}, {3, {1}}}));
  const auto best = improved(problem, 1, 1'000);
  ASSERT_TRUE(best);
  EXPECT_EQ(best->tasks[0].held, (std::vector<Use>{{0, 2}, {1, 3}}));
  expect_valid(problem, *best);
}

TEST(Improve, TheLeastCapableFirst) {
  Problem problem;
  problem.capacity = {4, 4};
  problem.tasks.push_back(task_of(5, {{5, {1, 0}}}));
  const auto best = improved(problem, 1, 1'000);
  ASSERT_TRUE(best);
  EXPECT_EQ(best->tasks[0].held, (std::vector<Use>{{0, 1}, {1, 4}}));
}

TEST(Improve, WhatIsAnnouncedStaysWhenNothingIsLate) {
  Problem problem;
  problem.capacity = {1};
  for (const Tick announced : {10, 0, 20}) {
    problem.tasks.push_back(task_of(5, {{1, {0}}}));
    problem.tasks.back().announced = announced;
  }
  const auto best = improved(problem, 1, 1'000);
  ASSERT_TRUE(best);
  EXPECT_EQ(best->cost.disturbed, 0);
  EXPECT_EQ(best->tasks[0].start(), 10);
}

TEST(Improve, LatenessBeforeWhatIsAnnounced) {
  Problem problem;
  problem.capacity = {1};
  for (const Tick due : {kFar, 6}) {
    problem.tasks.push_back(task_of(5, {{1, {0}}}));
    problem.tasks.back().announced = 0;
    problem.tasks.back().due = due;
    problem.tasks.back().weight = 1;
  }
  const auto best = improved(problem, 1, 1'000);
  ASSERT_TRUE(best);
  EXPECT_EQ(best->cost, (Cost{0, kMoved + 5, 10}));
}

TEST(Improve, SameSeedAndWorkSameSchedule) {
  std::vector<Problem> problems{plain_problem(7, 40, Lags::least), plain_problem(9, 40, Lags::most),
                                testing::random_problem(5, {.tasks = 12, .horizon = 80})};
  for (const Problem& problem : problems) {
    const auto first = improved(problem, 3, 2'000), second = improved(problem, 3, 2'000);
    ASSERT_EQ(first.has_value(), second.has_value());
    if (first) {
      EXPECT_EQ(first->tasks, second->tasks);
    }
  }
}

TEST(Improve, TellsWhenItFoundABetterOne) {
  const Problem problem = plain_problem(11, 40, Lags::least);
  const auto bounds = std::get<Bounds>(bounds_of(problem));
  Improver improver(problem, bounds, 3);
  for (int slice = 0; slice < 40; ++slice) {
    const auto before = improver.best();
    const bool better = improver.run(64, {});
    EXPECT_EQ(better, improver.best() && (!before || improver.best()->cost < before->cost));
  }
  ASSERT_TRUE(improver.best());
  expect_valid(problem, *improver.best());
}

TEST(Improve, EndsWhenTold) {
  const Problem problem = plain_problem(7, 60, Lags::least);
  const auto bounds = std::get<Bounds>(bounds_of(problem));
  Improver improver(problem, bounds, 1);
  int asked = 0;
  improver.run(1'000'000'000, [&] { return ++asked == 3; });
  EXPECT_EQ(asked, 3);
  EXPECT_LT(improver.schedules(), 1'000);
}

TEST(Improve, GoesOnFromWhatIsFoundElsewhere) {
  const Problem problem = plain_problem(21, 50, Lags::least);
  const auto bounds = std::get<Bounds>(bounds_of(problem));
  const auto good = improved(problem, 1, 20'000);
  ASSERT_TRUE(good);
  Improver improver(problem, bounds, 2);
  improver.take(*good);
  ASSERT_TRUE(improver.best());
  EXPECT_EQ(improver.best()->cost, good->cost);
  improver.run(500, {});
  EXPECT_LE(improver.best()->cost, good->cost);
  expect_valid(problem, *improver.best());
}

// By every rule of the first plans the one due first goes first; the light one should wait. Found with a gap, it is tried as it
// is before the rules are, and closes the gap.
TEST(Improve, TriesWhatIsFoundElsewhereAsItIsBeforeAnything) {
  Problem problem;
  problem.capacity = {1};
  for (const int weight : {1, 100}) {
    problem.tasks.push_back(task_of(10, {{1, {0}}}));
    problem.tasks.back().due = weight == 1 ? 5 : 6;
    problem.tasks.back().weight = weight;
  }
  Schedule found{.tasks = {{.begins = {12}, .held = {{0, 1}}}, {.begins = {1}, .held = {{0, 1}}}}};
  found.cost = cost_of(problem, found.tasks);
  expect_valid(problem, found);
  Improver improver(problem, std::get<Bounds>(bounds_of(problem)), 1);
  improver.take(found);
  EXPECT_TRUE(improver.run(1, {}));
  EXPECT_EQ(improver.schedules(), 1);
  EXPECT_EQ(improver.best()->cost, (Cost{400 + 15, 0, 20}));
}

TEST(Improve, EveryWayTriedIsWork) {
  Problem problem;
  problem.capacity = {1};
  problem.tasks.push_back(task_of(10, {{1, {0}}}));
  problem.tasks[0].modes.resize(3, problem.tasks[0].modes[0]);
  Generator generator(problem, std::get<Bounds>(bounds_of(problem)));
  ASSERT_TRUE(generator.generate({{0}, {-1}, {Plan::Keep::no}}));
  EXPECT_EQ(generator.placings(), 3);
}

TEST(Improve, OnlySoManyTasksAreLaidFlat) {
  const auto flat_with = [](std::size_t tasks, std::vector<Lag> lags) {
    Problem problem{.capacity = {1}, .tasks = {tasks, task_of(0, {})}, .lags = std::move(lags)};
    return flatten(problem, Bounds{std::vector<Tick>(tasks), std::vector<Tick>(tasks, kFar)})
        .has_value();
  };
  EXPECT_TRUE(flat_with(65'535, {}));
  EXPECT_FALSE(flat_with(65'536, {})) << "the population indexes them with 16 bits";
  const std::vector<Lag> most{{.from = 1, .to = 0, .ticks = -5}};
  EXPECT_TRUE(flat_with(1'000, most));
  EXPECT_FALSE(flat_with(1'001, most)) << "paths between all pairs";
}

}  // namespace
}  // namespace squeezeout::schedule
