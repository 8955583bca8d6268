#include "common/trade/moisture.h"

namespace squeezeout {

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

}  // namespace squeezeout
