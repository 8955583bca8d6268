#pragma once
// Water that leaves a wet surface.
//   Units    Celsius, percent, km/h in; kg of water from a square metre in an hour out
//   Refuses  OutOfRange outside 0..60 C, 0..100 %, 0..40 km/h
//   Limits   measured on fresh concrete; below zero where the air is so moist that water settles on the surface
//   Source   trade/SOURCES.md#evaporation

#include "common/base/quantity.h"
#include "common/base/result.h"
#include "common/trade/range.h"

namespace squeezeout {

// The range of the temperatures; what must answer for any air holds it within.
inline constexpr Celsius kEvaporationLeast{0}, kEvaporationMost{60};

[[nodiscard]] Result<double, OutOfRange> evaporation(Celsius water, Celsius air, Percent humidity,
                                                     double wind_km_h);

// How many times longer water takes to leave than at 20 C and 50 % in still air; between 0.25 and 1.5. Our model when it is
// applied to glue (trade/SOURCES.md#open_time).
inline constexpr double kOpenLeast = 0.25, kOpenMost = 1.5;
[[nodiscard]] Result<double, OutOfRange> open_multiplier(Celsius water, Celsius air,
                                                         Percent humidity);

}  // namespace squeezeout
