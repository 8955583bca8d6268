#pragma once
// Quantities: a number that knows its unit. Raw numbers live only on the wire, on disk and on the screen.

#include <compare>

namespace squeezeout {

template <class Tag>
struct Quantity {
  double value = 0;
  friend constexpr auto operator<=>(Quantity, Quantity) = default;
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return {a.value + b.value}; }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return {a.value - b.value}; }
  friend constexpr Quantity operator*(Quantity a, double k) { return {a.value * k}; }
};

using Celsius = Quantity<struct CelsiusTag>;
using Newton = Quantity<struct NewtonTag>;
using NewtonMetre = Quantity<struct NewtonMetreTag>;
using Megapascal = Quantity<struct MegapascalTag>;  // pressure, stress: 1 N/mm2
using Gigapascal = Quantity<struct GigapascalTag>;  // modulus of elasticity
using Millimetre = Quantity<struct MillimetreTag>;
using SquareMillimetre = Quantity<struct SquareMillimetreTag>;
using Percent = Quantity<struct PercentTag>;  // 0..100: relative humidity, moisture content
using Density = Quantity<struct DensityTag>;  // kg/m3
using Ppm = Quantity<struct PpmTag>;          // parts of vapour in a million of air, by volume

}  // namespace squeezeout
