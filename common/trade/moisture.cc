#include "common/trade/moisture.h"

#include <algorithm>
#include <cmath>

namespace squeezeout {
namespace {

constexpr double kLevel = 1;                   // % of moisture that may be left
constexpr double kSecondsPerMm2 = 0.4 * 3600;  // of the time constant

std::optional<OutOfRange> outside_linear(const char* what, Percent moisture) {
  return outside(what, moisture.value, 6, 14,
                 "the rule is straight from 6 to 14 % only; dry or moisten the wood first");
}

std::optional<OutOfRange> outside_thickness(Millimetre t) {
  return outside("thickness of the part, mm", t.value, 0.1, 100,
                 "say the thickness in millimetres");
}

}  // namespace

Result<Percent, OutOfRange> equilibrium_moisture(Celsius air, Percent humidity) {
  if (const auto no = outside("air temperature, C", air.value, -1.1, 98.9,
                              "measure the air in degrees Celsius")) {
    return Unexpected{*no};
  }
  if (const auto no = outside("relative humidity, %", humidity.value, 5, 95,
                              "measure the humidity in percent")) {
    return Unexpected{*no};
  }
  const double t = air.value;
  const double h = humidity.value / 100;
  const double w = 349 + 1.29 * t + 0.0135 * t * t;
  const double k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
  const double k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
  const double k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
  const double kh = k * h;
  return Percent{
      1800 / w *
      (kh / (1 - kh) + (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh))};
}

Result<Millimetre, OutOfRange> movement(Millimetre size, double coefficient, Percent from,
                                        Percent to) {
  if (const auto no = outside("size across the grain, mm", size.value, 0, 5000,
                              "say the size in millimetres")) {
    return Unexpected{*no};
  }
  if (const auto no = outside("movement coefficient, per 1 %", coefficient, 0, 0.01,
                              "take it from the material's entry")) {
    return Unexpected{*no};
  }
  if (const auto no = outside_linear("moisture before, %", from)) return Unexpected{*no};
  if (const auto no = outside_linear("moisture after, %", to)) return Unexpected{*no};
  return size * (coefficient * (to - from).value);
}

Result<Percent, OutOfRange> glue_water(double spread_g_m2, double water_share, Density wood,
                                       Millimetre thickness) {
  if (const auto no =
          outside("spread, g/m2", spread_g_m2, 0, 1000, "weigh the glue and divide by the area")) {
    return Unexpected{*no};
  }
  if (const auto no =
          outside("water in the glue, share", water_share, 0, 1, "half is usual: say 0.5")) {
    return Unexpected{*no};
  }
  if (const auto no = outside("density of the wood, kg/m3", wood.value, 50, 1500,
                              "say kilograms in a cubic metre: spruce has 400")) {
    return Unexpected{*no};
  }
  if (const auto no = outside_thickness(thickness)) return Unexpected{*no};
  // g/m2 over kg/m3 and mm: the thousands cancel.
  return Percent{100 * spread_g_m2 * water_share / (wood.value * thickness.value)};
}

Result<Seconds, OutOfRange> levelling_wait(Percent added, Millimetre thickness) {
  if (const auto no =
          outside("moisture added, %", added.value, 0, 100, "check the spread and the thickness")) {
    return Unexpected{*no};
  }
  if (const auto no = outside_thickness(thickness)) return Unexpected{*no};
  if (added.value <= kLevel) return Seconds{0};
  const double s =
      kSecondsPerMm2 * thickness.value * thickness.value * std::log(added.value / kLevel);
  return std::min(Seconds{static_cast<Seconds::rep>(std::ceil(s))}, kMaxClaim);
}

}  // namespace squeezeout
