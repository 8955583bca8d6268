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

void turn_glue(Shop& shop, const std::string& key) {
  const AdhesiveSheet* own = keyed(shop.sheets, key);
  if (own == nullptr) {
    if (const AdhesiveSheet* common = keyed(starter().sheets, key)) take_in(shop, *common);
    return;
  }
  const SheetId gone = own->id;
  std::erase_if(shop.sheets, [&](const AdhesiveSheet& s) { return s.id == gone; });
  for (Recipe& r : shop.recipes) std::erase(r.glues, gone);
}

void turn_recipe(Shop& shop, const std::string& key) {
  const Recipe* own = keyed(shop.recipes, key);
  if (own == nullptr) {
    const Recipe* common = keyed(starter().recipes, key);
    if (common == nullptr) return;
    Copied taken = copied(shop, *common);
    if (taken.glue != nullptr)
      taken.recipe.glues.insert(taken.recipe.glues.begin(), take_in(shop, *taken.glue));
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

void edit_craft(Shop& shop, const Edit& edit) {
  if (edit.what == Edit::What::glue) turn_glue(shop, edit.text);
  if (edit.what == Edit::What::recipe) turn_recipe(shop, edit.text);
}

}  // namespace squeezeout::draft
