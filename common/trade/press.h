#pragma once
// Pressure on a glue line, and how many clamps give it: what is needed is the larger of the two counts.
//   Units    megapascal, newton, millimetre; whole clamps, rounded UP
//   Refuses  OutOfRange: zero, negative, NaN, or no such joint
//   Source   trade/SOURCES.md#pressure_wanted, #count_by_force, #count_by_spread, #pad_crush

#include "common/base/quantity.h"
#include "common/base/result.h"
#include "common/trade/range.h"

namespace squeezeout {

// What a joint in wood of this specific gravity wants, MPa: 0.7 at 0.35 to 1.7 at 0.80 on a straight line, and no more beyond.
//   Shape    low: what small well-fitted joints hold with; value and high: the handbook's. CHECKs: not NaN
[[nodiscard]] Band pressure_wanted(double specific_gravity);

// Clamps of `force` each that press `area` with `pressure`.
[[nodiscard]] Result<int, OutOfRange> clamps_by_force(Megapascal pressure, SquareMillimetre area,
                                                      Newton force);

// Clamps along a line so that no part is bare: force spreads at 45 degrees from a pad `pad` wide through what lies `under` it
// (caul or plate), so each covers pad + 2 under.
[[nodiscard]] Result<int, OutOfRange> clamps_by_spread(Millimetre length, Millimetre pad,
                                                       Millimetre under);

// Mean pressure of `n` clamps. CHECKs: n not negative, an area above 0.
[[nodiscard]] Megapascal pressure_achieved(int n, Newton force, SquareMillimetre area);

// Pressure on side grain at which a pad begins to leave a mark. Wood only: specific gravity 0.1 to 1.3.
[[nodiscard]] Result<Megapascal, OutOfRange> pad_crush(double specific_gravity);

}  // namespace squeezeout
