#pragma once
// A draft held against what the server will hold it against: the checks of the shop file, then the running floor.

#include "client/draft/draft.h"
#include "common/floor/refusal.h"
#include "common/floor/state.h"

namespace squeezeout::draft {

// The floor's shop, with the counts that were taken last: in its file or at a bench.
[[nodiscard]] std::optional<Shop> as_counted(const Floor& floor);

struct Trial {
  std::optional<Shop> shop;  // as it would be loaded; none: a file with it would be refused
  std::vector<std::string> mistakes;  // of the file's checks, in their words
  std::optional<Refusal> refusal;     // of the floor
  struct First {
    RecipeId recipe;
    Instant at{};
  };
  std::vector<First>
      firsts;  // what a bench could reserve at once: the usual recipes, or the first ones
  std::optional<Floor> floor;  // with the shop loaded
};
[[nodiscard]] Trial tried(const Floor& floor, const Shop& shop, Instant now);

}  // namespace squeezeout::draft
