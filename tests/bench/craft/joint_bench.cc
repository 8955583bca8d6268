// Workload: a builder opens the reserve screen and picks a recipe; the joint's whole answer is worked out: 12 glues judged and
// ranked, gear counted among 40 kinds, figures, moisture, cautions. Each recipe of a build in turn (joining to bending, go-bars
// sprung in a deck among them). Prints p50 and p99 of single answers beside the goal of 1 ms.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <memory>

#include "tests/unit/craft/craft_shop.h"

namespace squeezeout {
namespace {

constexpr std::size_t kKinds = 40;
constexpr double kGoalMicros = 1000;

// Kinds of many sizes beside those that will do.
void fill_up(std::vector<GearKind>& gear) {
  while (gear.size() < kKinds) {
    GearKind k = gear[gear.size() % 6];
    k.id = {static_cast<std::uint32_t>(gear.size() + 1)};
    k.key += std::to_string(gear.size());
    k.opening = k.opening + Millimetre{10};
    k.throat = k.throat + Millimetre{5};
    gear.push_back(k);
  }
}

void joint_answer(benchmark::State& state) {
  std::vector<std::unique_ptr<Asked>> asked;
  for (const Recipe& recipe : craft_recipes()) {
    asked.push_back(std::make_unique<Asked>(recipe));
    fill_up(asked.back()->gear);
  }
  std::vector<double> micros;
  for (auto _ : state) {
    const JointQuestion question = asked[micros.size() % asked.size()]->question();
    const auto begin = std::chrono::steady_clock::now();
    const JointAnswer a = answer(question);
    micros.push_back(
        std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - begin)
            .count());
    benchmark::DoNotOptimize(a.figures.data());
  }
  std::sort(micros.begin(), micros.end());
  state.counters["p50_us"] = micros[micros.size() / 2];
  state.counters["p99_us"] = micros[micros.size() * 99 / 100];
  state.counters["goal_us"] = kGoalMicros;
}
BENCHMARK(joint_answer)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace squeezeout

BENCHMARK_MAIN();
