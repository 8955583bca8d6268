#pragma once
// How many clamps or go-bars a joint wants, what limits it, and what pressure they achieve.
//   Shape    count = the greater of an even line (45-degree spread) and the least pressure with which such a joint holds; the
//            band reaches from the even line alone to the handbook's pressure, or to a close line where that wants still more (then
//            stronger gear is wanted, not more of it). Never a bare number: always with what limits it
//   Refuses  OutOfRange, UnknownMaterial
//   Source   trade/SOURCES.md#count_by_force, #count_by_spread, #pressure_wanted, #pad_crush, #screw_force, #go_bar

#include <optional>
#include <span>
#include <variant>
#include <vector>

#include "common/craft/joint.h"
#include "common/craft/recipe.h"
#include "common/gear/kind.h"
#include "common/trade/elastica.h"
#include "common/trade/formula.h"
#include "common/trade/material.h"
#include "common/trade/press.h"
#include "common/trade/range.h"

namespace squeezeout {

struct GearCount {
  GearKindId kind;
  int count = 0;          // what the craft asks for
  int low = 0, high = 0;  // the band
  enum class Limit { even_line, least_pressure } limit = Limit::even_line;
  int by_spread = 0;      // for an even line
  int by_close_line = 0;  // spreading cones overlap by half
  int by_least_pressure = 0;
  int by_handbook = 0;       // for the handbook's pressure
  std::optional<int> fixed;  // the recipe's own count: it is what is reserved
  Band wanted;               // MPa: from the least with which it holds to the handbook's
  Band achieved;             // MPa, with `fixed`, else with `count`
  Band force;                // N, of one piece
  FormulaId force_by = FormulaId::stated_force;  // or by screw, or by go-bar
  bool usual_pad = false;                        // the kind does not tell its pad: kUsualPad
  Megapascal crush;                              // under a pad, of the softer face
  Mark density_mark = Mark::recalled;            // of that face
  // The strongest piece under its bare pad (no wider than the glue line) against `crush`; above 1 a
  // caul is wanted.
  double crush_share = 0;
  std::optional<Sprung> sprung;         // go-bars
  std::optional<double> bending_share;  // of the rod's strength by bending; warn near 1
};
using NoCount = std::variant<OutOfRange, UnknownMaterial>;

// Of a clamp whose kind does not tell its pad; a go-bar bears with its own section.
inline constexpr Millimetre kUsualPad{20};

// The force of a piece: a go-bar's from its section, sprung in the deck's gap; a clamp's from screw and torque; else the kind's
// own figure, 20 % either way (from memory).
//   Shape    deck_gap 0: no deck; then the kind's own force counts
[[nodiscard]] Result<GearCount, NoCount> gear_count(const Joint& joint, const GearKind& kind,
                                                    std::optional<int> fixed, Millimetre deck_gap);

// The gap of the least capable deck that a deck need of the recipe would take; 0: none.
[[nodiscard]] Millimetre deck_gap_of(const Recipe& recipe, std::span<const GearKind> gear);
// The least capable kind of the shop that is good enough; null: the shop owns none.
[[nodiscard]] const GearKind* plainest(const GearNeed& need, std::span<const GearKind> gear);

// The recipe's needs with every count that it leaves open (0, of clamps or go-bars) worked out: what gear_count() asks of the
// plainest kind. The wood does not matter to it, so an unknown wood does no harm.
//   Shape    total: at least 1 where it cannot be worked out
[[nodiscard]] std::vector<GearNeed> needs_of(const Recipe& recipe, const Joint& joint,
                                             std::span<const GearKind> gear);

}  // namespace squeezeout
