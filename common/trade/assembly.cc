#include "common/trade/assembly.h"

#include <algorithm>
#include <vector>

namespace squeezeout {

AssemblyPlan plan_assembly(Seconds recipe, std::span<const Seconds> samples) {
  const int n = static_cast<int>(samples.size());
  if (n < kSamplesToLearn) return {recipe, n, false};
  std::vector<Seconds> sorted(samples.begin(), samples.end());
  std::sort(sorted.begin(), sorted.end());
  const std::size_t rank = std::min(sorted.size(), (4 * (sorted.size() + 1) + 4) / 5);
  const Minutes planned = std::chrono::ceil<Minutes>(sorted[rank - 1]);
  return {std::max(planned, Minutes{1}), n, true};
}

OverrunChance overrun_chance(Seconds open, std::span<const Seconds> samples) {
  const auto over =
      std::count_if(samples.begin(), samples.end(), [open](Seconds s) { return s > open; });
  const auto n = samples.size();
  return {static_cast<double>(over + 1) / static_cast<double>(n + 2), static_cast<int>(n)};
}

}  // namespace squeezeout
