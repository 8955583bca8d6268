// Counts, pressures and forces of the gear, in the order in which one asks: how many, why, with what.

#include "common/craft/told.h"

namespace squeezeout {
namespace {

Band exactly(double value) { return {value, value, value}; }

Told told_of(const GearCount& c) {
  Told told;
  const auto add = [&](FigureOf of, FormulaId by, Band band) {
    told.add({.of = of, .by = by, .band = band, .kind = c.kind});
  };
  const bool even = c.limit == GearCount::Limit::even_line;
  told.add({.of = FigureOf::clamps,
            .by = even ? FormulaId::count_by_spread : FormulaId::count_by_force,
            .band = {static_cast<double>(c.low), static_cast<double>(c.count),
                     static_cast<double>(c.high)},
            .kind = c.kind,
            .fixed = c.fixed,
            .limit = c.limit});
  add(FigureOf::clamps_by_spread, FormulaId::count_by_spread, exactly(c.by_spread));
  const auto least = static_cast<double>(c.by_least_pressure);
  add(FigureOf::clamps_by_pressure, FormulaId::count_by_force,
      {least, least, std::max(least, static_cast<double>(c.by_handbook))});
  add(FigureOf::pressure_wanted, FormulaId::pressure_wanted, c.wanted);
  add(FigureOf::pressure_achieved, c.force_by, c.achieved);
  if (!c.sprung) add(FigureOf::clamp_force, c.force_by, c.force);
  add(FigureOf::crush, FormulaId::pad_crush, exactly(c.crush.value));
  add(FigureOf::crush_share, FormulaId::pad_crush, exactly(c.crush_share));
  if (c.sprung) {
    add(FigureOf::rod_force, c.force_by, c.force);
    add(FigureOf::rod_bending, FormulaId::go_bar_bending, exactly(c.sprung->bending.value));
  }
  return told;
}

}  // namespace

Told told_of_gear(std::span<const GearCount> gear) {
  Told told;
  for (const GearCount& c : gear) told.append(told_of(c));
  return told;
}

}  // namespace squeezeout
