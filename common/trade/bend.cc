#include "common/trade/bend.h"

#include <cmath>

namespace squeezeout {

Result<Percent, OutOfRange> bend_strain(Millimetre thickness, Millimetre inner_radius) {
  if (auto no = outside("thickness of the side, mm", thickness.value, 0.1, 100, "measure the side"))
    return Unexpected{*no};
  if (auto no = outside("inner radius of the bend, mm", inner_radius.value, 1, 10000,
                        "measure the tightest part of the outline"))
    return Unexpected{*no};
  return Percent{100 * thickness.value / (2 * inner_radius.value + thickness.value)};
}

Touch touch(Celsius surface) {
  if (surface <= kSafeToTouch) return Touch::safe;
  return surface < kHotToTouch ? Touch::warm : Touch::hot;
}

Result<Seconds, OutOfRange> safe_to_touch_in(Celsius now, Celsius air, Seconds time_constant) {
  if (auto no = outside("temperature of the form, C", now.value, -30, 500, "measure the form"))
    return Unexpected{*no};
  if (auto no = outside("air temperature, C", air.value, -30, kSafeToTouch.value - 1,
                        "let it cool in cooler air"))
    return Unexpected{*no};
  const double constant = static_cast<double>(time_constant.count());
  if (auto no = outside("time constant of the form, s", constant, 1, 86400,
                        "time how long it takes to lose two thirds of its warmth"))
    return Unexpected{*no};
  if (now <= kSafeToTouch) return Seconds{0};
  const double share = (now - air).value / (kSafeToTouch - air).value;
  return Seconds{static_cast<Seconds::rep>(std::ceil(constant * std::log(share)))};
}

}  // namespace squeezeout
