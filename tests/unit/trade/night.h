#pragma once
// An invented night, two glues, and wood worked out the slow way.

#include <algorithm>
#include <vector>

#include "common/trade/cure.h"

namespace squeezeout {

inline constexpr Instant kEvening = Instant{std::chrono::hours{24 * 20000 + 17}};  // 17:00

// Forty readings at uneven times: 21 C at 17:00, 11 C before six, warm again at nine; the heating comes on twice.
inline Weather recorded_night() {
  struct Reading {
    int second;
    double celsius, percent;
  };
  static constexpr Reading kReadings[] = {
      {0, 21.0, 44},     {613, 20.9, 44},   {1502, 20.6, 45},  {2711, 20.1, 45},
      {3305, 19.8, 46},  {4999, 18.9, 47},  {6203, 18.3, 48},  {7400, 17.6, 49},
      {8107, 17.3, 49},  {9950, 16.4, 50},  {11213, 15.9, 51}, {12499, 15.3, 52},
      {13870, 14.8, 53}, {14003, 15.6, 52}, {14900, 16.8, 50}, {15301, 17.0, 50},
      {16777, 15.7, 51}, {18032, 14.9, 52}, {19500, 14.2, 53}, {20883, 13.7, 54},
      {22222, 13.2, 55}, {23999, 12.8, 56}, {25555, 12.4, 56}, {26801, 12.1, 57},
      {28500, 11.9, 57}, {30007, 11.7, 58}, {31999, 11.5, 58}, {33333, 11.3, 58},
      {35001, 11.2, 59}, {37700, 11.1, 59}, {40404, 11.0, 59}, {43003, 11.0, 59},
      {46201, 11.0, 60}, {47011, 11.8, 59}, {48500, 13.9, 56}, {49999, 16.2, 53},
      {51500, 17.8, 51}, {53801, 19.4, 48}, {55555, 20.3, 46}, {57600, 20.8, 45}};
  std::vector<AirPoint> points;
  for (const Reading& r : kReadings)
    points.push_back({kEvening + Seconds{r.second}, {r.celsius}, {r.percent}});
  return Weather{points};
}

inline AdhesiveSheet aliphatic() {
  AdhesiveSheet s;
  s.id = {1};
  s.chemistry = Chemistry::aliphatic;
  s.open = Minutes{5};
  s.dwell = {{{10}, Minutes{60}}, {{13.5}, Minutes{52}}, {{20}, Minutes{45}}, {{30}, Minutes{30}}};
  s.wait = Minutes{240};
  s.floor = {10};
  return s;
}

inline AdhesiveSheet slow_epoxy() {
  AdhesiveSheet s;
  s.id = {2};
  s.chemistry = Chemistry::epoxy_slow;
  s.open = Minutes{90};
  s.working_life = Minutes{120};
  s.dwell = {{{21}, Minutes{480}}};
  s.activation_kj = 55;
  s.wait = Minutes{1440};
  s.floor = {8};
  return s;
}

// The wood second by second, by Runge and Kutta's fourth order on dT/dt = (air - T) / time constant.
class SlowWood {
 public:
  SlowWood(const Weather& weather, Seconds time_constant, Seconds length)
      : begin_(weather.points().front().at) {
    double wood = weather.air(begin_).value;
    const double tau = static_cast<double>(time_constant.count());
    for (Seconds s{0}; s <= length; ++s) {
      wood_.push_back(tau > 0 ? wood : weather.air(begin_ + s).value);
      if (tau <= 0) continue;
      const double a0 = weather.air(begin_ + s).value;
      const double a1 = weather.air(begin_ + s + Seconds{1}).value;
      const double middle = (a0 + a1) / 2;  // readings fall on whole seconds: straight in between
      const double k1 = (a0 - wood) / tau;
      const double k2 = (middle - wood - k1 / 2) / tau;
      const double k3 = (middle - wood - k2 / 2) / tau;
      const double k4 = (a1 - wood - k3) / tau;
      wood += (k1 + 2 * k2 + 2 * k3 + k4) / 6;
    }
  }
  double at(Instant t) const { return wood_.at(static_cast<std::size_t>((t - begin_).count())); }
  Instant begin() const { return begin_; }
  Instant end() const { return begin_ + Seconds{static_cast<int>(wood_.size()) - 1}; }

 private:
  Instant begin_;
  std::vector<double> wood_;
};

}  // namespace squeezeout
