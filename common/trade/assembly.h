#pragma once
// How long it takes to get the clamps on, learned from the shop's own glue-ups (spread until clamped, one recipe, one builder).
//   Units    seconds; planned times rounded UP to the minute
//   Limits   few samples say little: show n
//   Source   trade/SOURCES.md#assembly_time, trade/SOURCES.md#overrun_chance

#include <span>

#include "common/time/span.h"

namespace squeezeout {

inline constexpr int kSamplesToLearn = 5;

struct AssemblyPlan {
  Seconds planned;
  int n;         // samples at hand
  bool learned;  // false: fewer than five, so it is the recipe's time, as the recipe gives it
};
// The time that four in five glue-ups keep: of n samples the ceil(0.8 (n + 1))-th smallest, at most the largest.
[[nodiscard]] AssemblyPlan plan_assembly(Seconds recipe, std::span<const Seconds> samples);

struct OverrunChance {
  double chance;  // 0..1, never quite either
  int n;
};
// Chance that the next takes longer than the glue stays open: (k + 1) / (n + 2), k of n took longer (rule of succession).
[[nodiscard]] OverrunChance overrun_chance(Seconds open, std::span<const Seconds> samples);

}  // namespace squeezeout
