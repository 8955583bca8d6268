#pragma once
// Pressure of water vapour in saturated air, over water.
//   Units    Celsius in, pascal out
//   Refuses  OutOfRange outside 0..100 C
//   Source   trade/SOURCES.md#vapour_pressure

#include "common/base/quantity.h"
#include "common/base/result.h"
#include "common/trade/range.h"

namespace squeezeout {

using Pascal = Quantity<struct PascalTag>;

[[nodiscard]] Result<Pascal, OutOfRange> saturation_pressure(Celsius air);

}  // namespace squeezeout
