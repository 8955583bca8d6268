#include "common/craft/recipe.h"

#include <algorithm>

namespace squeezeout {

Demand demand_of(const Recipe& recipe, const AdhesiveSheet* sheet, Seconds assembly) {
  Demand d{.stage = recipe.stage,
           .assembly = assembly,
           .release = recipe.release,
           .needs = recipe.needs};
  d.dwell = recipe.dwell.value_or(recipe.heat ? recipe.heat->hold + recipe.heat->cool : Seconds{0});
  d.wait = recipe.wait.value_or(sheet ? sheet->wait : Seconds{0});
  if (!sheet) return d;
  d.dwell = std::max(d.dwell, sheet->dwell.front().dwell);
  d.open_limit = sheet->open;
  if (sets(sheet->chemistry) == Sets::by_solvent) d.fumes = assembly + kFlashOff;
  return d;
}

}  // namespace squeezeout
