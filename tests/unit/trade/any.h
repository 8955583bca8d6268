#pragma once
// Numbers for properties: even over a range from the first try, and shrunk to its low end (rapidcheck's own bunch at 0).

#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace squeezeout {

inline rc::Gen<double> between(double low, double high) {
  constexpr std::uint32_t kSteps = 1'000'000;
  const auto step =
      rc::gen::resize(rc::kNominalSize, rc::gen::inRange<std::uint32_t>(0, kSteps + 1));
  return rc::gen::map(
      step, [low, high](auto i) { return std::lerp(low, high, static_cast<double>(i) / kSteps); });
}
// Even over the magnitudes from `low`, above 0.
inline rc::Gen<double> across(double low, double high) {
  return rc::gen::map(between(0, 1), [low, high](double share) {
    return std::min(high, std::max(low, low * std::pow(high / low, share)));
  });
}

}  // namespace squeezeout
