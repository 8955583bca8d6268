#pragma once
// Whole pieces from a quotient, rounded up.

#include <algorithm>
#include <cmath>

#include "common/base/check.h"

namespace squeezeout {

// At least 1. A quotient that is a whole number but for the rounding of the division (1e-12 of it) stays that number.
[[nodiscard]] inline int whole_up(double quotient) {
  CHECK(quotient >= 0 && quotient < 2e9);
  return std::max(1, static_cast<int>(std::ceil(quotient * (1 - 1e-12))));
}

}  // namespace squeezeout
