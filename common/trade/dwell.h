#pragma once
// How long a joint stays clamped ("dwell") at one steady wood temperature.
//   Shape    sheet: at least one point, strictly rising temperature. By points: straight lines between them, constant on the
//            warm side (warmth beyond the sheet earns nothing), and held on the cold side down to the floor. By reaction
//            (activation_kj > 0): from the one point, t2 = t1 exp(Ea/R (1/T2 - 1/T1)), warm and cold
//   Units    Celsius in; whole seconds out, rounded UP (down frees a clamp early)
//   Refuses  BelowFloor: colder than the sheet allows; never extrapolates below it
//   Source   trade/SOURCES.md#dwell, trade/SOURCES.md#reaction

#include "common/base/result.h"
#include "common/trade/adhesive.h"

namespace squeezeout {

struct BelowFloor {
  SheetId sheet;
  Celsius wood, floor;
  friend bool operator==(const BelowFloor&, const BelowFloor&) = default;
};

[[nodiscard]] Result<Seconds, BelowFloor> dwell_at(const AdhesiveSheet& sheet, Celsius wood);

// The same in seconds, not rounded, held at the floor's figure below the floor, and between one second and kMaxClaim: what the
// cure integral divides by.
[[nodiscard]] double dwell_seconds(const AdhesiveSheet& sheet, Celsius wood);

// Up to whole seconds; a millionth of a second is rounding and earns none.
[[nodiscard]] Seconds whole_seconds_up(double seconds);

// How many times faster a reaction with activation energy `kj` per mol runs at `to` than at `from`.
[[nodiscard]] double reaction_ratio(double kj, Celsius from, Celsius to);

}  // namespace squeezeout
