#pragma once
// Recipes: what is glued and how. A recipe says what a glue-up of its kind needs, before any clock or ledger is asked.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "common/base/ids.h"
#include "common/gear/kind.h"
#include "common/time/span.h"
#include "common/trade/adhesive.h"

namespace squeezeout {

struct Recipe {
  RecipeId id;
  std::string key, name;  // "bridge-plate", "Bridge plate"
  std::vector<SheetId>
      glues;      // which may be used, usual one first; none: a recipe without glue (bending sides)
  Seconds stage;  // gear laid out, dry run; attended, gear held
  Seconds assembly;  // spreading until the last clamp is on; attended
  Seconds release;   // clamps off; attended, gear held to its end
  std::optional<Seconds>
      dwell;  // at least this; the sheet may ask for more (a recipe without glue must give it)
  std::optional<Seconds> wait;  // overrides the sheet's
  std::vector<GearNeed> needs;  // all held from stage to the end of release
  std::string
      finish;  // the work that waits for `ready`: "scrape", "level", "string up"; empty: none
  std::string caution;
  bool usual = false;  // a tile on the bench screen
  friend bool operator==(const Recipe&, const Recipe&) = default;
};

// What the slot finder is asked for: lengths and needs, all computed.
struct Demand {
  Seconds stage{}, assembly{}, dwell{}, release{}, wait{};
  Seconds open_limit{};  // clamps on within this after the glue is spread; 0: no glue, no limit
  std::vector<GearNeed> needs{};
  friend bool operator==(const Demand&, const Demand&) = default;
};

struct OpenTooShort {  // the builder needs longer to get the clamps on than the glue stays open
  SheetId sheet;
  Seconds assembly, open;
  friend bool operator==(const OpenTooShort&, const OpenTooShort&) = default;
};
struct GlueNotInRecipe {
  SheetId sheet;
  friend bool operator==(const GlueNotInRecipe&, const GlueNotInRecipe&) = default;
};
using Unfit = std::variant<BelowFloor, OpenTooShort, GlueNotInRecipe>;

// Lengths and needs of a recipe with one of its glues, at one wood temperature.
//   sheet   null for a recipe without glue
//   Refuses BelowFloor, OpenTooShort, GlueNotInRecipe
[[nodiscard]] Result<Demand, Unfit> demand_of(const Recipe& recipe, const AdhesiveSheet* sheet,
                                              Celsius wood);

}  // namespace squeezeout
