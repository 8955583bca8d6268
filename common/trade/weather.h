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
//   Shape    thickness of the thinner part: eight minutes a millimetre, at most a day; 0: follows at once
[[nodiscard]] Seconds wood_time_constant(Millimetre thickness);

// The temperature of wood: dT/dt = (air - T) / time constant, exact on each straight line. Before the first point the wood is as
// warm as the air.
class WoodCourse {
 public:
  WoodCourse(const Weather& weather, Seconds time_constant);
  [[nodiscard]] Celsius at(Instant t) const;
  [[nodiscard]] Celsius coldest(Span span) const;  // both ends included
  // The first instant of the span at which the wood is colder than `least`. None: nowhere.
  [[nodiscard]] std::optional<Instant> first_below(Span span, Celsius least) const;
  // The first instant at or after `from` at which the wood has at least `least`; to the minute, rounded up. None: never again.
  [[nodiscard]] std::optional<Instant> warm_again(Instant from, Celsius least) const;
  // From here on the wood counts as constant: it would change by less than a millionth of a kelvin. Instant::min(): always.
  [[nodiscard]] Instant steady_from() const { return steady_from_; }

  // A part of the course without a bend, on which the wood only rises or only falls: it ends at a point of the weather, or where
  // falling wood begins to rise or rising wood to fall.
  struct Stretch {
    Instant until{};  // kNever: for good
    double line = 0, slope_per_s = 0, swing = 0, time_constant_s = 0;
    [[nodiscard]] bool constant() const { return slope_per_s == 0 && swing == 0; }
    [[nodiscard]] Celsius after(double seconds) const;  // not beyond `until`
  };
  [[nodiscard]] Stretch stretch(Instant from) const;

 private:
  struct Knot {
    Instant at;
    double air, wood;
  };
  [[nodiscard]] Stretch stretch(const Knot& a, const Knot& b, double seconds) const;
  // The first instant in [from, end) at which `holds(temperature)`, where it changes at most once on a stretch.
  template <class Holds>
  std::optional<Instant> first(Instant from, Instant end, Holds holds) const;

  std::vector<Knot> knots_;
  double time_constant_s_ = 0;
  Instant steady_from_{};
};

}  // namespace squeezeout
