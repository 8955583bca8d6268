#pragma once
// Solvent vapour in the air of the shop, against the limits for a day's work.
//   Units    ppm by volume, mg/m3 at 25 C and 101.3 kPa, grams, m3, m3 a minute
//   Refuses  OutOfRange: negative, NaN, no air at all; UnknownSolvent: no such key
//   Limits   one well-mixed room; rooms mix badly (a factor of three). LOCAL CODES AND THE SAFETY DATA SHEET DECIDE, and licensed
//            practice wherever a figure can hurt someone; this is no measurement
//   Source   trade/SOURCES.md#exposure_limits, #mass_from_ppm, #exposure_twa, #exposure_mixture, #dilution

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "common/base/quantity.h"
#include "common/base/result.h"
#include "common/time/span.h"
#include "common/trade/formula.h"
#include "common/trade/range.h"

namespace squeezeout {

struct SolventFacts {
  std::string_view key, name;  // "butanone", "butanone (MEK)"
  double molar_mass;           // g/mol
  Ppm osha, niosh;             // over 8 hours; 0: none
  Ppm epa;                     // a stricter rule of the US EPA over 8 hours; 0: none
  bool refused_by_default;     // cements with it are not used unless a steward says so
  Mark mark;                   // of the limits
};

struct UnknownSolvent {
  std::string key;
  friend bool operator==(const UnknownSolvent&, const UnknownSolvent&) = default;
};

[[nodiscard]] Result<const SolventFacts*, UnknownSolvent> solvent(std::string_view key);
[[nodiscard]] std::span<const SolventFacts> solvents();

enum class LimitSet { osha, niosh };
// The set's limit (OSHA's where NIOSH has none), or the EPA's where that is stricter. Above 0.
[[nodiscard]] Ppm limit(const SolventFacts& solvent, LimitSet set);

[[nodiscard]] double mg_per_m3(Ppm level, double molar_mass);
[[nodiscard]] Ppm ppm_of(double mg_per_m3, double molar_mass);

struct Exposure {
  Ppm level;
  double hours;
};
// Average over 8 hours, ppm; hours not named are free of it. At most 24 hours together.
[[nodiscard]] Result<double, OutOfRange> time_weighted(std::span<const Exposure> day);

struct Share {
  Ppm level, limit;
};
// Several vapours together: sum of level / limit; above 1 is above the limit. CHECKs: limits above 0.
[[nodiscard]] double mixture(std::span<const Share> shares);

// How long until `from` has thinned out to `to` (both in one unit), rounded UP; 0: it is no more than that already.
[[nodiscard]] Result<Seconds, OutOfRange> dilution_time(double from, double to, double room_m3,
                                                        double air_m3_per_min);

struct SolventUse {
  const SolventFacts* solvent;  // from solvent(); never null
  double grams;                 // that evaporate: 0 to 1000
};
struct SolventAverage {
  const SolventFacts* solvent;
  Ppm average, limit;  // over 8 hours
};
struct DayOfSolvent {
  // Of the one use that stands highest against its limit, all evaporated at once. Null and 0: nothing used.
  const SolventFacts* greatest = nullptr;
  Ppm peak{};
  Minutes airing{};                      // after it, until its level is at the limit; rounded UP
  std::vector<SolventAverage> averages;  // one a solvent, in the order of solvents()
  double mixture = 0;                    // of the averages; above 1 is above the limit
};
// The day's solvents by mass balance: each one's grams over the air of 480 minutes.
[[nodiscard]] Result<DayOfSolvent, OutOfRange> solvent_day(std::span<const SolventUse> uses,
                                                           double room_m3, double air_m3_per_min,
                                                           LimitSet set);

}  // namespace squeezeout
