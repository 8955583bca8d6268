#pragma once
// Cure adds up: the joint has had its dwell when the integral of 1 / dwell_seconds(wood temperature) over time is 1. At a steady
// temperature that is the closed form dwell_at().
//   Units    instants and whole seconds, rounded UP
//   Refuses  TooCold: somewhere between the spreading and the end of the dwell the wood is colder than the sheet's floor, so the
//            film would not form; says where and since when
//   Source   trade/SOURCES.md#cure, trade/SOURCES.md#dwell, trade/SOURCES.md#reaction

#include "common/base/result.h"
#include "common/trade/dwell.h"
#include "common/trade/weather.h"

namespace squeezeout {

struct TooCold {
  SheetId sheet;
  Celsius wood, floor;             // the coldest that it sees
  Instant at{};                    // the first instant below the floor
  std::optional<Instant> until{};  // warm enough again; none: not within the weather that is known
  friend bool operator==(const TooCold&, const TooCold&) = default;
};

// The integral of 1 / dwell_seconds over a span: 1 is a whole dwell. To 1e-7.
//   Shape    below the floor it goes on at the floor's rate: whether that is allowed is dwell_from's to say
[[nodiscard]] double cured(const AdhesiveSheet& sheet, const WoodCourse& wood, Span span);

// Dwell of a joint that was spread at `open_begin` and clamped at `clamped_begin`. At most kMaxClaim.
//   Shape    clamped later never ends earlier; colder wood never needs less, if the sheet's dwells fall with warmth
[[nodiscard]] Result<Seconds, TooCold> dwell_from(const AdhesiveSheet& sheet,
                                                  const WoodCourse& wood, Instant open_begin,
                                                  Instant clamped_begin);

// Dwell of a joint whose clamps are on, whatever the floor says: a glue by points gets nowhere below it, a reacting one goes on at
// the rate of its temperature. At most kMaxClaim: it never gets there in the weather that is known.
[[nodiscard]] Seconds dwell_running(const AdhesiveSheet& sheet, const WoodCourse& wood,
                                    Instant clamped_begin);

// The sheet's wait, made longer where the wood is colder than 20 C in the measure in which the dwell would be; never shorter
// than `wait`.
[[nodiscard]] Seconds wait_from(const AdhesiveSheet& sheet, Seconds wait, const WoodCourse& wood,
                                Instant clamped_begin);

// How long spread glue stays open at an hour. Water glue: the sheet's time by the evaporation of water at that temperature and
// humidity, against 20 C and 50 %; reacting glue: by its reaction; solvent: as the sheet says. Between a quarter of the sheet's
// time and one and a half times; hot hide glue, which gels as it cools, never longer than the sheet's.
//   Shape    air and humidity beyond the evaporation formula's range are held at its ends
//   Units    rounded DOWN to whole seconds (up lets glue skin)
//   Source   trade/SOURCES.md#open_time, trade/SOURCES.md#evaporation (our model)
[[nodiscard]] Seconds open_time_at(const AdhesiveSheet& sheet, Celsius wood, Celsius air,
                                   Percent humidity);

// Working life of a mixed pot: as the reaction goes at the air's temperature; between a quarter of the sheet's time and one and a
// half times. A pot that is not mixed keeps the sheet's.
//   Units    rounded DOWN to whole seconds
//   Source   trade/SOURCES.md#open_time, trade/SOURCES.md#reaction
[[nodiscard]] Seconds working_life_at(const AdhesiveSheet& sheet, Celsius air);

}  // namespace squeezeout
