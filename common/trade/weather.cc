#include "common/trade/weather.h"

#include <algorithm>
#include <cmath>

#include "common/base/check.h"

namespace squeezeout {
namespace {

constexpr double kSame = 1e-6;  // K: closer is rounding
constexpr double kSecondsPerMm = 8 * 60;
constexpr double kSlowest = 24 * 3600;

double seconds_between(Instant a, Instant b) { return static_cast<double>((b - a).count()); }

// The first point after t.
template <class Points>
auto after(const Points& points, Instant t) {
  return std::upper_bound(points.begin(), points.end(), t,
                          [](Instant x, const auto& p) { return x < p.at; });
}

double between(const std::vector<AirPoint>& points, Instant t, double (*of)(const AirPoint&)) {
  const auto next = after(points, t);
  if (next == points.begin()) return of(points.front());
  if (next == points.end()) return of(points.back());
  const AirPoint& a = *std::prev(next);
  const double share = seconds_between(a.at, t) / seconds_between(a.at, next->at);
  return of(a) + share * (of(*next) - of(a));
}

}  // namespace

Weather::Weather(std::vector<AirPoint> points) : points_(std::move(points)) {
  CHECK(!points_.empty());
  CHECK(std::adjacent_find(points_.begin(), points_.end(), [](const auto& a, const auto& b) {
          return a.at >= b.at;
        }) == points_.end());
}

Weather Weather::steady(Celsius air, Percent humidity) {
  return Weather{{{Instant{}, air, humidity}}};
}

Celsius Weather::air(Instant t) const {
  return {between(points_, t, [](const AirPoint& p) { return p.air.value; })};
}

Percent Weather::humidity(Instant t) const {
  return {between(points_, t, [](const AirPoint& p) { return p.humidity.value; })};
}

Seconds wood_time_constant(Millimetre thickness) {
  if (!(thickness.value > 0)) return Seconds{0};
  const double s = std::min(kSecondsPerMm * thickness.value, kSlowest);
  return Seconds{static_cast<Seconds::rep>(std::lround(s))};
}

Celsius WoodCourse::Stretch::after(double seconds) const {
  const double lag = swing == 0 ? 0 : swing * std::exp(-seconds / time_constant_s);
  return {line + slope_per_s * seconds + lag};
}

// The course between two knots, from some seconds after the first.
WoodCourse::Stretch WoodCourse::stretch(const Knot& a, const Knot& b, double seconds) const {
  const double slope = (b.air - a.air) / seconds_between(a.at, b.at);
  const double behind = slope * time_constant_s_;  // how far wood trails air on a long line
  const double swing = a.wood - a.air + behind;
  return {.until = b.at,
          .line = a.air + slope * seconds - behind,
          .slope_per_s = slope,
          .swing = swing == 0 ? 0 : swing * std::exp(-seconds / time_constant_s_),
          .time_constant_s = time_constant_s_};
}

WoodCourse::WoodCourse(const Weather& weather, Seconds time_constant)
    : time_constant_s_(static_cast<double>(time_constant.count())) {
  CHECK(time_constant >= Seconds{0});
  for (const AirPoint& p : weather.points()) {
    Knot knot{p.at, p.air.value, p.air.value};
    if (!knots_.empty()) {
      const Knot& last = knots_.back();
      const Stretch s = stretch(last, knot, 0);
      const double length = seconds_between(last.at, knot.at);
      knot.wood = time_constant_s_ > 0 ? s.after(length).value : knot.air;
      // A knot of its own where the wood turns, so that it only rises or only falls between two.
      const double trail = s.slope_per_s * time_constant_s_;
      const double turn = s.swing / trail > 1 ? time_constant_s_ * std::log(s.swing / trail) : 0;
      if (turn >= 1 && turn <= length - 1) {
        const double whole = std::round(turn);
        knots_.push_back({last.at + Seconds{static_cast<Seconds::rep>(whole)},
                          last.air + s.slope_per_s * whole, s.after(whole).value});
      }
    }
    knots_.push_back(knot);
  }
  auto settled = std::prev(knots_.end());  // the first knot from which on the air is constant
  while (settled != knots_.begin() && std::prev(settled)->air == settled->air) --settled;
  const double off = std::abs(settled->wood - settled->air);
  if (off > kSame) {
    const double s = std::ceil(time_constant_s_ * std::log(off / kSame));
    steady_from_ = settled->at + Seconds{static_cast<Seconds::rep>(s)};
  } else {
    steady_from_ = settled == knots_.begin() ? Instant::min() : settled->at;
  }
}

WoodCourse::Stretch WoodCourse::stretch(Instant from) const {
  if (from >= steady_from_) return {.until = kNever, .line = knots_.back().air};
  const auto next = after(knots_, from);
  if (next == knots_.begin()) return {.until = next->at, .line = next->air};
  const Knot& a = *std::prev(next);
  const double seconds = seconds_between(a.at, from);
  if (next != knots_.end()) {
    Stretch s = stretch(a, *next, seconds);
    s.until = std::min(s.until, steady_from_);
    return s;
  }
  return stretch(a, {steady_from_, a.air, a.air}, seconds);
}

Celsius WoodCourse::at(Instant t) const { return stretch(t).after(0); }

Celsius WoodCourse::coldest(Span span) const {
  Celsius least = std::min(at(span.begin), at(span.end));
  for (auto k = after(knots_, span.begin); k != knots_.end() && k->at < span.end; ++k)
    least = std::min(least, Celsius{k->wood});
  return least;
}

template <class Holds>
std::optional<Instant> WoodCourse::first(Instant from, Instant end, Holds holds) const {
  for (Instant a = from; a < end;) {
    const Stretch s = stretch(a);
    if (holds(s.after(0).value)) return a;
    if (s.until == kNever) return std::nullopt;
    if (holds(s.after(seconds_between(a, s.until)).value)) {
      Instant no = a, yes = s.until;
      while (yes - no > Seconds{1}) {
        const Instant mid = no + (yes - no) / 2;
        (holds(s.after(seconds_between(a, mid)).value) ? yes : no) = mid;
      }
      return yes < end ? std::optional{yes} : std::nullopt;
    }
    a = s.until;
  }
  return std::nullopt;
}

std::optional<Instant> WoodCourse::first_below(Span span, Celsius least) const {
  return first(span.begin, span.end, [=](double wood) { return wood < least.value - kSame; });
}

std::optional<Instant> WoodCourse::warm_again(Instant from, Celsius least) const {
  const auto warm = [=](double wood) { return wood >= least.value - kSame; };
  if (warm(at(from).value)) return from;
  while (const auto found = first(from, kNever, warm)) {
    from = std::chrono::ceil<Minutes>(*found);
    if (warm(at(from).value)) return from;
  }
  return std::nullopt;
}

}  // namespace squeezeout
