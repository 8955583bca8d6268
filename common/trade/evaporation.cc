#include "common/trade/evaporation.h"

#include <algorithm>
#include <cmath>

namespace squeezeout {
namespace {

std::optional<OutOfRange> outside_temperature(const char* what, Celsius t) {
  return outside(what, t.value, kEvaporationLeast.value, kEvaporationMost.value,
                 "measure in degrees Celsius; work where it does not freeze");
}

}  // namespace

Result<double, OutOfRange> evaporation(Celsius water, Celsius air, Percent humidity,
                                       double wind_km_h) {
  if (const auto no = outside_temperature("temperature of the wet surface, C", water))
    return Unexpected{*no};
  if (const auto no = outside_temperature("air temperature, C", air)) return Unexpected{*no};
  if (const auto no = outside("relative humidity, %", humidity.value, 0, 100,
                              "measure the humidity in percent")) {
    return Unexpected{*no};
  }
  if (const auto no = outside("wind, km/h", wind_km_h, 0, 40, "say 0 for still air indoors"))
    return Unexpected{*no};
  return 5 *
         (std::pow(water.value + 18, 2.5) - humidity.value / 100 * std::pow(air.value + 18, 2.5)) *
         (wind_km_h + 4) * 1e-6;
}

Result<double, OutOfRange> open_multiplier(Celsius water, Celsius air, Percent humidity) {
  static const double reference = *evaporation({20}, {20}, {50}, 0);
  const auto now = evaporation(water, air, humidity, 0);
  if (!now) return now;
  if (*now * kOpenMost <= reference) return kOpenMost;  // slow, or none at all
  return std::max(kOpenLeast, reference / *now);
}

}  // namespace squeezeout
