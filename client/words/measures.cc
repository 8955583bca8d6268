// Temperatures and lengths in the units that the shop reads.

#include <fmt/format.h>

#include <cmath>
#include <numeric>

#include "client/words/words.h"

namespace squeezeout::words {
namespace {

constexpr double kInch = 25.4;  // mm
constexpr int kParts = 16;      // of an inch
constexpr double kSmallest = kInch / kParts;

Display display(const Context& c) { return c.floor.shop ? c.floor.shop->display : Display{}; }

bool fahrenheit(const Context& c) { return display(c).degrees == Display::Degrees::fahrenheit; }

double in_unit(const Context& c, Celsius t) {
  return fahrenheit(c) ? t.value * 9 / 5 + 32 : t.value;
}

// What so many tenths of the unit are in Celsius: of an exact tenth exactly what was typed.
double celsius_of(const Context& c, double tenths) {
  return fahrenheit(c) ? (tenths - 320) / 18 : tenths / 10;
}

std::string in_tenths(const Context& c, double tenths) {
  return fmt::format("{:g} °{}", tenths / 10 + 0.0, fahrenheit(c) ? 'F' : 'C');
}

double nearest_tenth(const Context& c, Celsius t) { return std::round(in_unit(c, t) * 10); }

// Thinner than a part of an inch: thousandths.
std::string inches(Millimetre m, double parts) {
  if (m.value > 0 && m.value < kSmallest) return fmt::format("{:.3f} in", m.value / kInch);
  const auto all = static_cast<int>(parts);
  const int whole = all / kParts, over = all % kParts, by = std::gcd(over, kParts);
  if (over == 0) return fmt::format("{} in", whole);
  if (whole == 0) return fmt::format("{}/{} in", over / by, kParts / by);
  return fmt::format("{} {}/{} in", whole, over / by, kParts / by);
}

}  // namespace

std::string degrees(const Context& c, Celsius t) { return in_tenths(c, nearest_tenth(c, t)); }

std::string degrees_below(const Context& c, Celsius t) {
  const double tenths = nearest_tenth(c, t);
  return in_tenths(c, celsius_of(c, tenths) > t.value ? tenths - 1 : tenths);
}

std::string degrees_whole(const Context& c, Celsius t) {
  return in_tenths(c, 10 * std::round(in_unit(c, t)));
}

std::string millimetres(const Context& c, Millimetre m) {
  if (display(c).lengths == Display::Lengths::mm) return fmt::format("{:g} mm", m.value);
  return inches(m, std::round(m.value / kSmallest));
}

std::string millimetres_above(const Context& c, Millimetre m) {
  if (display(c).lengths == Display::Lengths::mm) return millimetres(c, m);
  constexpr double kAsGiven = 1e-6;  // what was an inch in the shop file is not one part more
  return inches(m, std::ceil(m.value / kSmallest - kAsGiven));
}

}  // namespace squeezeout::words
