#include <algorithm>

#include "client/draft/edit_parts.h"
#include "client/draft/lacks.h"
#include "client/draft/starter.h"

namespace squeezeout::draft {
namespace {

GearKind* find(Shop& shop, const std::string& key) {
  for (GearKind& k : shop.gear)
    if (k.key == key) return &k;
  return nullptr;
}

void take_in(Shop& shop, GearKind kind, int count) {
  kind.id = free_id<GearKindId>(shop.gear);
  kind.stock = count;
  shop.gear.push_back(std::move(kind));
}

void set_count(Shop& shop, const std::string& key, int count, const Shop* running) {
  GearKind* kind = find(shop, key);
  if (kind == nullptr) {
    const GearKind* common = keyed(starter().gear, key);
    if (common != nullptr && count > 0) take_in(shop, *common, std::min(count, kMostOfAKind));
    return;
  }
  kind->stock = std::clamp(count, 0, kind->tag.empty() ? kMostOfAKind : 1);
  const bool of_use =
      kind->stock > 0 || (running != nullptr && keyed(running->gear, key) != nullptr);
  if (!of_use) std::erase_if(shop.gear, [&](const GearKind& k) { return k.key == key; });
}

// As many more pieces as the recipe lacks, of what the shop has already, else of the starter set.
void mend_needs(Shop& shop, const std::string& key) {
  const Recipe* recipe = keyed(shop.recipes, key);
  if (recipe == nullptr) return;
  for (const NeedLack& lack : need_lacks(shop, *recipe)) {
    const int more = lack.need.count - lack.owned;
    const auto suits = [&](const GearKind& k) {
      return k.tag.empty() && good_enough(k, lack.need);
    };
    const auto own = std::find_if(shop.gear.begin(), shop.gear.end(), suits);
    if (own != shop.gear.end()) {
      own->stock += more;
      continue;
    }
    const auto& known = starter().gear;
    const auto common = std::find_if(known.begin(), known.end(), suits);
    if (common != known.end()) take_in(shop, *common, std::max(more, common->stock));
  }
}

}  // namespace

void edit_gear(Shop& shop, const Edit& edit, const Shop* running) {
  if (edit.what == Edit::What::gear_for_recipe) mend_needs(shop, edit.text);
  if (edit.what == Edit::What::gear_exactly) set_count(shop, edit.text, edit.by, running);
  if (edit.what != Edit::What::gear_count) return;
  const GearKind* kind = find(shop, edit.text);
  set_count(shop, edit.text, (kind != nullptr ? kind->stock : 0) + edit.by, running);
}

std::vector<GearRow> gear_rows(const Shop& shop) {
  std::vector<GearRow> rows;
  for (const auto& [kind, own] : offered(shop.gear, starter().gear))
    rows.push_back({kind->key, kind->name, own ? kind->stock : 0, own ? 0 : kind->stock});
  return rows;
}

}  // namespace squeezeout::draft
