#pragma once
// How many clamps or go-bars a joint wants, what limits it, and what pressure they achieve.
//   Shape    count = the greater of an even line (45-degree spread) and the least pressure with which such a joint holds; the
//            band reaches from the even line alone to the handbook's pressure. Never a bare number: always with what limits it
//   Refuses  OutOfRange, UnknownMaterial
//   Source   trade/SOURCES.md#count_by_force, #count_by_spread, #pressure_wanted, #pad_crush, #screw_force, #go_bar

#include <optional>
#include <variant>

#include "common/craft/joint.h"
#include "common/gear/kind.h"
#include "common/trade/elastica.h"
#include "common/trade/material.h"
#include "common/trade/press.h"
#include "common/trade/range.h"

namespace squeezeout {

struct GearCount {
  GearKindId kind;
  int count = 0;          // what the craft asks for
  int low = 0, high = 0;  // the band
  enum class Limit { even_line, least_pressure } limit = Limit::even_line;
  int by_spread = 0;  // for an even line
  int by_least_pressure = 0;
  int by_handbook = 0;       // for the handbook's pressure
  std::optional<int> fixed;  // the recipe's own count: it is what is reserved
  Band wanted;               // MPa
  Band achieved;             // MPa, with `fixed`, else with `count`
  Band force;                // N, of one piece
  Megapascal crush;          // under a pad, of the softer face
  double crush_share =
      0;  // pressure under one pad against `crush`; above 1 it crushes: a caul is wanted
  std::optional<Sprung> sprung;  // go-bars
  std::optional<double>
      bending_share;  // go-bars: bending stress against the rod's strength; warn near 1
};
using NoCount = std::variant<OutOfRange, UnknownMaterial>;

// The deck's gap is where the go-bar is sprung; 0: the rod's own `force` counts.
[[nodiscard]] Result<GearCount, NoCount> gear_count(const Joint& joint, const GearKind& kind,
                                                    std::optional<int> fixed, Millimetre deck_gap);

}  // namespace squeezeout
