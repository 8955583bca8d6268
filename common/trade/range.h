#pragma once
// What a formula refuses: a number outside the range for which it holds. Nothing is ever extrapolated.

#include <cmath>
#include <optional>

#include "common/base/result.h"

namespace squeezeout {

struct OutOfRange {
  const char* what;  // "air temperature, C"
  double value, least, most;
  const char* mend;  // "measure in degrees Celsius"
  friend bool operator==(const OutOfRange&, const OutOfRange&) = default;
};

// The refusal of `value` outside [least, most]; NaN is refused as well.
[[nodiscard]] inline std::optional<OutOfRange> outside(const char* what, double value, double least,
                                                       double most, const char* mend) {
  if (value >= least && value <= most) return std::nullopt;
  return OutOfRange{what, value, least, most, mend};
}

// A figure with how far off it may be. A figure of the craft is never shown without its band.
struct Band {
  double low = 0, value = 0, high = 0;  // low <= value <= high
  friend bool operator==(const Band&, const Band&) = default;
};

// A figure that may be off by a part of itself, either way.
[[nodiscard]] inline Band within(double value, double part) {
  const double off = std::abs(value) * part;
  return {value - off, value, value + off};
}

}  // namespace squeezeout
