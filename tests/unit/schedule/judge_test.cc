// Published instances: they are read as they are meant, and the planner's answers to some of them stand before the judge and
// beside what is known. The data lies beside the project and is never copied into it; where it is absent the tests are skipped.

#include <gtest/gtest.h>

#include <algorithm>

#include "common/schedule/lags.h"
#include "common/schedule/solve.h"
#include "tests/support/schedule/checker.h"
#include "tests/support/schedule/read_instance.h"

namespace squeezeout::schedule::testing {
namespace {

const std::filesystem::path kData = "../shared/data";  // from the top of the checkout

struct Slice {
  const char* set;
  std::size_t nth;  // every nth instance of it
};
const char* set_of(const char* set) { return set; }
const char* set_of(const Slice& slice) { return slice.set; }

template <class Chosen>
class Published : public ::testing::TestWithParam<Chosen> {
 protected:
  void SetUp() override {
    if (instances_in(folder()).empty())
      GTEST_SKIP() << "the published instances are not in " << folder().string();
    auto table = read_known(folder().string() + "_bounds.csv");
    ASSERT_TRUE(table.has_value()) << table.error().words();
    known_ = std::move(table).value();
  }
  std::filesystem::path folder() const { return kData / set_of(this->GetParam()); }
  KnownTable known_;
};

// The least time from the start of each task to the start of the sink.
std::vector<Tick> to_sink(const Problem& problem) {
  std::vector<Tick> least(problem.tasks.size(), -kFar);
  least.back() = 0;
  for (bool changed = true; changed;) {
    changed = false;
    for (const Lag& lag : problem.lags) {
      const auto from = static_cast<std::size_t>(lag.from), to = static_cast<std::size_t>(lag.to);
      const Tick lasts = lag.after == Lag::After::ready
                             ? problem.tasks[from].modes.front().parts.front().length
                             : 0;
      if (least[to] == -kFar || least[to] + lasts + lag.ticks <= least[from]) continue;
      least[from] = least[to] + lasts + lag.ticks;
      changed = true;
    }
  }
  return least;
}

using Read = Published<const char*>;

TEST_P(Read, EndWithTheirSinkAndHaveTheirCriticalPath) {
  for (const auto& file : instances_in(folder())) {
    const auto problem = read_instance(file);
    ASSERT_TRUE(problem.has_value()) << problem.error().words();
    const std::string name = file.stem().string();
    ASSERT_TRUE(known_.contains(name)) << name;
    const auto least = to_sink(*problem);
    for (std::size_t i = 0; i < least.size(); ++i)
      EXPECT_GE(least[i], problem->tasks[i].modes.front().parts.front().length)
          << name << ": task " << i << " may end after the sink";
    const auto bounds = bounds_of(*problem);
    ASSERT_TRUE(std::holds_alternative<Bounds>(bounds)) << name;
    EXPECT_EQ(std::get<Bounds>(bounds).earliest.back(), known_.at(name).critical_path) << name;
  }
}

INSTANTIATE_TEST_SUITE_P(Sets, Read,
                         ::testing::Values("psplib_j30", "psplib_j60", "psplib_j120",
                                           "rcpsp_max_ubo10", "rcpsp_max_ubo20", "rcpsp_max_ubo50",
                                           "rcpsp_max_ubo100", "rcpsp_max_ubo200"),
                         [](const ::testing::TestParamInfo<const char*>& set) {
                           return std::string{set.param};
                         });

class Planned : public Published<Slice> {};

TEST_P(Planned, StandBeforeTheJudge) {
  const auto files = instances_in(folder());
  int solved = 0;
  for (std::size_t k = 0; k < files.size(); k += GetParam().nth) {
    const auto problem = read_instance(files[k]);
    ASSERT_TRUE(problem.has_value()) << problem.error().words();
    const std::string name = files[k].stem().string();
    SCOPED_TRACE(name);
    const Known& known = known_.at(name);
    const Outcome out = solve(*problem, {.seed = 1, .work = 20'000});
    if (out.best) {
      ++solved;
      EXPECT_TRUE(known.feasible);
      EXPECT_EQ(faults_of(*problem, *out.best), std::vector<std::string>{});
      EXPECT_GE(out.best->cost.makespan, known.lower_bound);
      EXPECT_GE(out.best->cost, out.lower_bound);
    }
    EXPECT_FALSE(known.feasible && out.status == Outcome::Status::infeasible);
    EXPECT_TRUE(!known.best_makespan || out.lower_bound.makespan <= *known.best_makespan);
    EXPECT_TRUE(out.status != Outcome::Status::optimal || !known.is_optimal ||
                out.best->cost.makespan == *known.best_makespan);
  }
  EXPECT_GT(solved, 0);
}

INSTANTIATE_TEST_SUITE_P(Some, Planned,
                         ::testing::Values(Slice{"psplib_j30", 12}, Slice{"rcpsp_max_ubo20", 4}),
                         [](const ::testing::TestParamInfo<Slice>& slice) {
                           return std::string{slice.param.set};
                         });

}  // namespace
}  // namespace squeezeout::schedule::testing
