#include "common/trade/dwell.h"

#include <algorithm>
#include <cmath>

#include "common/base/check.h"

namespace squeezeout {
namespace {

constexpr double kGas = 8.314462618e-3;  // kJ/(mol K)
constexpr double kZeroCelsius = 273.15;

double seconds_by_points(const std::vector<DwellPoint>& points, Celsius wood) {
  const auto seconds = [](const DwellPoint& p) { return static_cast<double>(p.dwell.count()); };
  if (wood <= points.front().wood) return seconds(points.front());
  for (std::size_t i = 1; i < points.size(); ++i) {
    const DwellPoint& a = points[i - 1];
    const DwellPoint& b = points[i];
    CHECK(a.wood < b.wood);
    if (wood <= b.wood) {
      const double share = (wood - a.wood).value / (b.wood - a.wood).value;
      return seconds(a) + share * (seconds(b) - seconds(a));
    }
  }
  return seconds(points.back());
}

}  // namespace

double reaction_ratio(double kj, Celsius from, Celsius to) {
  return std::exp(kj / kGas * (1 / (from.value + kZeroCelsius) - 1 / (to.value + kZeroCelsius)));
}

double dwell_seconds(const AdhesiveSheet& sheet, Celsius wood) {
  CHECK(!sheet.dwell.empty());
  const Celsius held = std::max(wood, sheet.floor);
  double seconds = 0;
  if (sheet.activation_kj > 0) {
    const DwellPoint& known = sheet.dwell.front();
    seconds = static_cast<double>(known.dwell.count()) *
              reaction_ratio(sheet.activation_kj, held, known.wood);
  } else {
    seconds = seconds_by_points(sheet.dwell, held);
  }
  return std::clamp(seconds, 1.0, static_cast<double>(kMaxClaim.count()));
}

Seconds whole_seconds_up(double seconds) {
  return Seconds{static_cast<Seconds::rep>(std::ceil(seconds - 1e-6))};
}

Result<Seconds, BelowFloor> dwell_at(const AdhesiveSheet& sheet, Celsius wood) {
  if (!(wood >= sheet.floor)) return Unexpected{BelowFloor{sheet.id, wood, sheet.floor}};
  return whole_seconds_up(dwell_seconds(sheet, wood));
}

}  // namespace squeezeout
