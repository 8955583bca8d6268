#include "common/trade/press.h"

#include <algorithm>
#include <cmath>

#include "common/base/check.h"
#include "common/trade/whole.h"

namespace squeezeout {
namespace {

constexpr double kMegapascalPerPsi = 0.006894757;

}  // namespace

Band pressure_wanted(double specific_gravity) {
  CHECK(!std::isnan(specific_gravity));
  const double share = std::clamp((specific_gravity - 0.35) / (0.80 - 0.35), 0.0, 1.0);
  const double handbook = std::lerp(0.7, 1.7, share);
  return {0.1, handbook, handbook};
}

Result<int, OutOfRange> clamps_by_force(Megapascal pressure, SquareMillimetre area, Newton force) {
  if (auto no = outside("pressure, MPa", pressure.value, 0.01, 20, "give 0.1 to 1.7 MPa"))
    return Unexpected{*no};
  if (auto no = outside("glued area, mm2", area.value, 1, 1e7, "measure the joint in millimetres"))
    return Unexpected{*no};
  if (auto no = outside("force of one clamp, N", force.value, 1, 1e5, "give the clamp's force"))
    return Unexpected{*no};
  return whole_up(pressure.value * area.value / force.value);
}

Result<int, OutOfRange> clamps_by_spread(Millimetre length, Millimetre pad, Millimetre under) {
  if (auto no = outside("length of the glue line, mm", length.value, 1, 20000,
                        "measure the joint in millimetres"))
    return Unexpected{*no};
  if (auto no = outside("width of the pad, mm", pad.value, 1, 1000, "measure the clamp's pad"))
    return Unexpected{*no};
  if (auto no = outside("depth under the pad, mm", under.value, 0, 500,
                        "measure from the pad to the glue line; 0 without a caul"))
    return Unexpected{*no};
  return whole_up(length.value / (pad.value + 2 * under.value));
}

Megapascal pressure_achieved(int n, Newton force, SquareMillimetre area) {
  CHECK(n >= 0 && area.value > 0);
  return {n * force.value / area.value};
}

Result<Megapascal, OutOfRange> pad_crush(double specific_gravity) {
  if (auto no = outside("specific gravity of the wood", specific_gravity, 0.1, 1.3,
                        "give a wood's: it holds for no other material"))
    return Unexpected{*no};
  return Megapascal{4630 * std::pow(specific_gravity, 2.25) * kMegapascalPerPsi};
}

}  // namespace squeezeout
