#include "client/draft/lacks.h"

#include <algorithm>

#include "client/draft/starter.h"
#include "common/craft/gear_count.h"

namespace squeezeout::draft {
namespace {

using What = Lack::What;

int owned_for(const Shop& shop, const GearNeed& need) {
  int owned = 0;
  for (const GearKind& kind : shop.gear)
    if (good_enough(kind, need)) owned += kind.stock;
  return owned;
}

// What holds a joint, and has lost its glues. Bent sides have none, nor has what only rests in a mould.
bool glueless(const Recipe& recipe) {
  return recipe.glues.empty() && !recipe.heat && (!recipe.dwell || recipe.joint.described());
}

bool met(const Shop& shop, const GearNeed& need) {
  return owned_for(shop, need) >= std::max(1, need.count);
}

// In the style that the shop has, when what it has is large enough and enough.
GearNeed mapped(const Shop& shop, const GearNeed& need) {
  GearNeed any_style = need, any_outline = need;
  any_style.style.clear();
  any_outline.outline.clear();
  if (met(shop, need)) return need;
  if (met(shop, any_outline)) return any_outline;
  const bool pieces = need.gear_class == GearClass::clamp || need.gear_class == GearClass::go_bar;
  return pieces && met(shop, any_style) ? any_style : need;
}

}  // namespace

std::vector<NeedLack> need_lacks(const Shop& shop, const Recipe& recipe) {
  std::vector<NeedLack> out;
  for (GearNeed need : needs_of(recipe, recipe.joint, shop.gear)) {
    need.count = std::max(1, need.count);
    const int owned = owned_for(shop, need);
    if (owned < need.count) out.push_back({recipe.key, need, owned});
  }
  return out;
}

Offered<GearKind> that_meets(const Shop& shop, const GearNeed& need) {
  for (const GearKind& k : shop.gear)
    if (k.tag.empty() && good_enough(k, need)) return {&k, true};
  for (const GearKind& k : starter().gear)
    if (k.tag.empty() && good_enough(k, need)) return {&k, false};
  return {nullptr, false};
}

std::vector<Lack> lacks(const Shop& shop) {
  std::vector<Lack> out;
  const auto lack = [&](bool so, What what, Page page) {
    if (so) out.push_back({.what = what, .page = page, .recipe = {}, .need = {}});
  };
  const auto nameless = [](const auto& things) {
    return things.empty() ||
           std::any_of(things.begin(), things.end(), [](const auto& t) { return t.name.empty(); });
  };
  lack(shop.name.empty(), What::name, Page::shop);
  lack(!Zone::find(shop.zone), What::zone, Page::shop);
  lack(std::all_of(shop.hours.weekday.begin(), shop.hours.weekday.end(),
                   [](const auto& day) { return day.empty(); }),
       What::hours, Page::hours);
  lack(nameless(shop.benches), What::benches, Page::people);
  lack(nameless(shop.builders), What::builders, Page::people);
  lack(std::none_of(shop.gear.begin(), shop.gear.end(),
                    [](const GearKind& k) { return k.stock > 0; }),
       What::gear, Page::gear);
  lack(shop.sheets.empty(), What::glues, Page::glues);
  lack(shop.recipes.empty(), What::recipes, Page::recipes);
  for (const Recipe& recipe : shop.recipes) {
    if (glueless(recipe))
      out.push_back(
          {.what = What::recipe_glue, .page = Page::glues, .recipe = recipe.key, .need = {}});
    for (const NeedLack& n : need_lacks(shop, recipe))
      out.push_back({What::recipe_gear, Page::gear, recipe.key, n.need, n.owned});
  }
  return out;
}

Copied copied(const Shop& shop, const Recipe& from) {
  Copied out{from};
  out.recipe.glues.clear();
  for (const SheetId id : from.glues)
    for (const AdhesiveSheet& common : starter().sheets)
      if (common.id == id)
        if (const AdhesiveSheet* own = keyed(shop.sheets, common.key))
          out.recipe.glues.push_back(own->id);
  if (out.recipe.glues.empty() && !from.glues.empty())
    for (const AdhesiveSheet& common : starter().sheets)
      if (common.id == from.glues.front()) out.glue = &common;
  for (GearNeed& need : out.recipe.needs) need = mapped(shop, need);
  return out;
}

}  // namespace squeezeout::draft
