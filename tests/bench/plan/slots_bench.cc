// Workload: a builder asks for the earliest moment of a usual glue-up while the shop is full. 40 gear kinds; claims at 40, 70 and
// 95 % of the stock round the clock, most of them in the past as in a book that has been kept for a while, the rest without a gap
// for the coming two or six weeks, so that a search cannot run out of the book at once; weekday hours, three builders who are busy here
// and there; a chain of five phases that needs three capabilities, each met by any mix of up to six kinds. Questions are asked one
// at a time. Prints p50 and p99 of single questions in the thread's own CPU time, and how far away the slots are that were found:
// none within 60 days counts as not found.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <random>

#include "common/plan/slot.h"
#include "common/time/rfc3339.h"
#include "tests/support/cpu_clock.h"

namespace squeezeout {
namespace {

constexpr int kKinds = 40, kPieces = 12;
constexpr std::uint32_t kBuilders = 3;

struct FullShop {
  std::vector<GearKind> kinds;
  GearLedger gear;
  BuilderLedger builders;
  Hours hours;
  Instant now = *parse_rfc3339("2026-11-26T10:00:00Z");
  std::map<GlueUpId, Span> fumes;  // none: the workload has no solvent
  double future_days = 0;

  FullShop(int load_percent, std::size_t claims, double most_days)
      : hours(*Zone::find("Europe/Dublin"), weekdays()) {
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
    // A claim takes 6 piece-hours on average; so many days hold them all.
    const double days = static_cast<double>(claims) * 6 /
                        (24.0 * kKinds * kPieces * static_cast<double>(load_percent) / 100);
    future_days = std::min(most_days, days * 0.8);
    const Instant end = now + seconds_of(future_days * 24 * 3600);
    std::vector<Instant> until(kKinds, end - seconds_of(days * 24 * 3600));
    std::uint32_t holder = 0;
    while (gear.size() < claims) {
      for (std::size_t i = 0; i < kKinds && gear.size() < claims; ++i) {
        // Its load from left to right: a claim goes where the least is taken among what begins about now.
        const Seconds length = Minutes{30 + static_cast<int>(dice() % 300)};
        const int count = 1 + static_cast<int>(dice() % 3);
        Instant begin = until[i];
        while (gear.free_over(kinds[i].id, {begin, begin + length}) < count)
          begin = gear.peak(kinds[i].id, {begin, begin + length}).last_end;
        const GlueUpId id{++holder};
        const Span span{begin, begin + length};
        gear.put(Holder::of(id), {{kinds[i].id, count, span}});
        if (holder % 40 == 0)
          builders.put(BuilderId{1 + holder / 40 % kBuilders}, id,
                       {{span.begin, span.begin + Minutes{11}}, {span.end - Minutes{5}, span.end}});
        until[i] += seconds_of(static_cast<double>(length.count() * count) /
                               (kPieces * load_percent / 100.0));
      }
    }
  }
  // What of the stock is taken over the future, in percent.
  double load() const {
    double taken = 0;
    const Instant end = now + seconds_of(future_days * 24 * 3600);
    long samples = 0;
    for (Instant t = now; t < end; t += Minutes{37}) {
      for (const GearKind& k : kinds) taken += gear.usage(k.id).level(t), samples += kPieces;
    }
    return 100 * taken / static_cast<double>(samples);
  }
  static Seconds seconds_of(double s) { return Seconds{static_cast<long>(s)}; }
  static WeekHours weekdays() {
    WeekHours w;
    for (unsigned d = 1; d <= 5; ++d) w.weekday[d] = {{8 * 60, 17 * 60 + 30}};
    return w;
  }
};

SlotQuery usual(std::mt19937& dice, Instant now) {
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
  q.builder = BuilderId{1 + static_cast<std::uint32_t>(dice() % kBuilders)};
  q.after = now;
  return q;
}

double at(const std::vector<double>& sorted, std::size_t percent) {
  return sorted.empty() ? 0 : sorted[std::min(sorted.size() - 1, sorted.size() * percent / 100)];
}

void earliest(benchmark::State& state) {
  const FullShop shop{static_cast<int>(state.range(0)), static_cast<std::size_t>(state.range(1)),
                      static_cast<double>(state.range(2))};
  const SlotView view{shop.gear, shop.builders, shop.kinds, shop.hours, shop.fumes};
  std::mt19937 dice{7};
  std::vector<double> micros, days_off;
  for (auto _ : state) {
    const SlotQuery q = usual(dice, shop.now);
    const double begin = testing::thread_cpu_seconds();
    const auto slot = earliest_slot(view, q);
    micros.push_back((testing::thread_cpu_seconds() - begin) * 1e6);
    if (slot)
      days_off.push_back(std::chrono::duration<double>(slot->times.stage_begin - shop.now).count() /
                         86400);
    benchmark::DoNotOptimize(slot);
  }
  std::sort(micros.begin(), micros.end());
  std::sort(days_off.begin(), days_off.end());
  state.counters["p50_us"] = at(micros, 50);
  state.counters["p99_us"] = at(micros, 99);
  state.counters["found_%"] =
      100.0 * static_cast<double>(days_off.size()) / static_cast<double>(micros.size());
  state.counters["off_p50_d"] = at(days_off, 50);
  state.counters["off_p90_d"] = at(days_off, 90);
  state.counters["off_max_d"] = days_off.empty() ? 0 : days_off.back();
  state.counters["book_d"] = shop.future_days;
  state.counters["load_%"] = shop.load();
  state.counters["claims"] = static_cast<double>(shop.gear.size());
}
BENCHMARK(earliest)
    ->ArgNames({"load", "claims", "ahead"})
    ->ArgsProduct({{40, 70, 95}, {10'000}, {14}})
    ->ArgsProduct({{40, 70, 95}, {100'000}, {14, 42}})
    ->Iterations(2'000)
    ->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace squeezeout

BENCHMARK_MAIN();
