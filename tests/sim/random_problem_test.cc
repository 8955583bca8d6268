// Promise: the planner never plans what cannot be, never calls impossible what can be, and never calls best what is not. Random
// floors with calendars, most lags, substitution, modes, waits: every plan goes through the judge, and on floors small enough
// every proof is compared with trying everything.
//   How many: SIM_PROBLEMS, from seed SIM_SEED (set by CTest)

#include "tests/support/schedule/random_problem.h"

#include <gtest/gtest.h>

#include <cstdio>

#include "common/schedule/solve.h"
#include "tests/support/environment.h"
#include "tests/support/schedule/checker.h"
#include "tests/support/schedule/exhaustive.h"

namespace squeezeout::schedule::testing {
namespace {

using squeezeout::testing::number_from_environment;

std::string words(const Cost& cost) {
  return std::to_string(cost.late) + " late, " + std::to_string(cost.disturbed) + " disturbed, " +
         std::to_string(cost.makespan) + " long";
}

struct Ran {
  long plans = 0, optimal = 0, infeasible = 0, open = 0, too_large = 0;
};

void expect_valid(const Problem& problem, const Schedule& schedule) {
  for (const std::string& fault : faults_of(problem, schedule)) ADD_FAILURE() << fault;
}

Outcome plan(const Problem& problem, std::uint64_t seed, std::int64_t work) {
  std::optional<Cost> last;
  Outcome out = solve(problem, {.seed = seed, .work = work, .on_better = [&](const Schedule& s) {
                                  expect_valid(problem, s);
                                  EXPECT_TRUE(!last || s.cost < *last) << "told again, not better";
                                  last = s.cost;
                                }});
  EXPECT_EQ(out.best.has_value(), last.has_value());
  if (out.best) {
    expect_valid(problem, *out.best);
    EXPECT_LE(out.lower_bound, out.best->cost);
  }
  EXPECT_EQ(out.best.has_value(),
            out.status == Outcome::Status::optimal || out.status == Outcome::Status::feasible);
  return out;
}

// Small: each proof against trying everything.
void confirm(std::uint64_t seed, Ran& ran) {
  const Problem problem =
      random_problem(seed, {.tasks = 3 + static_cast<int>(seed % 3 == 0), .horizon = 18});
  const Outcome out = plan(problem, seed, 1'000'000);
  const Exhausted all = try_everything(problem);
  ran.plans += out.best.has_value();
  if (all.status == Exhausted::Status::too_large) {
    ++ran.too_large;
    return;
  }
  const bool exists = all.status == Exhausted::Status::optimal;
  EXPECT_TRUE(!exists || out.lower_bound <= all.best->cost) << words(out.lower_bound);
  switch (out.status) {
    case Outcome::Status::optimal:
      ++ran.optimal;
      ASSERT_TRUE(exists);
      EXPECT_EQ(out.best->cost, all.best->cost)
          << "called optimal: " << words(out.best->cost) << "; best: " << words(all.best->cost);
      break;
    case Outcome::Status::feasible:
      ++ran.open;
      EXPECT_TRUE(exists);
      break;
    case Outcome::Status::infeasible:
      ++ran.infeasible;
      EXPECT_FALSE(exists) << "called infeasible; best: " << words(all.best->cost);
      break;
    case Outcome::Status::unknown:
      ++ran.open;
      break;
  }
}

TEST(RandomProblems, ProofsStandAgainstTryingEverything) {
  const std::uint64_t problems = number_from_environment("SIM_PROBLEMS", 300),
                      first = number_from_environment("SIM_SEED", 1);
  Ran ran;
  for (std::uint64_t seed = first; seed < first + problems && !HasFatalFailure(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    confirm(seed, ran);
  }
  std::printf(
      "%llu problems: %ld plans; proven optimal %ld, infeasible %ld, left open %ld; too large to "
      "confirm %ld\n",
      static_cast<unsigned long long>(problems), ran.plans, ran.optimal, ran.infeasible, ran.open,
      ran.too_large);
  const auto all = static_cast<long>(problems);
  EXPECT_GT(ran.plans * 4, all);
  EXPECT_GT(ran.infeasible * 4, all);
  EXPECT_LT((ran.open + ran.too_large) * 50, all);
}

// Larger, for the judge alone.
TEST(RandomProblems, EveryPlanIsValid) {
  const std::uint64_t problems = number_from_environment("SIM_PROBLEMS", 300),
                      first = number_from_environment("SIM_SEED", 1);
  long plans = 0;
  for (std::uint64_t seed = first; seed < first + problems && !HasFailure(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Problem problem = random_problem(
        seed,
        {.tasks = 6 + static_cast<int>(seed % 15), .resources = 4, .modes = 3, .horizon = 90});
    plans += plan(problem, seed, 6'000).best.has_value();
  }
  std::printf("%llu problems: %ld plans\n", static_cast<unsigned long long>(problems), plans);
  EXPECT_GT(plans * 4, static_cast<long>(problems));
}

// The same seed and work give the same plan.
TEST(RandomProblems, AreReproducible) {
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    const Problem problem = random_problem(seed, {.tasks = 7, .resources = 4, .horizon = 40});
    const Outcome one = plan(problem, seed, 10'000), two = plan(problem, seed, 10'000);
    EXPECT_EQ(one.status, two.status);
    EXPECT_EQ(one.work, two.work);
    EXPECT_EQ(one.lower_bound, two.lower_bound);
    ASSERT_EQ(one.best.has_value(), two.best.has_value());
    EXPECT_TRUE(!one.best || one.best->tasks == two.best->tasks);
  }
}

}  // namespace
}  // namespace squeezeout::schedule::testing
