#pragma once
// The largest figures that a shop may hold: far above what there is, low enough that no formula overflows.

namespace squeezeout {

inline constexpr double kMostMillimetres = 10'000;
inline constexpr double kMostNewtons = 100'000;
inline constexpr double kMostNewtonMetres = 1'000;
inline constexpr double kMostGigapascals = 1'000;
inline constexpr double kMostMegapascals = 10'000;

}  // namespace squeezeout
