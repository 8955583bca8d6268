// Workload: a shop of six builders, two dozen kinds of gear that can stand in for each other, weekday hours; 80 glue-ups of 5 phases
// are reserved, five steps each of 16 builds that are due within days, as people asked for them. Somebody asks for a plan for
// all of them: the problem that replan() hands to the planner, glues may change; then replan() itself, with all that it does
// before and after (a repair, a trial on the floor), and the floor takes what it proposes.
//   And: in a shop three times as large with 400 glue-ups reserved, some clamps break that are in use, and those who lost their
//   place are given another (repair). And: what would more gear have saved (what-if), over the same 400.
// Goals: a first plan within 10 ms; after 1 s within 1 % of what a minute gives; 20 what-ifs over 400 glue-ups within 200 ms.
//   Clock    CPU time of the one thread, so that other work on the machine does not count
//   Judged   every schedule by the checker that shares no code with the planner

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <limits>

#include "common/floor/as_problem.h"
#include "common/floor/decide.h"
#include "common/floor/replan.h"
#include "common/floor/what_if.h"
#include "common/time/rfc3339.h"
#include "tests/bench/floor/busy_floor.h"
#include "tests/support/cpu_clock.h"
#include "tests/support/schedule/checker.h"

namespace squeezeout::bench {
namespace {

using testing::thread_cpu_seconds;

const Instant kNow = *parse_rfc3339("2026-11-23T16:00:00Z");  // a Monday

std::vector<GlueUpId> reserved(const Floor& floor) {
  std::vector<GlueUpId> out;
  for (const auto& [id, g] : floor.glue_ups)
    if (g.progress == Progress::reserved) out.push_back(id);
  return out;
}

std::string told(const schedule::Cost& c) {
  return fmt::format("late {} min, moved {} by {} min, makespan {} min", c.late,
                     c.disturbed / schedule::kMoved, c.disturbed % schedule::kMoved, c.makespan);
}

struct Better {
  double seconds;
  schedule::Schedule schedule;
};

// The level of cost that differs first, in percent of the later one.
std::string apart(const schedule::Cost& early, const schedule::Cost& late) {
  const auto percent = [](std::int64_t a, std::int64_t b) {
    return 100.0 * static_cast<double>(a - b) / static_cast<double>(std::max<std::int64_t>(b, 1));
  };
  if (early.late != late.late) return fmt::format("{:.2f} % later", percent(early.late, late.late));
  if (early.disturbed != late.disturbed)
    return fmt::format("lateness equal, disturbance {:.2f} % more",
                       percent(early.disturbed, late.disturbed));
  return fmt::format("lateness and disturbance equal, makespan {:.2f} % more",
                     percent(early.makespan, late.makespan));
}

// False: a schedule was faulty.
bool plan_them_all(const schedule::Problem& problem, const std::string& name, double seconds,
                   std::uint64_t seed) {
  fmt::print("{}\n", name);
  const double begin = thread_cpu_seconds();
  const auto elapsed = [&] { return thread_cpu_seconds() - begin; };
  std::vector<Better> found;
  const schedule::Outcome outcome =
      schedule::solve(problem, {.seed = seed,
                                .work = std::numeric_limits<std::int64_t>::max(),
                                .stop = [&] { return elapsed() >= seconds; },
                                .progress = {},
                                .on_better =
                                    [&](const schedule::Schedule& s) {
                                      found.push_back({elapsed(), s});
                                    }});
  const double took = elapsed();
  if (found.empty()) {
    fmt::print("  no plan in {:.1f} s\n", took);
    return false;
  }
  int faults = 0;
  for (const Better& b : found)
    for (const std::string& fault : schedule::testing::faults_of(problem, b.schedule))
      if (++faults <= 3) fmt::print("  FAULTY: {}\n", fault);
  const auto at = [&](double t) {
    const auto after =
        std::find_if(found.begin(), found.end(), [&](const Better& b) { return b.seconds > t; });
    return after == found.begin() ? found.front() : *std::prev(after);
  };
  fmt::print("  first plan   {:8.1f} ms   {}\n", found.front().seconds * 1000,
             told(found.front().schedule.cost));
  for (const double t : {0.1, 1.0, 10.0, 60.0})
    if (t <= took) fmt::print("  after        {:8.1f} s    {}\n", t, told(at(t).schedule.cost));
  fmt::print("  at the end   {:8.1f} s    {}{}\n", took, told(found.back().schedule.cost),
             outcome.status == schedule::Outcome::Status::optimal ? ", proven" : "");
  fmt::print("  lower bound               {}\n", told(outcome.lower_bound));
  fmt::print("  after 1 s against the end: {}\n",
             apart(at(1.0).schedule.cost, found.back().schedule.cost));
  fmt::print("  {} plans, {} of them faulty\n", found.size(), faults);
  return faults == 0;
}

// False: the floor refuses what is proposed.
bool replan_them_all(const Floor& floor, double seconds, std::uint64_t seed) {
  const double begin = thread_cpu_seconds();
  const auto elapsed = [&] { return thread_cpu_seconds() - begin; };
  double first = -1;
  const Proposal p = replan(floor, kNow,
                            {.seed = seed,
                             .work = std::numeric_limits<std::int64_t>::max(),
                             .stop = [&] { return elapsed() >= seconds; },
                             .progress = {},
                             .on_better =
                                 [&](const schedule::Schedule&) {
                                   if (first < 0) first = elapsed();
                                 }});
  const double took = elapsed();
  AdoptPlan plan;
  for (const Shift& s : p.shifts) plan.moves.push_back({s.glue_up, s.to.stage_begin, s.sheet});
  Floor after = floor;
  const bool taken = p.shifts.empty() || step(after, {{}, {}, kNow, plan}).answer.has_value();
  fmt::print(
      "replan() itself, stopped after {:.1f} s\n"
      "  first plan   {:8.1f} ms\n"
      "  answer after {:8.2f} s    {} moves, the floor {} them\n"
      "  as it stands              {}\n"
      "  proposed                  {}\n",
      seconds, first * 1000, took, p.shifts.size(), taken ? "takes" : "REFUSES", told(p.before),
      told(p.after));
  return taken;
}

// Of the first kind of which so many are promised that some lose their places, one piece breaks or a quarter of all.
struct Broken {
  Floor floor;
  GearKindId kind;
  int count = 0;
};
constexpr int kQuarter = 4;
Broken with_broken(const Floor& before, int one_in) {
  for (const GearKind& k : before.shop->gear) {
    Broken out{before, k.id, std::max(1, k.stock / one_in)};
    if (one_in <= kQuarter && k.stock < 4 * one_in) continue;  // a quarter of a few is one again
    const auto broke = step(out.floor, {{}, {}, kNow, GearBroken{k.id, out.count, "bench"}});
    if (broke.answer && !out.floor.displaced.empty()) return out;
  }
  CHECK(!"some kind of gear is scarce");
}

void break_and_repair(const Floor& before, const Broken& broken, double seconds) {
  const Floor& floor = broken.floor;
  const double begin = thread_cpu_seconds();
  const Proposal p =
      repair(floor, kNow,
             {.work = 20'000'000, .stop = [&] { return thread_cpu_seconds() - begin >= seconds; }});
  fmt::print(
      "repair: {} glue-ups live, {} of {} {} broke, {} lost their place\n"
      "  {:.1f} ms: {} placed, {} without a place{}{}; {}\n",
      before.live_count, broken.count, floor.gear.stock(broken.kind), floor.kind(broken.kind)->key,
      floor.displaced.size(), (thread_cpu_seconds() - begin) * 1000, p.shifts.size(),
      p.no_place.size(), p.optimal ? ", proven best" : "", p.cancelled ? ", cut short" : "",
      told(p.after));
}

void ask_what_if(const Floor& floor) {
  std::vector<Hypothesis> asked = usual_hypotheses(floor);
  asked.resize(std::min<std::size_t>(asked.size(), 20));
  const double begin = thread_cpu_seconds();
  const auto answers = what_if(floor, demand_span(kNow, Instant::min()), asked);
  const double took = thread_cpu_seconds() - begin;
  const auto minutes = [](Seconds s) { return s / Minutes{1}; };
  fmt::print("what-if: {} changes over {} glue-ups\n  {:.1f} ms; the best saves {} of {} min\n",
             answers.size(), answers.front().glue_ups, took * 1000,
             minutes(answers.front().saved()), minutes(answers.front().waited));
}

bool run(double seconds, std::uint64_t seed) {
  const Floor floor = busy_floor({.seed = static_cast<std::uint32_t>(seed)}, kNow);
  const AsProblem made = as_problem(floor, reserved(floor), kNow, Glues::may_change);
  bool sound = plan_them_all(
      made.problem,
      fmt::format("replan: {} glue-ups of 5 phases, {} builds, {} kinds of gear", made.tasks.size(),
                  floor.shop->builds.size(), floor.shop->gear.size()),
      seconds, seed);
  for (const double limit : {1.0, seconds}) sound = replan_them_all(floor, limit, seed) && sound;
  const Floor large =
      busy_floor({.times = 3, .builds = 80, .seed = static_cast<std::uint32_t>(seed)}, kNow);
  break_and_repair(large, with_broken(large, 1'000'000), seconds);
  break_and_repair(large, with_broken(large, kQuarter), seconds);
  ask_what_if(large);
  return sound;
}

}  // namespace
}  // namespace squeezeout::bench

int main(int argc, char** argv) {
  CLI::App app{"The planner on a floor of 400 phases, against the clock.", "bench_floor"};
  double seconds = 60;
  std::uint64_t seed = 1;
  app.add_option("--seconds", seconds, "How long the long run is, CPU time")
      ->check(CLI::Range(1.0, 3600.0))
      ->capture_default_str();
  app.add_option("--seed", seed, "Of the floor and of the search")->capture_default_str();
  CLI11_PARSE(app, argc, argv);
  return squeezeout::bench::run(seconds, seed) ? 0 : 1;
}
