#pragma once
// What a draft still lacks before it can be opened: facts, each with the page that mends it. The words are the screen's.

#include <vector>

#include "client/draft/draft.h"
#include "client/draft/starter.h"

namespace squeezeout::draft {

// A need of a recipe that the shop's gear does not meet.
struct NeedLack {
  std::string recipe;  // its key
  GearNeed need;
  int owned = 0;  // that would do
};
[[nodiscard]] std::vector<NeedLack> need_lacks(const Shop& shop, const Recipe& recipe);

// What more pieces of would meet a need: a kind of the shop's own, else of the starter set; null: nothing that is known here.
[[nodiscard]] Offered<GearKind> that_meets(const Shop& shop, const GearNeed& need);

struct Lack {
  enum class What {
    name,
    zone,
    hours,
    benches,
    builders,
    gear,
    glues,
    recipes,
    recipe_gear,
    recipe_glue
  };
  What what = What::name;
  Page page = Page::shop;
  std::string recipe;  // its key
  GearNeed need;
  int owned = 0;
};
[[nodiscard]] std::vector<Lack> lacks(const Shop& shop);

// A starter recipe as this shop can have it: glues that it has (its usual one comes with it), needs in the style of what it owns.
// What is too small or too few stays a lack, and is told.
struct Copied {
  Recipe recipe;
  const AdhesiveSheet* glue =
      nullptr;  // of the starter set, to be taken in with it; null: the shop has one
};
[[nodiscard]] Copied copied(const Shop& shop, const Recipe& from);

// What opening the draft would change in the running shop: things by name.
struct Changes {
  std::vector<std::string> added, changed, removed;
  bool none() const { return added.empty() && changed.empty() && removed.empty(); }
};
[[nodiscard]] Changes changes(const Shop& running, const Shop& draft);

}  // namespace squeezeout::draft
