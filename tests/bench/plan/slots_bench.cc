// Workload: a builder asks for the earliest moment of a usual glue-up while the shop is full. 40 gear kinds, 10,000 claims on
// record over the past and the coming weeks at 40, 70 and 95 % of the stock, weekday hours, a chain of five phases that needs up
// to six kinds. Prints p50 and p99 of single queries, as PLANNER-like questions are asked one at a time.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <random>

#include "common/plan/slot.h"
#include "common/time/rfc3339.h"

namespace squeezeout {
namespace {

constexpr int kKinds = 40, kPieces = 12;

struct FullShop {
  std::vector<GearKind> kinds;
  GearLedger gear;
  BuilderLedger builders;
  Hours hours;
  Instant now = *parse_rfc3339("2026-11-26T10:00:00Z");
  std::map<GlueUpId, Span> fumes;  // none: the workload has no solvent
  std::size_t claims = 0;

  FullShop(int load_percent, std::size_t wanted) : hours(*Zone::find("Europe/Dublin"), weekdays()) {
    for (int i = 0; i < kKinds; ++i) {
      GearKind k{.id = GearKindId{static_cast<std::uint32_t>(i + 1)},
                 .key = std::to_string(i),
                 .name = "",
                 .stock = kPieces};
      k.gear_class = static_cast<GearClass>(i % kGearClasses);
      k.throat = {static_cast<double>(10 * (i % 8))};
      kinds.push_back(k);
      gear.set_stock(k.id, k.stock);
    }
    std::mt19937 dice{20261126};
    // Each kind is filled to its load from the past into the future until there are enough claims.
    std::vector<Instant> until(kKinds, now - std::chrono::hours{24 * 5});
    std::uint32_t holder = 0;
    for (std::size_t i = 0; claims < wanted; i = (i + 1) % kKinds) {
      const Seconds length = Minutes{30 + static_cast<int>(dice() % 300)};
      const int count = 1 + static_cast<int>(dice() % 3);
      const Span span{until[i], until[i] + length};
      if (gear.free_over(kinds[i].id, span) >= count) {
        gear.put(Holder::of(GlueUpId{++holder}), {{kinds[i].id, count, span}});
        ++claims;
      }
      // So many piece-seconds were taken; move on by what keeps the load.
      until[i] += Seconds{static_cast<long>(static_cast<double>(length.count() * count) /
                                            (kPieces * load_percent / 100.0))};
    }
  }
  static WeekHours weekdays() {
    WeekHours w;
    for (unsigned d = 1; d <= 5; ++d) w.weekday[d] = {{8 * 60, 17 * 60 + 30}};
    return w;
  }
};

void earliest(benchmark::State& state) {
  const FullShop shop{static_cast<int>(state.range(0)), static_cast<std::size_t>(state.range(1))};
  const SlotView view{shop.gear, shop.builders, shop.kinds, shop.hours, shop.fumes};
  std::mt19937 dice{7};
  std::vector<double> micros;
  long found = 0;
  for (auto _ : state) {
    SlotQuery q;
    q.demand = {.stage = Minutes{5},
                .assembly = Minutes{6},
                .dwell = Minutes{30 + static_cast<int>(dice() % 180)},
                .release = Minutes{5},
                .wait = std::chrono::hours{3},
                .open_limit = Minutes{10}};
    for (int n = 0; n < 3; ++n) {
      GearNeed need{.gear_class = static_cast<GearClass>(dice() % kGearClasses),
                    .count = 1 + static_cast<int>(dice() % 6)};
      need.throat = {static_cast<double>(10 * (dice() % 6))};
      q.demand.needs.push_back(need);
    }
    q.builder = BuilderId{1};
    q.after = shop.now;
    const auto begin = std::chrono::steady_clock::now();
    const auto slot = earliest_slot(view, q);
    micros.push_back(
        std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - begin)
            .count());
    found += slot.has_value();
    benchmark::DoNotOptimize(slot);
  }
  std::sort(micros.begin(), micros.end());
  state.counters["p50_us"] = micros[micros.size() / 2];
  state.counters["p99_us"] = micros[micros.size() * 99 / 100];
  state.counters["found_%"] =
      100.0 * static_cast<double>(found) / static_cast<double>(micros.size());
  state.counters["claims"] = static_cast<double>(shop.claims);
}
BENCHMARK(earliest)
    ->Args({40, 10'000})
    ->Args({70, 10'000})
    ->Args({95, 10'000})
    ->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace squeezeout

BENCHMARK_MAIN();
