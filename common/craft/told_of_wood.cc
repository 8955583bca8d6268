// Moisture: what the wood has in this air, what it comes to in service, how far that moves the plate, and the glue's own water.

#include <algorithm>

#include "common/craft/faces.h"
#include "common/craft/told.h"
#include "common/trade/moisture.h"

namespace squeezeout {
namespace {

constexpr double kSpecies = 1;            // % moisture, between species
constexpr double kBoards = 1.0 / 3;       // of the movement, between boards
constexpr double kWaterShare = 0.5;       // of a water glue: the rest are solids
constexpr double kDensityOfWater = 1000;  // kg/m3: from specific gravity to dry mass
constexpr double kDryingOff = 2;          // times, of our model

// The wood in air: moisture is never below none.
Band moisture_band(double percent) {
  return {std::max(0.0, percent - kSpecies), percent, percent + kSpecies};
}

Told movement_told(const JointQuestion& q, const Faces& faces, Percent now, Percent service) {
  Told told;
  const bool published = faces.a->movement_mark == Mark::published && faces.a->movement_radial > 0;
  if (!published) {
    told.unpublished.push_back(FigureOf::plate_movement);
    return told;
  }
  // The radial figure: plates are quartersawn.
  const auto moves = movement(q.joint.plate, faces.a->movement_radial, now, service);
  if (!moves) {
    told.leave_out(moves.error());
  } else {
    told.add({.of = FigureOf::plate_movement,
              .by = FormulaId::movement,
              .band = within(moves->value, kBoards)});
  }
  return told;
}

// All of it into the thinner part, at worst; half of it at best.
Told water_told(const Recipe& recipe, const Joint& joint, const Material& wood) {
  Told told;
  const Density dry{wood.specific_gravity * kDensityOfWater};
  std::vector<Input> inputs{{InputOf::water_share, Mark::our_model}};
  if (wood.density_mark != Mark::published) inputs.push_back({InputOf::density, wood.density_mark});
  const auto all = glue_water(joint.spread_g_m2, kWaterShare, dry, joint.thickness);
  if (!all) {
    told.leave_out(all.error());
    return told;
  }
  told.add({.of = FigureOf::glue_water,
            .by = FormulaId::glue_water,
            .band = {all->value / 2, all->value, all->value},
            .inputs = inputs});
  if (recipe.finish.empty()) return told;  // nothing is worked that could sink afterwards
  const auto level = levelling_wait(*all, joint.thickness);
  if (!level) {
    told.leave_out(level.error());
    return told;
  }
  const auto wait = static_cast<double>(level->count());
  told.add({.of = FigureOf::levelling_wait,
            .by = FormulaId::levelling_wait,
            .band = {wait / kDryingOff, wait, wait * kDryingOff},
            .inputs = inputs});
  return told;
}

}  // namespace

Told told_of_wood(const JointQuestion& q, const Faces& faces) {
  Told told;
  const auto now = equilibrium_moisture(q.air, q.humidity);
  const auto service = equilibrium_moisture(q.service.celsius, q.service.humidity);
  const auto say = [&](FigureOf of, const Result<Percent, OutOfRange>& moisture) {
    if (moisture)
      told.add({.of = of, .by = FormulaId::emc, .band = moisture_band(moisture->value)});
    else
      told.leave_out(moisture.error());
  };
  say(FigureOf::moisture_now, now);
  say(FigureOf::moisture_service, service);
  if (now && service && faces.a && q.joint.plate.value != 0)
    told.append(movement_told(q, faces, *now, *service));

  const SheetAsked* asked = chosen_sheet(q);
  const bool water = asked && sets(asked->sheet->chemistry) == Sets::by_water;
  if (water && faces.softer() && q.joint.thickness.value != 0)
    told.append(water_told(q.recipe, q.joint, *faces.softer()));
  return told;
}

}  // namespace squeezeout
