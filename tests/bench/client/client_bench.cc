// Imitates the board of a large shop: 40 kinds of gear, thousands of glue-ups in sight at the widest zoom, laid out as a bench
// lays it out on every change. Goals: 2,000 bars in 3 ms, 10,000 in 8 ms, of one core's time (the column "CPU"). And a frame of
// the board of 60 kinds and 400 live glue-ups while another time is sought for one: never more than 10 ms.

#include <benchmark/benchmark.h>

#include "tests/support/screens/large_shop.h"
#include "tests/support/screens/stage.h"

namespace squeezeout::testing {
namespace {

const Instant kNow = at("2026-11-26T12:00:00Z");

// Records as the server would send them: this measures the screen, not the finder.
Floor busy_floor(int glue_ups) {
  constexpr unsigned kKinds = 40;
  Shop shop = small_shop();
  shop.gear.clear();
  for (unsigned i = 1; i <= kKinds; ++i)
    shop.gear.push_back({.id = GearKindId{i},
                         .key = "k" + std::to_string(i),
                         .name = "Clamp " + std::to_string(i),
                         .stock = 10'000});
  Floor floor;
  apply(floor, ShopLoaded{shop});
  for (const GearKind& k : shop.gear) apply(floor, StockSet{k.id, k.stock, Instant::min()});
  for (int i = 0; i < glue_ups; ++i) {
    const auto n = static_cast<unsigned>(i);
    GlueUp g;
    g.id = GlueUpId{n + 1};
    g.recipe = kBinding, g.builder = kAda, g.bench = kBench1, g.sheet = kCement;
    const Instant begin = kNow - std::chrono::hours{48} + Minutes{n * 7919 % (24 * 60 * 4)};
    g.times = {begin,
               begin + Minutes{5},
               begin + Minutes{9},
               begin + Minutes{69},
               begin + Minutes{74},
               begin + Minutes{200}};
    g.promised = g.times;
    g.held = {{GearKindId{n % kKinds + 1}, 2}};
    g.demand.dwell = Minutes{60};
    if (begin < kNow - Minutes{10}) {
      g.progress = Progress::clamped;
      g.started_at = g.times.open_begin, g.clamped_at = g.times.clamped_begin;
      if (g.times.release_end < kNow)
        g.progress = Progress::waiting, g.off_at = g.times.release_end;
    }
    apply(floor, GlueUpChanged{Change::reserved, g});
  }
  return floor;
}

void board(benchmark::State& state) {
  const Floor floor = busy_floor(static_cast<int>(state.range(0)));
  Stage stage;
  stage.view.screen = Screen::board;
  stage.view.zoom = kZoomCount - 1;
  std::size_t marks = 0;
  for (auto _ : state) {
    const look::Frame frame = stage.frame(floor, kNow);
    marks = frame.marks.size();
    benchmark::DoNotOptimize(marks);
  }
  state.counters["marks"] = static_cast<double>(marks);
}
BENCHMARK(board)->Arg(2'000)->Arg(10'000)->Unit(benchmark::kMillisecond);

void board_by_builder(benchmark::State& state) {
  const Floor floor = busy_floor(static_cast<int>(state.range(0)));
  Stage stage;
  stage.view.screen = Screen::board;
  stage.view.lanes = Lanes::builder;
  stage.view.zoom = kZoomCount - 1;
  for (auto _ : state) benchmark::DoNotOptimize(stage.frame(floor, kNow).marks.size());
}
BENCHMARK(board_by_builder)->Arg(2'000)->Arg(10'000)->Unit(benchmark::kMillisecond);

// Nothing is known yet: the dearest frame of the move.
void other_time(benchmark::State& state) {
  const Floor floor = large_floor(kNow, 560);
  Stage stage;
  stage.view.screen = Screen::board;
  stage.view.zoom = kZoomCount - 1;
  for (const auto& [id, g] : floor.glue_ups)
    if (g.progress == Progress::reserved && g.times.stage_begin > kNow) {
      stage.view.picked = id;
      stage.view.other_time = OtherTime{id, g.times.stage_begin - Minutes{15}, {}};
      break;
    }
  for (auto _ : state) benchmark::DoNotOptimize(stage.frame(floor, kNow).marks.size());
  state.counters["live"] = static_cast<double>(floor.live_count);
}
BENCHMARK(other_time)->Unit(benchmark::kMillisecond);

void wall(benchmark::State& state) {
  const Floor floor = busy_floor(2'000);
  Stage stage;
  stage.view.screen = Screen::wall;
  for (auto _ : state) benchmark::DoNotOptimize(stage.frame(floor, kNow).marks.size());
}
BENCHMARK(wall)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace squeezeout::testing

BENCHMARK_MAIN();
