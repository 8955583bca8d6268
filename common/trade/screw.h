#pragma once
// Force of a screw clamp from the torque on its handle, and back.
//   Shape    T = (F dm / 2) (l + pi f dm sec a) / (pi dm - f l sec a) + F fc dc / 2; lead l = starts * pitch
//   Units    newton, newton metre, millimetre, degrees
//   Refuses  OutOfRange: no such screw (steeper than 45 degrees, friction above 0.5, flank beyond 45 degrees), force or torque
//            negative or NaN
//   Limits   friction of a screw is 0.10 to 0.20 and moves the force by 40 %: show force_band()
//   Source   trade/SOURCES.md#screw_force

#include <optional>
#include <string_view>

#include "common/base/quantity.h"
#include "common/base/result.h"
#include "common/trade/range.h"

namespace squeezeout {

struct Screw {
  Millimetre diameter;  // nominal, over the crests
  Millimetre pitch;
  int starts = 1;
  double friction = 0.15;
  double collar_friction = 0.15;      // where the screw turns on its pad; 0: a bearing
  Millimetre collar_mean_diameter{};  // 0: no collar
  double half_angle_degrees = 0;      // of the thread's flank: 0 square, 15 trapezoidal, 30 metric
  friend bool operator==(const Screw&, const Screw&) = default;
};

// Diameter at mid-thread: d - p / 2; of a metric thread (half angle 30) d - 0.6495 p.
[[nodiscard]] Millimetre mean_diameter(const Screw& screw);

[[nodiscard]] Result<NewtonMetre, OutOfRange> torque_up(const Screw& screw, Newton force);
// To loosen it; negative: the screw lets go by itself.
[[nodiscard]] Result<NewtonMetre, OutOfRange> torque_down(const Screw& screw, Newton force);
[[nodiscard]] Result<Newton, OutOfRange> force_of(const Screw& screw, NewtonMetre torque);

// Part of the work on the handle that reaches the joint, 0..1; the force does not matter. CHECKs a screw that force_of() takes.
[[nodiscard]] double efficiency(const Screw& screw);

// Newtons at that torque for friction 0.10 to 0.20 (thread and collar alike; a bearing stays one), the screw's own friction
// between. CHECKs a screw and torque that force_of() takes.
[[nodiscard]] Band force_band(const Screw& screw, NewtonMetre torque);

// "Tr12x3", "Tr14x6P3" (lead 6, pitch 3: two starts), "M6", "M8x1": friction 0.15, and a pad of five sixths of the nominal
// diameter (our assumption). None: not a thread that is known.
[[nodiscard]] std::optional<Screw> screw_of(std::string_view thread);

}  // namespace squeezeout
