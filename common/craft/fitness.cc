#include "common/craft/fitness.h"

#include <algorithm>
#include <array>
#include <optional>

#include "common/craft/faces.h"
#include "common/trade/exposure.h"

namespace squeezeout {
namespace {

// A line wider than a good glue line (0.08 to 0.15 mm) wants a glue that fills: common practice, as all here.
constexpr Millimetre kWidestLine{0.15};

// Comes apart again with heat, or heat and water.
bool parts_again(Chemistry c) {
  switch (c) {
    case Chemistry::aliphatic:
    case Chemistry::aliphatic_slow:
    case Chemistry::pva:
    case Chemistry::hide_hot:
    case Chemistry::hide_liquid:
    case Chemistry::fish:
      return true;
    default:
      return false;
  }
}

// Creeps or softens in a car in the sun, by common practice.
bool softens(Chemistry c) {
  switch (c) {
    case Chemistry::pva:
    case Chemistry::hide_liquid:
    case Chemistry::fish:
    case Chemistry::epoxy_fast:
      return true;
    default:
      return false;
  }
}

struct Case {
  const Joint& joint;
  const AdhesiveSheet& sheet;
  const Circumstances& about;
  Faces faces;

  Chemistry chemistry() const { return sheet.chemistry; }
  bool brings_water() const { return sets(sheet.chemistry) == Sets::by_water; }
};
using Spoken = std::optional<Reason>;

Spoken place(const Case& c) {
  switch (c.about.place) {
    case Circumstances::Place::usual:
      return Reason{Rule::usual, Verdict::fits};
    case Circumstances::Place::in_recipe:
      return Reason{Rule::in_recipe, Verdict::fits};
    case Circumstances::Place::elsewhere:
      break;
  }
  return Reason{Rule::not_in_recipe, Verdict::unfit};
}

Spoken oily(const Case& c) {
  if (!c.faces.oily()) return std::nullopt;
  if (is_epoxy(c.chemistry())) return Reason{Rule::holds_oily, Verdict::fits};
  return Reason{Rule::oily_wood, Verdict::warn};  // on a face wiped just before
}

Spoken plastic(const Case& c) {
  if (c.chemistry() == Chemistry::solvent_cement) {
    if (c.faces.plastic()) return Reason{Rule::for_plastic, Verdict::fits};
    if (c.faces.named()) return Reason{Rule::cement_on_wood, Verdict::unfit};
    return std::nullopt;
  }
  if (!c.faces.plastic()) return std::nullopt;
  // Cyanoacrylate does hold plastic, if brittly.
  const bool holds = c.chemistry() == Chemistry::cyanoacrylate;
  return Reason{Rule::not_for_plastic, holds ? Verdict::warn : Verdict::unfit};
}

// A build of dark woods shows no stain where the recipe fears one.
Spoken stains(const Case& c) {
  if (c.chemistry() != Chemistry::pva_crosslinking || !c.joint.has(Trait::pale))
    return std::nullopt;
  if (c.faces.a && c.faces.b && !c.faces.pale()) return std::nullopt;
  return Reason{Rule::stains_pale, Verdict::warn};
}

Spoken neck(const Case& c) {
  if (!c.joint.has(Trait::beside_neck)) return std::nullopt;
  if (c.brings_water()) return Reason{Rule::water_beside_neck, Verdict::unfit};
  return Reason{Rule::no_water, Verdict::fits};
}

Spoken heat(const Case& c) {
  if (!c.joint.has(Trait::hot_in_service) || !softens(c.chemistry())) return std::nullopt;
  return Reason{Rule::softens_when_hot, Verdict::warn};
}

Spoken gap(const Case& c) {
  if (is_epoxy(c.chemistry()) || !(c.joint.gap > kWidestLine)) return std::nullopt;
  return Reason{Rule::gap_too_wide, Verdict::unfit};
}

Spoken reversible(const Case& c) {
  if (!c.joint.has(Trait::reversible)) return std::nullopt;
  if (parts_again(c.chemistry())) return Reason{Rule::comes_apart, Verdict::fits};
  return Reason{Rule::not_reversible, Verdict::warn};
}

Spoken practice(const Case& c) {
  if (c.chemistry() != Chemistry::hide_hot) return std::nullopt;
  return Reason{Rule::wants_practice, Verdict::warn};
}

Spoken cold(const Case& c) {
  if (!c.about.too_cold) return std::nullopt;
  return Reason{Rule::below_floor, Verdict::blocked};
}

Spoken open_time(const Case& c) {
  if (c.about.open <= Seconds{0}) return std::nullopt;  // not said
  if (c.about.assembly > c.about.open) return Reason{Rule::skins_first, Verdict::unfit};
  if (c.about.overrun_chance > kOneInFive) return Reason{Rule::may_skin, Verdict::warn};
  return std::nullopt;
}

Spoken lot(const Case& c) {
  switch (c.about.lot) {
    case LotAge::stale:
      return Reason{Rule::stale_lot,
                    c.joint.has(Trait::structural) ? Verdict::blocked : Verdict::warn};
    case LotAge::old:
      return Reason{Rule::old_lot, Verdict::warn};
    case LotAge::unknown:
    case LotAge::fresh:
      break;
  }
  return std::nullopt;
}

Spoken banned(const Case& c) {
  const auto facts = solvent(c.sheet.solvent.name);
  if (!facts || !(*facts)->refused_by_default) return std::nullopt;
  return Reason{Rule::banned_solvent, Verdict::blocked};
}

Spoken skin(const Case& c) {
  if (!is_epoxy(c.chemistry()) && c.chemistry() != Chemistry::polyurethane) return std::nullopt;
  return Reason{Rule::sensitises, Verdict::warn};
}

constexpr std::array kRulesInOrder{place,      oily,     plastic, stains,    neck, heat,   gap,
                                   reversible, practice, cold,    open_time, lot,  banned, skin};

// What was made for such a joint outweighs what is usual, and that outweighs a warning or two.
int mark(const Reason& r) {
  switch (r.rule) {
    case Rule::holds_oily:
    case Rule::no_water:
    case Rule::for_plastic:
    case Rule::comes_apart:
      return 10;
    case Rule::usual:
      return 5;
    default:
      return r.verdict == Verdict::warn ? -2 : 0;
  }
}

bool before(const Reason& a, const Reason& b) {
  return a.verdict != b.verdict ? a.verdict > b.verdict : a.rule < b.rule;
}

}  // namespace

bool is_epoxy(Chemistry c) { return c == Chemistry::epoxy_fast || c == Chemistry::epoxy_slow; }

Result<Fitness, UnknownMaterial> fitness_of(const Joint& joint, const AdhesiveSheet& sheet,
                                            const Circumstances& about) {
  const auto faces = faces_of(joint);
  if (!faces) return Unexpected{faces.error()};
  const Case c{joint, sheet, about, *faces};
  Fitness out{.sheet = sheet.id};
  for (const auto& rule : kRulesInOrder) {
    const Spoken reason = rule(c);
    if (!reason) continue;
    out.reasons.push_back(*reason);
    out.marks += mark(*reason);
  }
  // What was made for such faces may come from outside the recipe, unless the joint shall come apart again.
  const auto made_for = [](const Reason& r) {
    return r.rule == Rule::holds_oily || r.rule == Rule::for_plastic;
  };
  const bool parts = !joint.has(Trait::reversible) || parts_again(sheet.chemistry);
  if (parts && std::any_of(out.reasons.begin(), out.reasons.end(), made_for)) {
    for (Reason& r : out.reasons) {
      if (r.rule == Rule::not_in_recipe) r.verdict = Verdict::warn;
    }
  }
  for (const Reason& r : out.reasons) out.verdict = std::max(out.verdict, r.verdict);
  std::sort(out.reasons.begin(), out.reasons.end(), before);
  return out;
}

std::vector<Fitness> ranked(std::vector<Fitness> all) {
  std::sort(all.begin(), all.end(), [](const Fitness& a, const Fitness& b) {
    if (a.verdict != b.verdict) return a.verdict < b.verdict;
    if (a.marks != b.marks) return a.marks > b.marks;
    return a.sheet < b.sheet;
  });
  return all;
}

}  // namespace squeezeout
