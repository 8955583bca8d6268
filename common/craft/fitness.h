#pragma once
// Fitness: which glue suits a joint, by rules that each have a reason.
//   Shape    a verdict is the worst of its reasons; ranked() puts what fits first, then by how good, ties by id
//   Source   trade/SOURCES.md#fitness (common practice; a test joint decides)

#include <variant>
#include <vector>

#include "common/craft/joint.h"
#include "common/craft/lot.h"
#include "common/craft/recipe.h"
#include "common/trade/cure.h"
#include "common/trade/material.h"

namespace squeezeout {

// Planned times are those that four in five glue-ups keep: a chance to skin above it is worth a word.
inline constexpr double kOneInFive = 0.2;

enum class Verdict {
  fits,
  warn,     // shown; nothing to be done for it
  unfit,    // needs the builder's reason, which is recorded
  blocked,  // no reason helps
};

enum class Rule {
  usual,              // fits: the recipe's usual glue
  in_recipe,          // fits
  holds_oily,         // fits: epoxy on oily wood
  no_water,           // fits: beside a neck
  for_plastic,        // fits: cement on plastic
  comes_apart,        // fits: reversible, as asked
  not_in_recipe,      // unfit
  oily_wood,          // warn: wants epoxy, or a solvent wipe just before
  not_for_plastic,    // unfit: plastic to wood wants solvent cement; cyanoacrylate warn
  cement_on_wood,     // unfit: cement dissolves plastic, it does not hold wood
  stains_pale,        // warn
  water_beside_neck,  // unfit
  softens_when_hot,   // warn: creeps or softens in a hot car
  gap_too_wide,       // unfit: only epoxy fills
  not_reversible,     // warn
  wants_practice,     // warn: hot hide: warm parts, a dry run that went well
  below_floor,        // blocked: the film would not form
  skins_first,        // unfit: the open time is shorter than the builder's own time for it
  may_skin,           // warn: above one in five of the builder's own outlast the open time
  stale_lot,          // blocked for a structural joint, else warn
  old_lot,            // warn
  banned_solvent,     // blocked
  sensitises,         // warn: skin, lungs
};
inline constexpr int kRules = 23;

struct Reason {
  Rule rule = Rule::usual;
  Verdict verdict = Verdict::fits;
  friend bool operator==(const Reason&, const Reason&) = default;
};

struct Fitness {
  SheetId sheet;
  Verdict verdict = Verdict::fits;
  int marks = 0;                // higher is better, among those of one verdict
  std::vector<Reason> reasons;  // worst first
  friend bool operator==(const Fitness&, const Fitness&) = default;
};

// What the rules look at, beside the joint and the sheet.
struct Circumstances {
  enum class Place { usual, in_recipe, elsewhere } place = Place::elsewhere;
  bool too_cold = false;         // somewhere between spreading and the end of the dwell
  Seconds assembly{};            // as planned for this builder
  Seconds open{};                // at the hour of use
  double overrun_chance = 0;     // from the builder's own glue-ups
  LotAge lot = LotAge::unknown;  // of the freshest bottle
};

[[nodiscard]] bool is_epoxy(Chemistry c);

// Both faces are looked up; a face without a material asks nothing.
[[nodiscard]] Result<Fitness, UnknownMaterial> fitness_of(const Joint& joint,
                                                          const AdhesiveSheet& sheet,
                                                          const Circumstances& about);
[[nodiscard]] std::vector<Fitness> ranked(std::vector<Fitness> all);

// A glue that does not suit, for a Reserve without a reason; or that no reason helps.
struct Unsuited {
  SheetId sheet;
  std::vector<Reason> reasons;  // those that stand in the way
  friend bool operator==(const Unsuited&, const Unsuited&) = default;
};
struct StaleLot {
  SheetId sheet;
  LotId lot;  // the freshest
  Instant since{};
  friend bool operator==(const StaleLot&, const StaleLot&) = default;
};
using Unfit = std::variant<BelowFloor, OpenTooShort, GlueNotInRecipe, Unsuited, StaleLot>;

}  // namespace squeezeout
