#include "common/trade/elastica.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "common/base/check.h"
#include "common/trade/whole.h"

namespace squeezeout {
namespace {

using std::numbers::pi;

// Flatter, the gap decides to a hair whether it holds; beyond a right angle the ends slip.
constexpr double kFlattest = 2 * pi / 180;
constexpr double kSteepest = 90 * pi / 180;
constexpr double kHair = 1e-9;  // of a limit: a length from length_for() fits its own gap

// Second moment of area about the smaller side, mm4.
double second_moment(const Rod& r) {
  const auto [thin, wide] = std::minmax(r.width.value, r.thickness.value);
  return wide * thin * thin * thin / 12;
}
double stiffness_n_mm2(const Rod& r) { return r.modulus.value * 1000 * second_moment(r); }

std::optional<OutOfRange> no_section(const Rod& r) {
  if (auto no = outside("width of the bar, mm", r.width.value, 0.5, 100, "measure the bar"))
    return no;
  if (auto no = outside("thickness of the bar, mm", r.thickness.value, 0.5, 100, "measure the bar"))
    return no;
  return outside("modulus of the bar, GPa", r.modulus.value, 0.5, 250,
                 "give 8 to 16 for wood along the grain, about 40 for glass fibre");
}

// The slope, from the flattest to the steepest, at which the falling function `f` comes down to `target`.
template <class F>
double slope_where(const F& f, double target) {
  double low = kFlattest, high = kSteepest;
  for (;;) {
    const double mid = std::midpoint(low, high);
    if (mid <= low || mid >= high) return mid;  // neighbours: no closer answer exists
    (f(mid) > target ? low : high) = mid;
  }
}

double chord(double alpha) { return elastica(alpha).chord; }

// Force in a given gap as part of pi^2 E I / gap^2: P / Pcr times (chord / length)^2.
double force_in_gap(double alpha) {
  const Elastica e = elastica(alpha);
  return e.load * e.chord * e.chord;
}

}  // namespace

Elastica elastica(double alpha_radians) {
  CHECK(alpha_radians >= 0 && alpha_radians < pi);
  const double p = std::sin(alpha_radians / 2);
  const double k = std::comp_ellint_1(p);
  const double e = std::comp_ellint_2(p);
  const double root = 2 * k / pi;
  return {root * root, 2 * e / k - 1, p / k};
}

Newton critical_load(const Rod& r) {
  return {pi * pi * stiffness_n_mm2(r) / (r.length.value * r.length.value)};
}

Result<Sprung, OutOfRange> sprung(const Rod& r, Millimetre gap) {
  if (auto no = no_section(r)) return Unexpected{*no};
  if (auto no = outside("length of the bar, mm", r.length.value, 50, 5000, "measure the bar"))
    return Unexpected{*no};
  const double least = r.length.value * chord(kSteepest);
  const double most = r.length.value * chord(kFlattest);
  if (outside("", gap.value, least * (1 - kHair), most * (1 + kHair), "")) {
    return Unexpected{OutOfRange{"gap for the bar, mm", gap.value, least, most,
                                 gap.value > most ? "take a longer bar" : "take a shorter bar"}};
  }
  const double alpha = slope_where(chord, gap.value / r.length.value);
  const Elastica e = elastica(alpha);
  const double force = critical_load(r).value * e.load;
  const double bow = r.length.value * e.bow;
  const double half = std::min(r.width.value, r.thickness.value) / 2;
  return Sprung{{force}, {force * bow * half / second_moment(r)}, {bow}, alpha * 180 / pi};
}

Result<Millimetre, OutOfRange> length_for(const Rod& section, Millimetre gap, Newton force) {
  if (auto no = no_section(section)) return Unexpected{*no};
  if (auto no = outside("gap for the bar, mm", gap.value, 50, 2000, "measure between the decks"))
    return Unexpected{*no};
  const double whole = pi * pi * stiffness_n_mm2(section) / (gap.value * gap.value);
  const double least = whole * force_in_gap(kSteepest);
  const double most = whole * force_in_gap(kFlattest);
  if (auto no =
          outside("force of the bar, N", force.value, least, most,
                  force.value > most ? "take a thicker bar, or more bars" : "take a thinner bar")) {
    return Unexpected{*no};
  }
  return Millimetre{gap.value / chord(slope_where(force_in_gap, force.value / whole))};
}

Result<int, OutOfRange> bars_for(Newton wanted, const Rod& r, Millimetre gap) {
  if (auto no = outside("force wanted, N", wanted.value, 0, 1e6, "give the force in newtons"))
    return Unexpected{*no};
  const Result<Sprung, OutOfRange> one = sprung(r, gap);
  if (!one) return Unexpected{one.error()};
  const double bars = wanted.value / one->force.value;
  if (auto no = outside("bars", bars, 0, 10000, "take a stiffer bar")) return Unexpected{*no};
  return whole_up(bars);
}

}  // namespace squeezeout
