#include "common/trade/adhesive.h"

#include <array>
#include <cmath>

namespace squeezeout {

std::string_view to_string(Chemistry c) {
  static constexpr std::array<std::string_view, kChemistries> kWords{
      "aliphatic resin", "slow-set aliphatic", "PVA",        "cross-linking PVA",
      "hot hide",        "liquid hide",        "fish glue",  "cyanoacrylate",
      "polyurethane",    "five-minute epoxy",  "slow epoxy", "solvent cement"};
  return kWords.at(static_cast<std::size_t>(c));
}

Result<Seconds, BelowFloor> dwell_at(const AdhesiveSheet& sheet, Celsius wood) {
  CHECK(!sheet.dwell.empty());
  if (!(wood >= sheet.floor)) return Unexpected{BelowFloor{sheet.id, wood, sheet.floor}};
  if (wood <= sheet.dwell.front().wood) return sheet.dwell.front().dwell;
  for (std::size_t i = 1; i < sheet.dwell.size(); ++i) {
    const DwellPoint& a = sheet.dwell[i - 1];
    const DwellPoint& b = sheet.dwell[i];
    CHECK(a.wood < b.wood);
    if (wood <= b.wood) {
      const double share = (wood - a.wood).value / (b.wood - a.wood).value;
      const double seconds = static_cast<double>(a.dwell.count()) +
                             share * static_cast<double>((b.dwell - a.dwell).count());
      return Seconds{static_cast<Seconds::rep>(std::ceil(seconds))};
    }
  }
  return sheet.dwell.back().dwell;
}

}  // namespace squeezeout
