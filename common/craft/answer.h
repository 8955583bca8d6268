#pragma once
// What a joint needs, worked out: glue, gear, times, moisture, cautions; each figure with its formula and band.
//   Shape    total: a figure that cannot be worked out is left out, and `left_out` says why
//   Cost     under 1 ms for a shop of 12 sheets and 40 kinds

#include <span>
#include <string>
#include <vector>

#include "common/craft/fitness.h"
#include "common/craft/gear_count.h"
#include "common/trade/assembly.h"
#include "common/trade/formula.h"

namespace squeezeout {

// What a figure is of. Words are made by the screens.
enum class FigureOf {
  open_time,       // s
  closed_time,     // s, of it: faces met until pressure
  assembly,        // s
  overrun_chance,  // 0..1; n in `count`
  dwell,           // s
  wait,            // s
  full_cure,       // s
  coldest_wood,    // C
  clamps,          // pieces; `fixed` beside it
  clamps_by_spread,
  clamps_by_pressure,
  pressure_wanted,  // MPa
  pressure_achieved,
  clamp_force,       // N, a piece
  crush,             // MPa
  crush_share,       // 0..1
  rod_force,         // N
  rod_bending,       // MPa
  moisture_now,      // %
  moisture_service,  // %
  plate_movement,    // mm, between gluing and service
  glue_water,        // % moisture that the glue adds
  levelling_wait,    // s
  bend_strain,       // %
  safe_to_touch,     // s
  lot_age,           // days left
};
inline constexpr int kFigures = 26;

// What a figure was worked out from besides its formula's own constants, where that is not published.
enum class InputOf {
  density,       // of the softer face
  water_share,   // of the glue
  pad,           // of a clamp whose kind does not tell it
  stated_force,  // of a piece, by the shop
  friction,      // of a screw
  rod,           // stiffness of a go-bar, by the shop
  form_cooling,  // how soon a form loses its warmth
};
inline constexpr int kInputs = 7;
struct Input {
  InputOf of = InputOf::density;
  Mark mark = Mark::recalled;
  friend bool operator==(const Input&, const Input&) = default;
};

struct Figure {
  FigureOf of = FigureOf::open_time;
  FormulaId by = FormulaId::sheets;
  Band band;
  std::vector<Input>
      inputs;       // none of them published: a screen says so beside the formula's own mark
  GearKindId kind;  // of gear figures
  std::optional<int> fixed;  // the recipe's own
  int n = 0;                 // of learned figures: how many glue-ups
  std::optional<GearCount::Limit> limit;
};

// What can hurt somebody or spoil the joint, in words of the screens.
enum class Caution {
  solvent_vapour,  // air, gloves, no flame
  fire,
  beside_hot_form,  // never open solvent there
  hot_form,         // hot to the touch from 48 C, safe at 43 C
  sensitises_skin,  // epoxy
  no_sanding_uncured,
  isocyanates,
  bonds_skin,
  oily_wipe,        // wipe with solvent just before gluing
  bracing_too_dry,  // plates remember it
  bracing_too_damp,
  plate_will_move,  // moisture differs from the service's by more than 1 %
  pad_crushes,
  rod_near_breaking,
  strap_for_bend,  // strain above 2 %
  forecast_cold,   // the floor is near: within 2 K
  dry_run_first,
  local_codes_decide,  // always last, when any of the above can hurt somebody
};
inline constexpr int kCautions = 18;

struct SheetAsked {
  const AdhesiveSheet* sheet = nullptr;
  Circumstances about;
  Seconds dwell{}, wait{};  // at the hour
  Celsius coldest;          // of the wood
  std::optional<double> lot_days_left;
};

struct JointQuestion {
  const Recipe& recipe;
  Joint joint;                         // of the build's woods
  std::span<const SheetAsked> sheets;  // all that are asked about
  SheetId chosen;                      // whose times and cautions are told; 0: without glue
  std::span<const GearKind> gear;
  AssemblyPlan assembly;
  OverrunChance chance;
  Celsius air;
  Percent humidity;
  ServiceAir service;
};

struct JointAnswer {
  std::vector<Fitness> glues;  // ranked
  std::vector<GearCount>
      gear;  // one for each clamp or go-bar need, of the least capable kind that is good enough
  std::vector<Figure> figures;
  std::vector<Caution> cautions;
  std::vector<OutOfRange> left_out;
  std::vector<FigureOf>
      unpublished;  // left out as well: nobody has published the figure that it hangs on
  std::optional<UnknownMaterial>
      unknown;  // a face's material: nothing that hangs on it is worked out
};
[[nodiscard]] JointAnswer answer(const JointQuestion& question);

}  // namespace squeezeout
