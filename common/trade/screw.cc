#include "common/trade/screw.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numbers>
#include <utility>

#include "common/base/check.h"

namespace squeezeout {
namespace {

using std::numbers::pi;

constexpr double kMetricHalfAngle = 30;
constexpr double kMetricFromMean = 0.6495;

double lead(const Screw& s) { return s.starts * s.pitch.value; }

std::optional<OutOfRange> no_screw(const Screw& s) {
  if (auto no = outside("diameter of the screw, mm", s.diameter.value, 1, 200,
                        "measure over the thread's crests"))
    return no;
  if (auto no = outside("pitch of the screw, mm", s.pitch.value, 0.1, s.diameter.value,
                        "measure from crest to crest"))
    return no;
  if (auto no = outside("starts of the thread", s.starts, 1, 12, "count its beginnings")) return no;
  if (auto no = outside("lead of the screw, mm", lead(s), 0.1, pi * mean_diameter(s).value,
                        "measure how far one turn goes"))
    return no;
  if (auto no = outside("friction of the thread", s.friction, 0, 0.5, "give 0.10 to 0.20"))
    return no;
  if (auto no = outside("friction of the pad", s.collar_friction, 0, 0.5, "give 0.10 to 0.20"))
    return no;
  if (auto no = outside("mean diameter of the pad, mm", s.collar_mean_diameter.value, 0, 400,
                        "measure the pad; 0 without one"))
    return no;
  return outside("half angle of the thread, degrees", s.half_angle_degrees, 0, 45,
                 "give 0 for square, 15 for trapezoidal, 30 for metric");
}

enum class Turn { up, down };

// Newton millimetres of torque for one newton.
double torque_per_newton(const Screw& s, Turn turn) {
  const double dm = mean_diameter(s).value;
  const double f = s.friction / std::cos(s.half_angle_degrees * pi / 180);
  const double l = lead(s);
  const double thread = turn == Turn::up ? (l + pi * f * dm) / (pi * dm - f * l)
                                         : (pi * f * dm - l) / (pi * dm + f * l);
  return dm / 2 * thread + s.collar_friction * s.collar_mean_diameter.value / 2;
}

Result<NewtonMetre, OutOfRange> torque(const Screw& s, Newton force, Turn turn) {
  if (auto no = no_screw(s)) return Unexpected{*no};
  if (auto no = outside("force, N", force.value, 0, 1e6, "give the force in newtons"))
    return Unexpected{*no};
  return NewtonMetre{force.value * torque_per_newton(s, turn) / 1000};
}

// Takes `mark` off the front of `text`.
bool take(std::string_view& text, std::string_view mark) {
  if (!text.starts_with(mark)) return false;
  text.remove_prefix(mark.size());
  return true;
}
std::optional<double> take_number(std::string_view& text) {
  double number = 0;
  const auto [rest, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{}) return std::nullopt;
  text.remove_prefix(static_cast<std::size_t>(rest - text.data()));
  return number;
}

// Pitch of the coarse metric series.
std::optional<double> coarse_pitch(double diameter) {
  static constexpr std::array<std::pair<double, double>, 12> kCoarse{{{3, 0.5},
                                                                      {4, 0.7},
                                                                      {5, 0.8},
                                                                      {6, 1},
                                                                      {8, 1.25},
                                                                      {10, 1.5},
                                                                      {12, 1.75},
                                                                      {14, 2},
                                                                      {16, 2},
                                                                      {18, 2.5},
                                                                      {20, 2.5},
                                                                      {24, 3}}};
  for (const auto& [d, p] : kCoarse) {
    if (d == diameter) return p;
  }
  return std::nullopt;
}

// What follows the letters: "12x3", "14x6P3", "6".
std::optional<Screw> sized(std::string_view text, double half_angle_degrees) {
  const std::optional<double> diameter = take_number(text);
  if (!diameter) return std::nullopt;
  std::optional<double> first, second;
  if (take(text, "x")) {
    first = take_number(text);
    if (!first) return std::nullopt;
    if (take(text, "P")) {
      second = take_number(text);
      if (!second) return std::nullopt;
    }
  } else if (half_angle_degrees == kMetricHalfAngle) {
    first = coarse_pitch(*diameter);
  }
  if (!first || !text.empty()) return std::nullopt;

  Screw screw{.diameter = {*diameter},
              .pitch = {second.value_or(*first)},
              .collar_mean_diameter = {*diameter * 5 / 6},
              .half_angle_degrees = half_angle_degrees};
  const double starts = *first / screw.pitch.value;
  if (!(starts >= 1 && starts <= 12 && std::abs(starts - std::round(starts)) < 1e-9))
    return std::nullopt;
  screw.starts = static_cast<int>(std::round(starts));
  if (no_screw(screw)) return std::nullopt;
  return screw;
}

}  // namespace

Millimetre mean_diameter(const Screw& s) {
  return {s.diameter.value -
          s.pitch.value * (s.half_angle_degrees == kMetricHalfAngle ? kMetricFromMean : 0.5)};
}

Result<NewtonMetre, OutOfRange> torque_up(const Screw& s, Newton force) {
  return torque(s, force, Turn::up);
}

Result<NewtonMetre, OutOfRange> torque_down(const Screw& s, Newton force) {
  return torque(s, force, Turn::down);
}

Result<Newton, OutOfRange> force_of(const Screw& s, NewtonMetre torque) {
  if (auto no = no_screw(s)) return Unexpected{*no};
  if (auto no = outside("torque on the handle, N m", torque.value, 0, 1000,
                        "give the torque in newton metres: a hand gives 2 to 10"))
    return Unexpected{*no};
  return Newton{torque.value * 1000 / torque_per_newton(s, Turn::up)};
}

double efficiency(const Screw& s) {
  CHECK(!no_screw(s));
  return lead(s) / (2 * pi * torque_per_newton(s, Turn::up));
}

Band force_band(const Screw& s, NewtonMetre torque) {
  Screw slick = s, stiff = s;
  slick.friction = std::min(s.friction, 0.10);
  stiff.friction = std::max(s.friction, 0.20);
  if (s.collar_friction > 0) {
    slick.collar_friction = std::min(s.collar_friction, 0.10);
    stiff.collar_friction = std::max(s.collar_friction, 0.20);
  }
  return {force_of(stiff, torque).value().value, force_of(s, torque).value().value,
          force_of(slick, torque).value().value};
}

std::optional<Screw> screw_of(std::string_view thread) {
  if (take(thread, "Tr")) return sized(thread, 15);
  if (take(thread, "M")) return sized(thread, kMetricHalfAngle);
  return std::nullopt;
}

}  // namespace squeezeout
