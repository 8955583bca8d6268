// Workload: a shop of 18 builders with 400 glue-ups reserved, and years of work on record: 100,000 glue-ups that are over, steps of
// builds for the most part. Air is read each quarter of an hour and a forecast is known. A proposal that moves 20 is accepted and
// taken back, on the writer's thread; and a screen asks which builds are at risk.
// Goals: what is on record costs nothing; accepting within 10 ms.
//   Clock    CPU time of the one thread, so that other work on the machine does not count

#include <fmt/format.h>
#include <time.h>

#include <algorithm>
#include <functional>

#include "common/floor/apply.h"
#include "common/floor/decide.h"
#include "common/floor/proposal.h"
#include "common/time/rfc3339.h"
#include "tests/bench/floor/busy_floor.h"

namespace squeezeout::bench {
namespace {

using std::chrono::hours;

const Instant kNow = *parse_rfc3339("2026-11-23T16:00:00Z");  // a Monday
constexpr int kSteps = 5;

double cpu_ms() {
  timespec t{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) * 1e3 + static_cast<double>(t.tv_nsec) * 1e-6;
}

std::string time_of(int times, const std::function<void()>& act) {
  std::vector<double> ms;
  for (int i = 0; i < times; ++i) {
    const double begin = cpu_ms();
    act();
    ms.push_back(cpu_ms() - begin);
  }
  std::sort(ms.begin(), ms.end());
  return fmt::format("p50 {:.2f} ms, p99 {:.2f} ms", ms[ms.size() / 2], ms[ms.size() * 99 / 100]);
}

void press(Floor& floor, Body body) { CHECK(step(floor, {{}, {}, kNow, std::move(body)}).answer); }

void know_the_weather(Floor& floor) {
  ReadClimate read;
  for (Instant t = kNow - hours{47}; t < kNow; t += Minutes{15})
    read.readings.push_back(
        {t, {20.0 + static_cast<double>(t.time_since_epoch().count() % 3)}, {46}});
  press(floor, read);
  SetForecast forecast;
  for (Instant t = kNow + hours{1}; t < kNow + hours{24 * 7}; t += hours{3})
    forecast.points.push_back(
        {t, {20.0 + static_cast<double>(t.time_since_epoch().count() % 5)}, {46}});
  press(floor, forecast);
}

// One after another, an hour each, long ago.
void put_on_record(Floor& floor, int count) {
  std::vector<GlueUp> like;
  for (const auto& [id, g] : floor.glue_ups) like.push_back(g);
  Instant begin = kNow - hours{24 * 30};
  for (int i = 0; i < count; ++i, begin -= hours{1}) {
    GlueUp g = like[static_cast<std::size_t>(i) % like.size()];
    g.id = GlueUpId{floor.last_glue_up + 1};
    g.build = BuildId{static_cast<std::uint32_t>(10'000 + i / kSteps)};
    g.step = i % kSteps;
    g.progress = Progress::done;
    g.times = {begin, begin, begin, begin + Minutes{50}, begin + hours{1}, begin + hours{1}};
    g.reserved_at = g.pressed_at = begin;
    g.started_at = g.clamped_at = begin;
    g.off_at = g.ended_at = begin + hours{1};
    squeezeout::apply(floor, GlueUpChanged{Change::scraped, std::move(g)});
  }
}

// Twenty that start last, each a few minutes later.
AdoptPlan moves_of(const Floor& floor) {
  std::vector<std::pair<Instant, GlueUpId>> last;
  for (const GlueUpId id : not_started(floor)) {
    const GlueUp& g = floor.glue_ups.at(id);
    if (g.step == floor.shop->builds[g.build.value - 1].done_before + kSteps - 1)
      last.emplace_back(g.times.stage_begin, id);
  }
  std::sort(last.rbegin(), last.rend());
  std::vector<Adopted> wished;
  for (const auto& [start, id] : last) {
    if (wished.size() < 20) wished.push_back({id, start + Minutes{3}, {}});
  }
  const auto plan = adoptable(floor, wished, kNow);
  CHECK(plan && plan->moves.size() == 20);
  return {plan->moves};
}

void run(int on_record) {
  Floor floor = busy_floor({.times = 3, .builds = 80, .steps = kSteps}, kNow);
  know_the_weather(floor);
  put_on_record(floor, on_record);
  const AdoptPlan plan = moves_of(floor);
  const Stamped adopt{{}, {}, kNow, plan};
  fmt::print("{} live, {} on record\n", floor.live_count, floor.glue_ups.size());
  fmt::print("  accept 20 moves:     {}\n", time_of(100, [&] { CHECK(decide(floor, adopt)); }));
  Floor adopted = floor;
  press(adopted, plan);
  const Stamped undo{{}, {}, kNow, UndoPlan{PlanId{adopted.last_plan}}};
  fmt::print("  take them back:      {}\n", time_of(100, [&] { CHECK(decide(adopted, undo)); }));
  std::size_t late = 0;
  for (Build& b : floor.shop->builds) b.due = kNow + hours{24};
  fmt::print("  builds at risk:      {}",
             time_of(20, [&] { late = builds_at_risk(floor, kNow).size(); }));
  fmt::print(", {} of {}\n", late, floor.shop->builds.size());
  Floor empty = floor;
  for (const GlueUpId id : not_started(floor)) {
    if (empty.glue_ups.at(id).progress == Progress::reserved) press(empty, Cancel{id});
  }
  fmt::print("  the same, none reserved: {}",
             time_of(20, [&] { late = builds_at_risk(empty, kNow).size(); }));
  fmt::print(", {} of {}\n", late, floor.shop->builds.size());
}

}  // namespace
}  // namespace squeezeout::bench

int main() {
  squeezeout::bench::run(0);
  squeezeout::bench::run(100'000);
}
