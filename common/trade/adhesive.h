#pragma once
// Adhesive sheets: what the shop knows of a glue, by chemistry.
//   Source   figures of a sheet are the shop's own (the label on the bottle overrides common practice); trade/SOURCES.md#sheets

#include <string>
#include <string_view>
#include <vector>

#include "common/base/ids.h"
#include "common/base/quantity.h"
#include "common/base/result.h"
#include "common/time/span.h"

namespace squeezeout {

enum class Chemistry {
  aliphatic,
  aliphatic_slow,
  pva,
  pva_crosslinking,
  hide_hot,
  hide_liquid,
  fish,
  cyanoacrylate,
  polyurethane,
  epoxy_fast,
  epoxy_slow,
  solvent_cement
};
inline constexpr int kChemistries = 12;
std::string_view to_string(Chemistry c);  // "aliphatic resin", "hot hide", ...

// What makes it set: decides how its open time follows the weather and what may stand beside it.
enum class Sets {
  by_water,     // loses water: PVA, aliphatic, hide, fish
  by_reaction,  // epoxy, polyurethane, cyanoacrylate
  by_solvent    // loses solvent: cement
};
[[nodiscard]] Sets sets(Chemistry c);
// Mixed in a pot: its working life runs from the mix, for every glue-up that is spread from it.
[[nodiscard]] bool mixed(Chemistry c);

struct DwellPoint {
  Celsius wood;
  Seconds dwell;
  friend bool operator==(const DwellPoint&, const DwellPoint&) = default;
};

// A solvent that goes into the air of the shop when the glue is used.
struct Solvent {
  std::string name;  // key of trade/exposure.h: "butanone"; empty: none
  double grams_per_use = 0;
  friend bool operator==(const Solvent&, const Solvent&) = default;
};

// Terms: open assembly, spread until faces meet; closed assembly, faces meet until pressure; working life, in the pot; clamp
// time; storage life (ASTM D907). Times hold at about 20 C and 50 %, unless a point says its temperature.
struct AdhesiveSheet {
  SheetId id;
  std::string key, name;
  Chemistry chemistry = Chemistry::aliphatic;
  Seconds open;                   // open and closed assembly together: spread until pressure
  Seconds closed{};               // of it, at most this after the faces meet; 0: no word on it
  Seconds working_life{};         // of a mixed pot, or of glue in its heated pot; 0: not mixed
  std::vector<DwellPoint> dwell;  // at least one, strictly rising temperature
  // Reacting glue: kJ/mol, and `dwell` is one point that the others follow from; 0: straight lines between the points.
  double activation_kj = 0;
  Seconds wait;         // from clamps on until the joint may be worked
  Seconds full_cure{};  // until it has its whole strength; 0: no word on it
  Celsius floor;        // below it a glue-up is blocked
  int shelf_days = 0;   // storage life, kept cool; 0: no word on it
  Solvent solvent;
  std::string caution;  // shown wherever this glue is chosen
  std::string source;   // "common practice", "label", "shop's own trial"
  friend bool operator==(const AdhesiveSheet&, const AdhesiveSheet&) = default;
};

}  // namespace squeezeout
