#pragma once
// The formulas of the craft by name: what a screen says when it is asked where a figure comes from.
//   Source   each has its entry in trade/SOURCES.md under its anchor; a test holds both lists against each other

#include <string_view>

namespace squeezeout {

// How a figure or formula is known. A recalled or practised one is never shown as published.
enum class Mark { published, recalled, practice, our_model };
[[nodiscard]] std::string_view to_string(
    Mark m);  // "published", "from memory", "common practice", "our model"

enum class FormulaId {
  emc,
  movement,
  glue_water,
  levelling_wait,
  vapour_pressure,
  evaporation,
  open_time,
  sheets,
  dwell,
  reaction,
  cure,
  wood_lag,
  pressure_wanted,
  screw_force,
  count_by_force,
  count_by_spread,
  pad_crush,
  go_bar,
  go_bar_bending,
  materials,
  bend_strain,
  touch,
  mass_from_ppm,
  exposure_twa,
  exposure_mixture,
  dilution,
  exposure_limits,
  fitness,
  assembly_time,
  overrun_chance,
  lot_age,
  stated_force,
};
inline constexpr int kFormulas = 32;

struct Formula {
  std::string_view anchor;  // "emc": trade/SOURCES.md#emc
  std::string_view name;    // "Equilibrium moisture of wood"
  std::string_view source;  // "USDA Wood Handbook, FPL-GTR-282, Eq. 4-5"; common practice has none
  Mark mark = Mark::practice;
  std::string_view uncertainty;  // "0.5 % moisture; no species effect, no hysteresis"
};
[[nodiscard]] const Formula& formula(FormulaId id);

}  // namespace squeezeout
