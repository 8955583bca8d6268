// Workload: at 16:00 somebody says how cold the next nights will be, in a shop with 400 glue-ups reserved over the coming days; and
// builders who look at what a joint needs, as the reserve screen asks on every change.
//   The shop is the demo's, with so many of its builders and pieces of gear that 400 find room: amply (the longer dwells fit), or
//   just so (they push others out, and each of those searches a new place).
//   Light air: one reading and a forecast of a few corners. Heavy air, as a logger and a weather service give it: 576 readings of
//   the last two days, 336 hours of forecast, and half of the 400 are steps of builds, which wait for each other.
// Goals: the plan follows a new forecast within 50 ms; joint_answer on the demo shop within 1 ms. `nothing_new` is the same
// re-evaluation when the plan follows already: what looking alone costs.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <random>

#include "common/floor/apply.h"
#include "common/floor/ask.h"
#include "common/floor/decide.h"
#include "common/floor/weather.h"
#include "common/time/rfc3339.h"
#include "proto/shop_file.h"
#include "server/demo/week.h"

namespace squeezeout {
namespace {

constexpr std::size_t kReserved = 400;
const Instant kNow = *parse_rfc3339("2026-11-23T16:00:00Z");  // a Monday

Shop demo_shop() { return read_shop_file("demo shop", demo_shop_text()).value(); }

// The demo's shop with `times` its builders, gear and builds.
Shop large_shop(unsigned times) {
  Shop shop = demo_shop();
  const std::vector<Builder> six = shop.builders;
  for (unsigned i = 1; i < times; ++i)
    for (Builder b : six) {
      b.id = BuilderId{static_cast<std::uint32_t>(shop.builders.size() + 1)};
      b.key += std::to_string(i);
      shop.builders.push_back(std::move(b));
    }
  for (GearKind& kind : shop.gear) kind.stock *= static_cast<int>(times);
  const std::vector<Build> few = shop.builds;
  for (unsigned i = 1; i < times; ++i)
    for (Build b : few) {
      b.id = BuildId{static_cast<std::uint32_t>(shop.builds.size() + 1)};
      b.key += "-" + std::to_string(i);
      shop.builds.push_back(std::move(b));
    }
  return shop;
}

void press(Floor& floor, Body body) {
  CHECK(step(floor, {{}, {}, kNow, std::move(body)}).answer.has_value());
}

// A day's course, 13 C before dawn and 21 C in the afternoon.
AirPoint day_and_night(Instant at) {
  const auto hour = std::chrono::duration<double, std::ratio<3600>>(at.time_since_epoch()).count();
  return {at, {17 + 4 * std::cos((hour - 16) * std::numbers::pi / 12)}, {46}};
}

std::vector<AirPoint> course(Instant first, Seconds apart, int points) {
  std::vector<AirPoint> out;
  for (int i = 0; i < points; ++i) out.push_back(day_and_night(first + i * apart));
  return out;
}

// As a logger wrote it, every five minutes of the last two days; the last reading is now.
std::vector<AirPoint> logged() { return course(kNow - 575 * Minutes{5}, Minutes{5}, 576); }
// As a weather service gives it.
std::vector<AirPoint> hourly() { return course(kNow + Minutes{1}, std::chrono::hours{1}, 336); }

// 400 glue-ups of all recipes with glue, by all builders, wanted at any hour of the next four days. None of a build.
Floor full_floor(unsigned times) {
  Floor floor;
  press(floor, LoadShop{large_shop(times)});
  press(floor, ClimateReading{{21}, {46}});
  std::mt19937 dice{20261123};
  while (floor.live_count < kReserved) {
    const Shop& shop = *floor.shop;
    Reserve wanted;
    wanted.recipe = shop.recipes[dice() % shop.recipes.size()].id;
    wanted.builder = shop.builders[dice() % shop.builders.size()].id;
    wanted.after = kNow + Minutes{dice() % (4 * 24 * 60)};
    if (floor.recipe(wanted.recipe)->glues.empty()) continue;
    (void)step(floor, {{}, {}, kNow, wanted});
  }
  return floor;
}

// The same in heavy air: every other one the next step of a build.
Floor heavy_floor(unsigned times) {
  Floor floor;
  press(floor, LoadShop{large_shop(times)});
  press(floor, ReadClimate{logged()});
  std::mt19937 dice{20261123};
  std::map<BuildId, int> next;
  for (const Build& b : floor.shop->builds) next[b.id] = b.done_before;
  for (unsigned i = 0; floor.live_count < kReserved; ++i) {
    const Shop& shop = *floor.shop;
    Reserve wanted;
    wanted.recipe = shop.recipes[dice() % shop.recipes.size()].id;
    wanted.builder = shop.builders[dice() % shop.builders.size()].id;
    wanted.after = kNow + Minutes{dice() % (4 * 24 * 60)};
    const Build& build = shop.builds[dice() % shop.builds.size()];
    const bool chained = i % 2 == 0 && next[build.id] < static_cast<int>(build.steps.size());
    if (chained) {
      wanted.build = build.id;
      wanted.step = next[build.id];
      wanted.recipe = build.steps[static_cast<std::size_t>(wanted.step)];
    } else if (floor.recipe(wanted.recipe)->glues.empty()) {
      continue;
    }
    if (step(floor, {{}, {}, kNow, wanted}).answer && chained) ++next[build.id];
  }
  CHECK(floor.readings.size() == 576);
  return floor;
}

// A week of nights of 13 C, the days as warm as now.
std::vector<AirPoint> cold_nights() {
  std::vector<AirPoint> points{{kNow, {21}, {46}}};
  for (int night = 0; night < 7; ++night) {
    const Instant evening = kNow + std::chrono::hours{24 * night + 2};
    for (const auto& [hours, celsius] : {std::pair{0, 21.0}, {6, 13.0}, {13, 13.0}, {15, 21.0}})
      points.push_back({evening + std::chrono::hours{hours}, {celsius}, {46}});
  }
  return points;
}

void quantiles(benchmark::State& state, std::vector<double> took, const char* p50,
               const char* p99) {
  std::sort(took.begin(), took.end());
  state.counters[p50] = took[took.size() / 2];
  state.counters[p99] = took[took.size() * 99 / 100];
}

template <class F>
double millis(F f) {
  const auto begin = std::chrono::steady_clock::now();
  f();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin)
      .count();
}

void follow(benchmark::State& state, const Floor& before) {
  std::vector<double> took;
  std::size_t longer = 0, moved = 0, lost = 0, chained = 0;
  for (auto _ : state) {
    Floor floor = before;
    std::vector<Event> events;
    took.push_back(millis([&] { events = follow_weather(floor, kNow); }));
    state.SetIterationTime(took.back() / 1000);
    longer = moved = lost = chained = 0;
    for (const auto& [id, g] : floor.glue_ups) {
      const GlueUp& had = before.glue_ups.at(id);
      longer += g.demand.dwell > had.demand.dwell;
      moved += g.times.stage_begin != had.times.stage_begin;
      lost += g.progress == Progress::displaced;
      chained += g.build ? 1U : 0U;
    }
    CHECK(floor.live_count == kReserved);
  }
  quantiles(state, took, "p50_ms", "p99_ms");
  state.counters["longer"] = static_cast<double>(longer);
  state.counters["moved"] = static_cast<double>(moved);
  state.counters["lost"] = static_cast<double>(lost);
  state.counters["chained"] = static_cast<double>(chained);
}

void new_forecast(benchmark::State& state) {
  Floor floor = full_floor(static_cast<unsigned>(state.range(0)));
  squeezeout::apply(floor, ForecastSet{kNow, cold_nights()});
  follow(state, floor);
}
BENCHMARK(new_forecast)
    ->Name("new_forecast/ample")
    ->Arg(20)
    ->UseManualTime()
    ->Iterations(30)
    ->Unit(benchmark::kMillisecond);
BENCHMARK(new_forecast)
    ->Name("new_forecast/tight")
    ->Arg(3)
    ->UseManualTime()
    ->Iterations(30)
    ->Unit(benchmark::kMillisecond);

void new_heavy_forecast(benchmark::State& state) {
  Floor floor = heavy_floor(static_cast<unsigned>(state.range(0)));
  squeezeout::apply(floor, ForecastSet{kNow, hourly()});
  follow(state, floor);
}
BENCHMARK(new_heavy_forecast)
    ->Name("new_heavy_forecast/ample")
    ->Arg(20)
    ->UseManualTime()
    ->Iterations(10)
    ->Unit(benchmark::kMillisecond);
BENCHMARK(new_heavy_forecast)
    ->Name("new_heavy_forecast/tight")
    ->Arg(3)
    ->UseManualTime()
    ->Iterations(10)
    ->Unit(benchmark::kMillisecond);

void nothing_new(benchmark::State& state) {
  Floor floor = full_floor(20);
  squeezeout::apply(floor, ForecastSet{kNow, cold_nights()});
  (void)follow_weather(floor, kNow);
  follow(state, floor);
}
BENCHMARK(nothing_new)->UseManualTime()->Iterations(30)->Unit(benchmark::kMillisecond);

void joints(benchmark::State& state, const Floor& floor) {
  std::mt19937 dice{7};
  std::vector<double> took;
  for (auto _ : state) {
    Reserve wanted;
    const Recipe& recipe = floor.shop->recipes[dice() % floor.shop->recipes.size()];
    wanted.recipe = recipe.id;
    wanted.builder = floor.shop->builders[dice() % floor.shop->builders.size()].id;
    if (!recipe.glues.empty()) wanted.sheet = recipe.glues[dice() % recipe.glues.size()];
    took.push_back(1000 * millis([&] {
                     const auto answer =
                         joint_answer(floor, wanted, kNow + Minutes{dice() % 1'440}, kNow);
                     CHECK(answer.has_value());
                     benchmark::DoNotOptimize(answer->figures.data());
                   }));
  }
  quantiles(state, took, "p50_us", "p99_us");
}

Floor demo_floor() {
  Floor floor;
  for (const Stamped& command : demo_week(demo_shop(), kNow)) (void)step(floor, command);
  return floor;
}

void a_joint(benchmark::State& state) {
  Floor floor = demo_floor();
  squeezeout::apply(floor, ForecastSet{kNow, cold_nights()});
  joints(state, floor);
}
BENCHMARK(a_joint)->Iterations(5'000)->Unit(benchmark::kMicrosecond);

void a_joint_in_heavy_air(benchmark::State& state) {
  Floor floor = demo_floor();
  for (const AirPoint& p : logged()) squeezeout::apply(floor, ClimateRead{p.at, p.air, p.humidity});
  squeezeout::apply(floor, ForecastSet{kNow, hourly()});
  joints(state, floor);
}
BENCHMARK(a_joint_in_heavy_air)->Iterations(1'000)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace squeezeout

BENCHMARK_MAIN();
