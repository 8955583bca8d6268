#include "common/plan/recipe.h"

#include <algorithm>

namespace squeezeout {

Result<Demand, Unfit> demand_of(const Recipe& recipe, const AdhesiveSheet* sheet, Celsius wood) {
  Demand d{.stage = recipe.stage,
           .assembly = recipe.assembly,
           .release = recipe.release,
           .needs = recipe.needs};
  if (!sheet) {
    if (!recipe.glues.empty()) return Unexpected{Unfit{GlueNotInRecipe{}}};
    d.dwell = recipe.dwell.value_or(Seconds{0});
    d.wait = recipe.wait.value_or(Seconds{0});
    return d;
  }
  if (std::find(recipe.glues.begin(), recipe.glues.end(), sheet->id) == recipe.glues.end()) {
    return Unexpected{Unfit{GlueNotInRecipe{sheet->id}}};
  }
  const auto dwell = dwell_at(*sheet, wood);
  if (!dwell) return Unexpected{Unfit{dwell.error()}};
  if (recipe.assembly > sheet->open)
    return Unexpected{Unfit{OpenTooShort{sheet->id, recipe.assembly, sheet->open}}};
  // A recipe may ask for more than the sheet; the cold may ask for more than both.
  d.dwell = std::max(*dwell, recipe.dwell.value_or(Seconds{0}));
  d.wait = recipe.wait.value_or(sheet->wait);
  d.open_limit = sheet->open;
  return d;
}

}  // namespace squeezeout
