#pragma once
// What the exact search says of its variables: "this side of it is at least that much".

#include "common/schedule/problem.h"

namespace squeezeout::schedule::exact {

using Var = std::uint32_t;
using Side = std::uint32_t;  // 2 * var: the variable itself; 2 * var + 1: its negative
using Index = std::uint32_t;
inline constexpr Index kNone = ~Index{0};

struct Pred {
  Side side = 0;
  Tick least = 0;
  friend bool operator==(const Pred&, const Pred&) = default;
};
inline Pred operator!(Pred p) { return {p.side ^ 1, 1 - p.least}; }

// A variable and a fixed distance from it.
struct View {
  Var var = 0;
  Tick off = 0;
  View operator+(Tick ticks) const { return {var, off + ticks}; }
  friend auto operator<=>(const View&, const View&) = default;
};
inline Pred at_least(View view, Tick tick) { return {2 * view.var, tick - view.off}; }
inline Pred at_most(View view, Tick tick) { return {2 * view.var + 1, view.off - tick}; }

}  // namespace squeezeout::schedule::exact
