// The planner and a general-purpose solver agree on small random floors: on whether there is a schedule at all, and on the least
// cost. Both may be wrong, but not in the same way: the peer's model shares no code with the planner.
//   How many: PEER_FLOORS, from seed PEER_SEED (set by CTest)
//   Skipped without the solver, but a failure where CI is set

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>

#include "common/schedule/solve.h"
#include "tests/peer/minizinc.h"
#include "tests/support/environment.h"
#include "tests/support/schedule/checker.h"
#include "tests/support/schedule/random_problem.h"

namespace squeezeout::schedule::testing {
namespace {

using squeezeout::testing::number_from_environment;

std::string words(const std::optional<Cost>& cost) {
  if (!cost) return "no schedule";
  return "late " + std::to_string(cost->late) + ", disturbed " + std::to_string(cost->disturbed) +
         ", makespan " + std::to_string(cost->makespan);
}

TEST(Peer, AgreesOnRandomFloors) {
  const auto version = peer_version();
  if (!version) {
    const char* const words = "there is no minizinc with Gecode here; install: tools/setup peer";
    if (std::getenv("CI")) FAIL() << words;
    GTEST_SKIP() << words;
  }
  const auto scratch = std::filesystem::path(::testing::TempDir()) / "squeezeout_peer";
  std::filesystem::create_directories(scratch);

  const std::uint64_t floors = number_from_environment("PEER_FLOORS", 20),
                      first = number_from_environment("PEER_SEED", 1);
  std::uint64_t equal = 0, without = 0;
  for (std::uint64_t seed = first; seed < first + floors; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Problem problem =
        random_problem(seed, {.tasks = 4 + static_cast<int>(seed % 4), .horizon = 24});
    const auto peer = ask_peer(problem, scratch);
    if (!peer) {
      ADD_FAILURE() << "the peer did not answer in time";
      continue;
    }
    const Outcome ours = solve(problem, {.seed = seed, .work = 20'000'000});
    if (ours.best) {
      EXPECT_EQ(faults_of(problem, *ours.best), std::vector<std::string>{});
    }
    const auto best = ours.best ? std::optional{ours.best->cost} : std::nullopt;
    const bool proven =
        ours.status == Outcome::Status::optimal || ours.status == Outcome::Status::infeasible;
    const bool same = best == peer->best;
    EXPECT_TRUE(same) << "ours: " << words(best) << (proven ? " (proven)" : " (not proven)")
                      << "\npeer: " << words(peer->best);
    EXPECT_TRUE(proven) << "equal, but without a proof: " << words(best);
    equal += same && proven;
    without += !peer->best;
  }
  std::printf("%s: equal and proven on %llu of %llu floors, %llu of which have no schedule\n",
              version->c_str(), static_cast<unsigned long long>(equal),
              static_cast<unsigned long long>(floors), static_cast<unsigned long long>(without));
}

}  // namespace
}  // namespace squeezeout::schedule::testing
