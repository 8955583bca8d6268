// Counts, pressures and forces of the gear, in the order in which one asks: how many, why, with what.

#include "common/craft/told.h"

namespace squeezeout {
namespace {

constexpr double kCrushOff = 0.25;      // between boards
constexpr double kRodBendingOff = 0.2;  // the rod's own stiffness

using Inputs = std::vector<Input>;

Inputs together(Inputs a, const Inputs& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

Inputs of_density(const GearCount& c) {
  if (c.density_mark == Mark::published) return {};
  return {{InputOf::density, c.density_mark}};
}

Inputs of_pad(const GearCount& c) {
  if (!c.usual_pad) return {};
  return {{InputOf::pad, Mark::our_model}};
}

Inputs of_force(const GearCount& c) {
  switch (c.force_by) {
    case FormulaId::go_bar:
      return {{InputOf::rod, Mark::recalled}};
    case FormulaId::screw_force:
      return {{InputOf::friction, Mark::recalled}};
    default:
      return {{InputOf::stated_force, Mark::recalled}};
  }
}

// A softer board crushes sooner.
Band share_of_crush(double share) {
  return {share / (1 + kCrushOff), share, share / (1 - kCrushOff)};
}

Told told_of(const GearCount& c) {
  Told told;
  const auto add = [&](FigureOf of, FormulaId by, Band band, Inputs inputs) {
    told.add({.of = of, .by = by, .band = band, .inputs = std::move(inputs), .kind = c.kind});
  };
  const Inputs density = of_density(c), pad = of_pad(c), force = of_force(c);
  const bool even = c.limit == GearCount::Limit::even_line;
  const auto spread = static_cast<double>(c.by_spread);
  told.add({.of = FigureOf::clamps,
            .by = even ? FormulaId::count_by_spread : FormulaId::count_by_force,
            .band = {static_cast<double>(c.low), static_cast<double>(c.count),
                     static_cast<double>(c.high)},
            .inputs = together(together(density, pad), force),
            .kind = c.kind,
            .fixed = c.fixed,
            .limit = c.limit});
  add(FigureOf::clamps_by_spread, FormulaId::count_by_spread, {spread, spread, spread}, pad);
  const auto least = static_cast<double>(c.by_least_pressure);
  add(FigureOf::clamps_by_pressure, FormulaId::count_by_force,
      {least, least, std::max(least, static_cast<double>(c.by_handbook))},
      together(density, force));
  add(FigureOf::pressure_wanted, FormulaId::pressure_wanted, c.wanted, density);
  add(FigureOf::pressure_achieved, c.force_by, c.achieved, force);
  if (!c.sprung) add(FigureOf::clamp_force, c.force_by, c.force, force);
  add(FigureOf::crush, FormulaId::pad_crush, within(c.crush.value, kCrushOff), density);
  add(FigureOf::crush_share, FormulaId::pad_crush, share_of_crush(c.crush_share),
      together(together(density, pad), force));
  if (c.sprung) {
    add(FigureOf::rod_force, c.force_by, c.force, force);
    add(FigureOf::rod_bending, FormulaId::go_bar_bending,
        within(c.sprung->bending.value, kRodBendingOff), force);
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
