#include "tests/bench/schedule/race.h"

#include <time.h>

#include <algorithm>
#include <atomic>
#include <limits>
#include <thread>

#include "tests/support/schedule/checker.h"

namespace squeezeout::schedule::testing {
namespace {

double now(RaceClock clock) {
  timespec t{};
  clock_gettime(clock == RaceClock::wall ? CLOCK_MONOTONIC : CLOCK_THREAD_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + static_cast<double>(t.tv_nsec) * 1e-9;
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

Finish race(const Problem& problem, const Race& race) {
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
  return finish;
}

}  // namespace squeezeout::schedule::testing
