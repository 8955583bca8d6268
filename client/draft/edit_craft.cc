#include <algorithm>

#include "client/draft/edit_parts.h"
#include "client/draft/lacks.h"
#include "client/draft/starter.h"

namespace squeezeout::draft {
namespace {

SheetId take_in(Shop& shop, AdhesiveSheet sheet) {
  sheet.id = free_id<SheetId>(shop.sheets);
  shop.sheets.push_back(std::move(sheet));
  return shop.sheets.back().id;
}

std::string key_of(const Shop& shop, SheetId id) {
  for (const AdhesiveSheet& s : shop.sheets)
    if (s.id == id) return s.key;
  return {};
}

// Into the recipe, in the order of the one that names it; the recipe has others of its glues, or none.
void put_back(const Shop& shop, Recipe& recipe, const Shop& pattern, const AdhesiveSheet& glue) {
  const Recipe* named = keyed(pattern.recipes, recipe.key);
  if (named == nullptr) return;
  auto at = recipe.glues.begin();
  for (const SheetId id : named->glues) {
    const std::string key = key_of(pattern, id);
    if (key == glue.key) {
      recipe.glues.insert(at, glue.id);
      return;
    }
    const auto after = std::find_if(recipe.glues.begin(), recipe.glues.end(),
                                    [&](SheetId own) { return key_of(shop, own) == key; });
    if (after != recipe.glues.end()) at = std::max(at, after + 1);
  }
}

SheetId take_glue(Shop& shop, const AdhesiveSheet& sheet, const Shop* running) {
  const SheetId id = take_in(shop, sheet);
  for (Recipe& r : shop.recipes) {
    const bool runs = running != nullptr && keyed(running->recipes, r.key) != nullptr;
    put_back(shop, r, runs ? *running : starter(), shop.sheets.back());
  }
  return id;
}

void turn_glue(Shop& shop, const std::string& key, const Shop* running) {
  const AdhesiveSheet* own = keyed(shop.sheets, key);
  if (own == nullptr) {
    const AdhesiveSheet* glue = running != nullptr ? keyed(running->sheets, key) : nullptr;
    if (glue == nullptr) glue = keyed(starter().sheets, key);
    if (glue != nullptr) (void)take_glue(shop, *glue, running);
    return;
  }
  const SheetId gone = own->id;
  std::erase_if(shop.sheets, [&](const AdhesiveSheet& s) { return s.id == gone; });
  for (Recipe& r : shop.recipes) std::erase(r.glues, gone);
}

void turn_recipe(Shop& shop, const std::string& key, const Shop* running) {
  const Recipe* own = keyed(shop.recipes, key);
  if (own == nullptr) {
    const Recipe* common = keyed(starter().recipes, key);
    if (common == nullptr) return;
    Copied taken = copied(shop, *common);
    if (taken.glue != nullptr)
      taken.recipe.glues.insert(taken.recipe.glues.begin(), take_glue(shop, *taken.glue, running));
    taken.recipe.id = free_id<RecipeId>(shop.recipes);
    shop.recipes.push_back(std::move(taken.recipe));
    return;
  }
  const RecipeId gone = own->id;
  for (const Build& b : shop.builds)
    if (std::find(b.steps.begin(), b.steps.end(), gone) != b.steps.end()) return;
  std::erase_if(shop.recipes, [&](const Recipe& r) { return r.id == gone; });
}

}  // namespace

void edit_craft(Shop& shop, const Edit& edit, const Shop* running) {
  if (edit.what == Edit::What::glue) turn_glue(shop, edit.text, running);
  if (edit.what == Edit::What::recipe) turn_recipe(shop, edit.text, running);
}

}  // namespace squeezeout::draft
