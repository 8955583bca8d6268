// What the exact search learns without asking for a cost holds of every schedule there is.

#include <gtest/gtest.h>

#include <random>

#include "common/schedule/exact_model.h"
#include "tests/support/schedule/checker.h"
#include "tests/support/schedule/random_problem.h"

namespace squeezeout::schedule::exact {
namespace {

using Dice = std::mt19937_64;

// Any open variable, split anywhere; false: all are decided.
bool decide_anything(Engine& engine, Dice& dice) {
  std::vector<Var> open;
  for (Var var = 0; var < engine.variables(); ++var)
    if (!engine.fixed(var)) open.push_back(var);
  if (open.empty()) return false;
  const View view{open[dice() % open.size()]};
  const Tick least = engine.least(view), most = engine.most(view);
  const auto above = static_cast<Tick>(dice() % static_cast<std::uint64_t>(most - least));
  const Pred p = at_most(view, least + above);
  engine.decide(dice() % 2 == 0 ? p : !p);
  return true;
}

// Goes on until all is decided, and shows each learned clause to `learned`; false: nothing is left.
template <typename Learned>
bool dive(Engine& engine, Dice& dice, const Learned& learned) {
  engine.restart();
  for (;;) {
    if (engine.propagate({}) == Engine::Result::conflict) {
      if (!engine.resolve()) return false;
      learned(engine.learned());
      continue;
    }
    if (!decide_anything(engine, dice)) return true;
  }
}

enum class Says { yes, no, nothing };
Says says(const std::vector<Tick>& values, const std::vector<Pred>& any) {
  for (const Pred& p : any) {
    const Tick value = values[p.side / 2];
    if (value == kFar) return Says::nothing;
    if ((p.side % 2 == 0 ? value : -value) >= p.least) return Says::yes;
  }
  return Says::no;
}

TEST(ExactLearning, EveryClauseHoldsOfEverySchedule) {
  int schedules = 0, clauses = 0, told = 0;
  for (std::uint64_t seed = 1; seed <= 250; ++seed) {
    SCOPED_TRACE(seed);
    const Problem problem = testing::random_problem(seed, {.tasks = 4});
    const auto bounds = bounds_of(problem);
    if (!std::holds_alternative<Bounds>(bounds)) continue;
    Dice dice(seed);
    Model model(problem, std::get<Bounds>(bounds));
    std::vector<std::vector<Tick>> known;  // schedules that the judge accepts, by variable
    for (int k = 0; k < 15; ++k) {
      if (!dive(model.engine, dice, [](const std::vector<Pred>&) {})) break;
      const Schedule schedule = model.read();
      const auto faults = testing::faults_of(problem, schedule);
      ASSERT_TRUE(faults.empty()) << faults.front();
      known.push_back(model.values_of(schedule));
    }
    schedules += static_cast<int>(known.size());
    Model fresh(problem, std::get<Bounds>(bounds));
    const auto check = [&](const std::vector<Pred>& any) {
      ++clauses;
      for (const auto& values : known) {
        const Says answer = says(values, any);
        ASSERT_NE(answer, Says::no);
        if (answer == Says::yes) ++told;
      }
    };
    for (int k = 0; k < 10; ++k)
      if (!dive(fresh.engine, dice, check)) {
        ASSERT_TRUE(known.empty()) << "a schedule is known, and yet nothing is left";
        break;
      }
  }
  EXPECT_GT(schedules, 1'000);
  EXPECT_GT(clauses, 500);
  EXPECT_GT(told, 5'000);
}

}  // namespace
}  // namespace squeezeout::schedule::exact
