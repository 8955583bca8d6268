#pragma once
// Recipes: what is glued and how. A recipe says what a glue-up of its kind needs, before any clock or ledger is asked.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "common/base/ids.h"
#include "common/craft/joint.h"
#include "common/gear/kind.h"
#include "common/time/span.h"
#include "common/trade/dwell.h"

namespace squeezeout {

// Sides in a heated form. The bend lies within `assembly`; what follows is the dwell.
struct Heat {
  Seconds hold{}, cool{};  // hold: hot, in shape; cool: in the form until it can be touched
  Celsius form{};          // how hot the form gets
  friend bool operator==(const Heat&, const Heat&) = default;
};

struct Recipe {
  RecipeId id;
  std::string key, name;  // "bridge-plate", "Bridge plate"
  std::vector<SheetId>
      glues;  // which may be used, usual one first; none: a recipe without glue (bending sides)
  Seconds stage{};     // gear laid out, dry run; attended, gear held
  Seconds assembly{};  // spreading until the last clamp is on; attended
  Seconds release{};   // clamps off; attended, gear held to its end
  std::optional<Seconds>
      dwell;  // at least this; the sheet may ask for more (a recipe without glue must give it)
  std::optional<Seconds> wait;  // overrides the sheet's
  std::vector<GearNeed> needs;  // all held from stage to the end of release
  Joint joint;
  std::optional<Heat> heat;
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
  Seconds fumes{};       // solvent is in the air for this long from the spreading on; 0: none
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

// Lengths and needs of a recipe with one of its glues, as the sheet and the recipe give them. The hour changes open time, dwell
// and wait: craft/curing.h.
//   sheet     null for a recipe without glue
//   assembly  spreading to the last clamp, as it is planned
[[nodiscard]] Demand demand_of(const Recipe& recipe, const AdhesiveSheet* sheet, Seconds assembly);

// Solvent hangs in the air for this long after the clamps are on. Our model; the shop's airing decides.
inline constexpr Seconds kFlashOff = Minutes{10};

}  // namespace squeezeout
