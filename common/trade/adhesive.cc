#include "common/trade/adhesive.h"

#include <array>

#include "common/base/check.h"

namespace squeezeout {

std::string_view to_string(Chemistry c) {
  static constexpr std::array<std::string_view, kChemistries> kWords{
      "aliphatic resin", "slow-set aliphatic", "PVA",        "cross-linking PVA",
      "hot hide",        "liquid hide",        "fish glue",  "cyanoacrylate",
      "polyurethane",    "five-minute epoxy",  "slow epoxy", "solvent cement"};
  return kWords.at(static_cast<std::size_t>(c));
}

Sets sets(Chemistry c) {
  switch (c) {
    case Chemistry::aliphatic:
    case Chemistry::aliphatic_slow:
    case Chemistry::pva:
    case Chemistry::pva_crosslinking:
    case Chemistry::hide_hot:
    case Chemistry::hide_liquid:
    case Chemistry::fish:
      return Sets::by_water;
    case Chemistry::cyanoacrylate:
    case Chemistry::polyurethane:
    case Chemistry::epoxy_fast:
    case Chemistry::epoxy_slow:
      return Sets::by_reaction;
    case Chemistry::solvent_cement:
      return Sets::by_solvent;
  }
  CHECK(false);
  return Sets::by_water;
}

// Hot hide glue's pot is heated, not mixed: it may be warmed again.
bool mixed(Chemistry c) { return c == Chemistry::epoxy_fast || c == Chemistry::epoxy_slow; }

}  // namespace squeezeout
