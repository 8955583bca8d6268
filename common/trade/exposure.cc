#include "common/trade/exposure.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "common/base/check.h"

namespace squeezeout {
namespace {

constexpr double kMolarVolume = 24.45;  // litres a mole at 25 C and 101.3 kPa
constexpr double kShiftMinutes = 480;

constexpr std::array<SolventFacts, 6> kSolvents{{
    {"acetone", "acetone", 58.08, {1000}, {250}, {0}, false, Mark::published},
    {"butanone", "butanone (MEK)", 72.11, {200}, {200}, {0}, false, Mark::published},
    {"tetrahydrofuran", "tetrahydrofuran (THF)", 72.11, {200}, {200}, {0}, false, Mark::published},
    {"n-butyl-acetate", "n-butyl acetate", 116.16, {150}, {150}, {0}, false, Mark::published},
    {"toluene", "toluene", 92.14, {200}, {100}, {0}, false, Mark::recalled},
    // NIOSH gives no figure: as little as can be. US EPA rule of 2024.
    {"dichloromethane", "dichloromethane", 84.93, {25}, {0}, {2}, true, Mark::published},
}};

std::optional<OutOfRange> no_air(double room_m3, double air_m3_per_min) {
  if (auto no = outside("volume of the room, m3", room_m3, 5, 1e6, "measure the room in metres"))
    return no;
  return outside("air out of the room, m3 a minute", air_m3_per_min, 0.01, 1e5,
                 "open a window or run the fan, and give what it moves");
}

}  // namespace

std::span<const SolventFacts> solvents() { return kSolvents; }

Result<const SolventFacts*, UnknownSolvent> solvent(std::string_view key) {
  for (const SolventFacts& s : kSolvents) {
    if (s.key == key) return &s;
  }
  return Unexpected{UnknownSolvent{std::string{key}}};
}

Ppm limit(const SolventFacts& s, LimitSet set) {
  const Ppm chosen = set == LimitSet::niosh && s.niosh.value > 0 ? s.niosh : s.osha;
  return s.epa.value > 0 ? std::min(chosen, s.epa) : chosen;
}

double mg_per_m3(Ppm level, double molar_mass) { return level.value * molar_mass / kMolarVolume; }

Ppm ppm_of(double mg_per_m3, double molar_mass) {
  CHECK(molar_mass > 0);
  return {mg_per_m3 * kMolarVolume / molar_mass};
}

Result<double, OutOfRange> time_weighted(std::span<const Exposure> day) {
  double ppm_hours = 0, hours = 0;
  for (const Exposure& e : day) {
    if (auto no = outside("level, ppm", e.level.value, 0, 1e6, "give it in parts of a million"))
      return Unexpected{*no};
    if (auto no = outside("hours of exposure", e.hours, 0, 24, "give the hours of one day"))
      return Unexpected{*no};
    ppm_hours += e.level.value * e.hours;
    hours += e.hours;
  }
  if (auto no = outside("hours of exposure together", hours, 0, 24, "give the hours of one day"))
    return Unexpected{*no};
  return ppm_hours / 8;
}

double mixture(std::span<const Share> shares) {
  double sum = 0;
  for (const Share& s : shares) {
    CHECK(s.limit.value > 0);
    sum += s.level.value / s.limit.value;
  }
  return sum;
}

Result<Seconds, OutOfRange> dilution_time(double from, double to, double room_m3,
                                          double air_m3_per_min) {
  if (auto no = no_air(room_m3, air_m3_per_min)) return Unexpected{*no};
  if (auto no = outside("level at first", from, 0, 1e9, "give the level before airing"))
    return Unexpected{*no};
  if (auto no = outside("level wanted", to, 1e-6, 1e9, "give a level above 0: air never clears it"))
    return Unexpected{*no};
  if (from <= to) return Seconds{0};
  const double seconds = 60 * room_m3 / air_m3_per_min * std::log(from / to);
  return Seconds{static_cast<Seconds::rep>(std::ceil(seconds))};
}

Result<DayOfSolvent, OutOfRange> solvent_day(std::span<const SolventUse> uses, double room_m3,
                                             double air_m3_per_min, LimitSet set) {
  if (auto no = no_air(room_m3, air_m3_per_min)) return Unexpected{*no};
  DayOfSolvent day;
  std::array<double, kSolvents.size()> grams{};
  double highest = 0;
  for (const SolventUse& use : uses) {
    CHECK(use.solvent);
    if (auto no = outside("solvent of one use, g", use.grams, 0, 1000,
                          "split the job, or have it assessed: this is no bench work"))
      return Unexpected{*no};
    grams.at(static_cast<std::size_t>(use.solvent - kSolvents.data())) += use.grams;
    const Ppm peak = ppm_of(use.grams * 1000 / room_m3, use.solvent->molar_mass);
    const double of_limit = peak.value / limit(*use.solvent, set).value;
    if (of_limit > highest) {
      highest = of_limit;
      day.greatest = use.solvent;
      day.peak = peak;
    }
  }
  if (day.greatest) {
    const Result<Seconds, OutOfRange> airing =
        dilution_time(day.peak.value, limit(*day.greatest, set).value, room_m3, air_m3_per_min);
    if (!airing) return Unexpected{airing.error()};
    day.airing = std::chrono::ceil<Minutes>(*airing);
  }
  std::vector<Share> shares;
  for (std::size_t i = 0; i < kSolvents.size(); ++i) {
    if (grams.at(i) <= 0) continue;
    const SolventFacts& facts = kSolvents.at(i);
    const Ppm average =
        ppm_of(grams.at(i) * 1000 / (air_m3_per_min * kShiftMinutes), facts.molar_mass);
    day.averages.push_back({&facts, average, limit(facts, set)});
    shares.push_back({average, limit(facts, set)});
  }
  day.mixture = mixture(shares);
  return day;
}

}  // namespace squeezeout
