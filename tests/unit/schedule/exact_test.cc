// The exact search against a judge that tries everything, on small random problems of every feature.

#include "common/schedule/exact.h"

#include <gtest/gtest.h>

#include "common/schedule/exact_model.h"
#include "tests/support/schedule/checker.h"
#include "tests/support/schedule/exhaustive.h"
#include "tests/support/schedule/random_problem.h"

namespace squeezeout::schedule {
namespace {

using testing::Exhausted;

struct Proof {
  std::optional<Schedule> best;
  Cost lower;
  int better = 0;
};

// Runs until nothing better is left, `work` at a time; checks each schedule and each bound on the way.
Proof prove(const Problem& problem, std::uint64_t seed, std::int64_t work,
            const std::function<bool()>& stop) {
  Proof proof;
  const auto bounds = bounds_of(problem);
  if (!std::holds_alternative<Bounds>(bounds)) return proof;
  Exact exact(problem, std::get<Bounds>(bounds), seed);
  proof.lower = exact.lower_bound();
  for (int turn = 0; turn < 1'000'000; ++turn) {
    const Exact::Answer answer = exact.run(work, stop);
    EXPECT_GE(exact.lower_bound(), proof.lower) << "the lower bound fell";
    proof.lower = exact.lower_bound();
    if (answer == Exact::Answer::better) {
      ++proof.better;
      EXPECT_TRUE(!proof.best || exact.best()->cost < proof.best->cost);
      proof.best = exact.best();
      const auto faults = testing::faults_of(problem, *proof.best);
      EXPECT_TRUE(faults.empty()) << faults.front();
      EXPECT_LE(proof.lower, proof.best->cost);
    }
    if (answer == Exact::Answer::exhausted) return proof;
  }
  ADD_FAILURE() << "no end in sight";
  return proof;
}

struct Sweep {
  testing::Sizes sizes;
  std::uint64_t first, last;
};

class AgainstTrying : public ::testing::TestWithParam<Sweep> {};

TEST_P(AgainstTrying, SameOptimumAndSameImpossible) {
  const Sweep& sweep = GetParam();
  int feasible = 0, impossible = 0;
  for (std::uint64_t seed = sweep.first; seed <= sweep.last; ++seed) {
    SCOPED_TRACE(seed);
    const Problem problem = testing::random_problem(seed, sweep.sizes);
    const Exhausted truth = testing::try_everything(problem);
    if (truth.status == Exhausted::Status::too_large) continue;
    const Proof proof = prove(problem, seed, 10'000'000, {});
    ASSERT_EQ(proof.best.has_value(), truth.best.has_value());
    if (!proof.best) {
      ++impossible;
      continue;
    }
    ++feasible;
    ASSERT_EQ(proof.best->cost, truth.best->cost)
        << proof.best->cost.late << ' ' << proof.best->cost.disturbed << ' '
        << proof.best->cost.makespan << " against " << truth.best->cost.late << ' '
        << truth.best->cost.disturbed << ' ' << truth.best->cost.makespan;
    ASSERT_EQ(proof.lower, truth.best->cost);
  }
  EXPECT_GT(feasible, 100);
  EXPECT_GT(impossible, 30);
}

INSTANTIATE_TEST_SUITE_P(
    Sizes, AgainstTrying,
    ::testing::Values(Sweep{{.tasks = 2, .resources = 2, .modes = 2, .parts = 3}, 1, 500},
                      Sweep{{.tasks = 3, .resources = 2, .modes = 2, .parts = 2}, 1001, 1500},
                      Sweep{{.tasks = 4}, 2001, 2250},
                      Sweep{{.tasks = 5, .resources = 2, .modes = 1, .parts = 1}, 3001, 3500}));

TEST(Exact, ASearchInSmallPiecesAndOftenStoppedProvesTheSame) {
  for (std::uint64_t seed = 5001; seed <= 5150; ++seed) {
    SCOPED_TRACE(seed);
    const Problem problem = testing::random_problem(seed, {.tasks = 4});
    const Proof whole = prove(problem, 1, 10'000'000, {});
    std::uint64_t asked = seed;
    const Proof pieces = prove(problem, 1, 1 + static_cast<std::int64_t>(seed % 3),
                               [&] { return ++asked % 3 != 0; });
    ASSERT_EQ(whole.best.has_value(), pieces.best.has_value());
    if (whole.best) {
      EXPECT_EQ(whole.best->cost, pieces.best->cost);
    }
  }
}

TEST(Exact, TheSameSeedFindsTheSameSchedules) {
  for (std::uint64_t seed = 6001; seed <= 6050; ++seed) {
    SCOPED_TRACE(seed);
    const Problem problem = testing::random_problem(seed, {.tasks = 5});
    const Proof once = prove(problem, seed, 5'000, {}), again = prove(problem, seed, 5'000, {});
    ASSERT_EQ(once.best.has_value(), again.best.has_value());
    EXPECT_EQ(once.better, again.better);
    if (once.best) {
      EXPECT_EQ(once.best->tasks, again.best->tasks);
    }
  }
}

TEST(Exact, OnlyBetterThanWhatWasFoundElsewhereCounts) {
  int known_best = 0, known_worse = 0;
  for (std::uint64_t seed = 7001; seed <= 7200; ++seed) {
    SCOPED_TRACE(seed);
    const Problem problem = testing::random_problem(seed, {.tasks = 4});
    const auto bounds = bounds_of(problem);
    if (!std::holds_alternative<Bounds>(bounds)) continue;
    Exact first(problem, std::get<Bounds>(bounds), 1);
    if (first.run(10'000'000, {}) != Exact::Answer::better) continue;
    const Schedule some = *first.best();
    while (first.run(10'000'000, {}) == Exact::Answer::better) {
    }
    const Schedule best = *first.best();

    Exact told(problem, std::get<Bounds>(bounds), 2);
    told.take(best);
    EXPECT_EQ(told.run(10'000'000, {}), Exact::Answer::exhausted);
    EXPECT_EQ(told.best()->cost, best.cost);
    EXPECT_EQ(told.lower_bound(), best.cost);
    ++known_best;
    if (some.cost == best.cost) continue;
    Exact guided(problem, std::get<Bounds>(bounds), 3);
    guided.take(some);
    EXPECT_EQ(guided.run(10'000'000, {}), Exact::Answer::better);
    EXPECT_LT(guided.best()->cost, some.cost);
    ++known_worse;
  }
  EXPECT_GT(known_best, 80);
  EXPECT_GT(known_worse, 20);
}

TEST(Exact, MoreTakenThanThereIsIsNoContradictionWhereNothingElseIsHeld) {
  Problem problem;
  problem.capacity = {1};
  problem.horizon = 40;
  problem.taken = {{.resource = 0, .count = 3, .span = {5, 10}}};
  problem.tasks = {{.modes = {{.parts = {{.length = 6}}, .held = {{1, {0}}}}}}};
  const Proof proof = prove(problem, 1, 100'000, {});
  ASSERT_TRUE(proof.best);
  EXPECT_EQ(proof.best->tasks.front().start(), 10);
}

TEST(Exact, WithNoHorizonAProblemStillEnds) {
  Problem problem;
  problem.capacity = {1};
  for (int i = 0; i < 3; ++i)
    problem.tasks.push_back({.modes = {{.parts = {{.length = 4}}, .held = {{1, {0}}}}}});
  problem.lags = {{.from = 0, .to = 1, .ticks = -3}, {.from = 1, .to = 0, .ticks = -3}};
  EXPECT_FALSE(prove(problem, 1, 100'000, {}).best) << "0 and 1 must overlap, and cannot";
  problem.lags.pop_back();
  const Proof proof = prove(problem, 1, 100'000, {});
  ASSERT_TRUE(proof.best);
  EXPECT_EQ(proof.best->cost.makespan, 12);
}

// The pieces are taken so that both cannot stand where they were announced: either both move a little, or one moves years away.
TEST(Exact, RatherOneMovedFarThanTwoMovedALittle) {
  Problem problem{.capacity = {1}, .taken = {{0, 1, {0, 1}}, {0, 1, {19, 2'000'000}}}};
  for (const Tick announced : {0, 9}) {
    problem.tasks.push_back({.modes = {{.parts = {{.length = 9}}, .held = {{1, {0}}}}}});
    problem.tasks.back().announced = announced;
  }
  const Proof proof = prove(problem, 1, 100'000, {});
  ASSERT_TRUE(proof.best);
  EXPECT_EQ(proof.best->cost, (Cost{0, kMoved + 2'000'000, 2'000'009}));
  EXPECT_EQ(proof.lower, proof.best->cost);
}

// With nothing but an announced start in the way, some best schedule has no gap after it, and the search looks no further.
TEST(Exact, WhatIsAnnouncedBoundsHowLateAScheduleEnds) {
  Problem problem{.capacity = {1}, .horizon = 1'000'000};
  for (int i = 0; i < 2; ++i) {
    problem.tasks.push_back({.modes = {{.parts = {{.length = 10}}, .held = {{1, {0}}}}}});
    problem.tasks.back().announced = 5'000;
  }
  const exact::Model model(problem, std::get<Bounds>(bounds_of(problem)));
  EXPECT_LE(model.engine.most(model.makespan), 5'020);
  const Proof proof = prove(problem, 1, 100'000, {});
  ASSERT_TRUE(proof.best);
  EXPECT_EQ(proof.best->cost, (Cost{0, kMoved + 10, 5'010}));
}

// Two that must overlap and cannot push each other tick by tick through all the time there is, in one propagation.
TEST(Exact, EndsSoonAfterItsWorkIsDone) {
  Problem problem{.capacity = {1}, .calendars = {{.open = {{0, 2'000'000}}}}, .horizon = 2'000'000};
  for (int i = 0; i < 2; ++i)
    problem.tasks.push_back(
        {.modes = {{.parts = {{.length = 4, .calendar = 0}}, .held = {{1, {0}}}}}});
  problem.lags = {{.from = 0, .to = 1, .ticks = -3}, {.from = 1, .to = 0, .ticks = -3}};
  Exact exact(problem, std::get<Bounds>(bounds_of(problem)), 1);
  Exact::Answer answer = Exact::Answer::budget;
  int turns = 0;
  for (; answer == Exact::Answer::budget; ++turns) {
    const std::int64_t before = exact.work();
    answer = exact.run(100, {});
    EXPECT_LE(exact.work() - before, 500);
  }
  EXPECT_EQ(answer, Exact::Answer::exhausted);
  EXPECT_GT(turns, 20);
}

}  // namespace
}  // namespace squeezeout::schedule
