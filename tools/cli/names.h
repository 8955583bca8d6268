#pragma once
// What people call things: a key ("deep-clamp"), a name ("Deep clamp"), the start of one when only one begins so, or a number
// ("14" is "No. 14" when a name ends so, else the floor's own number).
//   Stops   Exit::wrong_use: nothing is called so (says the nearest), or several begin so (says which)

#include <string>
#include <string_view>
#include <vector>

#include "common/floor/state.h"

namespace squeezeout::cli {

struct Named {
  std::uint32_t id = 0;
  std::string key, name;
};
// `what` is the word for the things, as in "recipe".
[[nodiscard]] std::uint32_t find_named(std::string_view what, const std::vector<Named>& things,
                                       const std::string& text);

[[nodiscard]] RecipeId find_recipe(const Shop& shop, const std::string& text);
[[nodiscard]] BuildId find_build(const Shop& shop, const std::string& text);
[[nodiscard]] BuilderId find_builder(const Shop& shop, const std::string& text);
[[nodiscard]] BenchId find_bench(const Shop& shop, const std::string& text);
[[nodiscard]] SheetId find_glue(const Shop& shop, const std::string& text);
[[nodiscard]] GearKindId find_gear(const Shop& shop, const std::string& text);
// By its number, or by what is written on it.
[[nodiscard]] LotId find_lot(const Floor& floor, const std::string& text);

}  // namespace squeezeout::cli
