#include "tests/bench/schedule/race.h"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <limits>
#include <thread>

#include "tests/support/cpu_clock.h"
#include "tests/support/schedule/checker.h"

namespace squeezeout::schedule::testing {
namespace {

double now(RaceClock clock) {
  if (clock == RaceClock::cpu) return squeezeout::testing::thread_cpu_seconds();
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

constexpr Tick kFloorHorizon = 75 * 24 * 60;

Problem as_floor(Problem problem) {
  problem.horizon = std::min(problem.horizon, kFloorHorizon);
  problem.calendars.push_back({.open = {{0, problem.horizon + 1}}});
  const int always = static_cast<int>(problem.calendars.size()) - 1;
  for (Task& task : problem.tasks)
    for (Mode& mode : task.modes)
      for (Part& part : mode.parts)
        if (part.calendar < 0) part.calendar = always;
  return problem;
}

struct Found {
  double seconds = 0;
  Schedule schedule;
};

struct Searcher {
  Outcome outcome;
  std::vector<Found> found;
  double seconds = 0;
};

bool proves(const Outcome& outcome) {
  return outcome.status == Outcome::Status::optimal ||
         outcome.status == Outcome::Status::infeasible;
}

void search(const Problem& problem, const Race& race, std::uint64_t seed, std::atomic<bool>& proven,
            Searcher& searcher) {
  const double begin = now(race.clock);
  const auto elapsed = [&] { return now(race.clock) - begin; };
  searcher.outcome =
      solve(problem, {.seed = seed,
                      .work = std::numeric_limits<std::int64_t>::max(),
                      .stop = [&] { return proven.load() || elapsed() >= race.seconds; },
                      .on_better =
                          [&](const Schedule& better) {
                            searcher.found.push_back({elapsed(), better});
                          }});
  searcher.seconds = elapsed();
  if (proves(searcher.outcome)) proven = true;
}

// The schedules are checked after the race, so that the judge costs the searchers nothing.
void judge(const Problem& problem, const Searcher& searcher, Finish& finish) {
  const auto check = [&](const Schedule& schedule) {
    for (std::string& fault : faults_of(problem, schedule))
      finish.faults.push_back(std::move(fault));
  };
  for (const Found& found : searcher.found) check(found.schedule);
  const Outcome& outcome = searcher.outcome;
  if (outcome.best) check(*outcome.best);
  if (outcome.best && outcome.best->cost < outcome.lower_bound)
    finish.faults.push_back("a schedule costs less than the lower bound");
  if (outcome.status == Outcome::Status::optimal && !outcome.best)
    finish.faults.push_back("is called optimal and has no schedule");
  if (outcome.status == Outcome::Status::infeasible && outcome.best)
    finish.faults.push_back("is called infeasible and has a schedule");
}

}  // namespace

Finish race(Problem problem, const Race& race) {
  if (race.as_floor) problem = as_floor(std::move(problem));
  std::atomic<bool> proven = false;
  std::vector<Searcher> searchers(static_cast<std::size_t>(race.threads));
  {
    std::vector<std::jthread> threads;
    for (std::size_t k = 1; k < searchers.size(); ++k)
      threads.emplace_back([&, k] { search(problem, race, race.seed + k, proven, searchers[k]); });
    search(problem, race, race.seed, proven, searchers[0]);
  }

  Finish finish;
  Outcome& all = finish.outcome;
  finish.first_seconds = std::numeric_limits<double>::infinity();
  for (const Searcher& s : searchers) {
    judge(problem, s, finish);
    finish.seconds = std::max(finish.seconds, s.seconds);
    all.work += s.outcome.work;
    all.lower_bound = std::max(all.lower_bound, s.outcome.lower_bound);
    if (!s.found.empty()) finish.first_seconds = std::min(finish.first_seconds, s.found[0].seconds);
    if (s.outcome.best && (!all.best || s.outcome.best->cost < all.best->cost)) {
      all.best = s.outcome.best;
      if (!s.found.empty()) finish.best_seconds = s.found.back().seconds;
    }
    if (proves(s.outcome)) {
      all.status = s.outcome.status;
      all.cycle = s.outcome.cycle;
      all.no_room = s.outcome.no_room;
    }
  }
  if (all.status == Outcome::Status::unknown && all.best) all.status = Outcome::Status::feasible;
  if (all.best && all.status == Outcome::Status::infeasible)
    finish.faults.push_back("one searcher calls infeasible what another has a schedule of");
  if (all.best && all.best->cost < all.lower_bound)
    finish.faults.push_back(
        "a schedule of one searcher costs less than the lower bound of another");
  return finish;
}

}  // namespace squeezeout::schedule::testing
