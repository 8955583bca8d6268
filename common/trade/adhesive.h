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

struct DwellPoint {
  Celsius wood;
  Seconds dwell;
  friend bool operator==(const DwellPoint&, const DwellPoint&) = default;
};

struct AdhesiveSheet {
  SheetId id;
  std::string key, name;
  Chemistry chemistry = Chemistry::aliphatic;
  Seconds open;                   // spread until pressure, at about 20 C and 50 %
  std::vector<DwellPoint> dwell;  // at least one, strictly rising temperature
  Seconds wait;                   // from clamps on until the joint may be worked
  Celsius floor;                  // below it a glue-up is blocked
  std::string caution;            // shown wherever this glue is chosen
  std::string source;             // "common practice", "label", "shop's own trial"
  friend bool operator==(const AdhesiveSheet&, const AdhesiveSheet&) = default;
};

struct BelowFloor {
  SheetId sheet;
  Celsius wood, floor;
  friend bool operator==(const BelowFloor&, const BelowFloor&) = default;
};

// How long a joint stays clamped ("dwell") at one wood temperature: linear between the sheet's points, constant outside
// them on the warm side (warmth beyond the sheet earns nothing), and on the cold side only down to the floor.
//   Shape    sheet: at least one point, strictly rising temperature
//   Units    Celsius in; whole seconds out, rounded UP (down frees a clamp early)
//   Refuses  BelowFloor: colder than the sheet allows; between the floor and the coldest point the line is held, never extended
//   Source   trade/SOURCES.md#dwell
[[nodiscard]] Result<Seconds, BelowFloor> dwell_at(const AdhesiveSheet& sheet, Celsius wood);

}  // namespace squeezeout
