#include "common/trade/vapour.h"

#include <cmath>

namespace squeezeout {

Result<Pascal, OutOfRange> saturation_pressure(Celsius air) {
  if (const auto no =
          outside("air temperature, C", air.value, 0, 100, "measure the air in degrees Celsius")) {
    return Unexpected{*no};
  }
  const double k = air.value + 273.15;
  return Pascal{std::exp(-5.8002206e3 / k + 1.3914993 - 4.8640239e-2 * k + 4.1764768e-5 * k * k -
                         1.4452093e-8 * k * k * k + 6.5459673 * std::log(k))};
}

}  // namespace squeezeout
