#pragma once
// Weather: the air of the shop over time, and the wood that follows it.
//   Shape    air is a straight line between points and constant before the first and after the last
//   Units    Celsius, percent; instants
//   Source   trade/SOURCES.md#wood_lag (our model)

#include <optional>
#include <vector>

#include "common/base/quantity.h"
#include "common/time/span.h"

namespace squeezeout {

struct AirPoint {
  Instant at{};
  Celsius air;
  Percent humidity;
  friend bool operator==(const AirPoint&, const AirPoint&) = default;
};

class Weather {
 public:
  explicit Weather(std::vector<AirPoint> points);  // CHECKs: at least one, strictly rising instants
  static Weather steady(Celsius air, Percent humidity);
  [[nodiscard]] Celsius air(Instant t) const;
  [[nodiscard]] Percent humidity(Instant t) const;
  const std::vector<AirPoint>& points() const { return points_; }

 private:
  std::vector<AirPoint> points_;
};

// How fast wood follows the air: after one time constant 63 % of a step is made up.
//   Shape    thickness of the thinner part; 0: follows at once
[[nodiscard]] Seconds wood_time_constant(Millimetre thickness);

// The temperature of wood: dT/dt = (air - T) / time constant, exact on each straight line. Before the first point the wood is as
// warm as the air.
class WoodCourse {
 public:
  WoodCourse(const Weather& weather, Seconds time_constant);
  [[nodiscard]] Celsius at(Instant t) const;
  [[nodiscard]] Celsius coldest(Span span) const;  // to 0.01 K
  // The first instant at or after `from` at which the wood has at least `least`; to the minute, rounded up. None: never again.
  [[nodiscard]] std::optional<Instant> warm_again(Instant from, Celsius least) const;
  // From here on the wood changes by less than 0.01 K.
  [[nodiscard]] Instant steady_from() const;
  // Where the course bends: the weather's points. What integrates over it splits there.
  [[nodiscard]] std::optional<Instant> next_bend(Instant after) const;

 private:
  struct Knot {
    Instant at;
    double air, wood;
  };
  std::vector<Knot> knots_;
  double time_constant_s_ = 0;
  Instant steady_from_{};
};

}  // namespace squeezeout
