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

bool common_kind(GearKind kind) {
  const GearKind* common = keyed(starter().gear, kind.key);
  if (common == nullptr) return false;
  kind.id = common->id;
  kind.stock = common->stock;
  return kind == *common;
}

void set_count(Shop& shop, const std::string& key, int count, const Shop* running) {
  GearKind* kind = find(shop, key);
  if (kind == nullptr) {
    const GearKind* common = keyed(starter().gear, key);
    if (common != nullptr && count > 0) take_in(shop, *common, std::min(count, kMostOfAKind));
    return;
  }
  kind->stock = std::clamp(count, 0, kind->tag.empty() ? kMostOfAKind : 1);
  const bool of_use = kind->stock > 0 ||
                      (running != nullptr && keyed(running->gear, key) != nullptr) ||
                      !common_kind(*kind);
  if (!of_use) std::erase_if(shop.gear, [&](const GearKind& k) { return k.key == key; });
}

// As many more pieces as the recipe lacks, of what the shop has already, else of the starter set.
void mend_needs(Shop& shop, const std::string& key, const Known& known) {
  const Recipe* recipe = keyed(shop.recipes, key);
  if (recipe == nullptr) return;
  for (const NeedLack& lack : need_lacks(shop, *recipe)) {
    const int more = lack.need.count - lack.owned;
    const auto [kind, own] = that_meets(shop, lack.need);
    if (kind == nullptr) continue;
    if (own) {
      GearKind& more_of = *find(shop, kind->key);
      more_of.stock = std::min(more_of.stock + more, kMostOfAKind);
      continue;
    }
    GearKind taken = *kind;
    if (find(shop, taken.key) != nullptr) taken.key = free_key(known, &Shop::gear, taken.key);
    take_in(shop, std::move(taken), std::max(more, kind->stock));
  }
}

}  // namespace

void edit_gear(Shop& shop, const Edit& edit, const Shop* running, const Known& known) {
  if (edit.what == Edit::What::gear_for_recipe) mend_needs(shop, edit.text, known);
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
