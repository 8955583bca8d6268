#pragma once
// Moisture that wood comes to in steady air ("equilibrium moisture content").
//   Units    Celsius and relative humidity in; moisture content in percent of dry mass out
//   Refuses  OutOfRange outside -1.1..98.9 C and 5..95 %; never extrapolates
//   Limits   no species effect, no hysteresis
//   Source   trade/SOURCES.md#emc

#include "common/base/quantity.h"
#include "common/base/result.h"
#include "common/trade/range.h"

namespace squeezeout {

[[nodiscard]] Result<Percent, OutOfRange> equilibrium_moisture(Celsius air, Percent humidity);

}  // namespace squeezeout
