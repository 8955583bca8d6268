#include "common/floor/state.h"

#include <algorithm>

namespace squeezeout {
namespace {

template <class T, class TheId>
const T* by_id(const std::vector<T>& things, TheId id) {
  const auto it = std::lower_bound(things.begin(), things.end(), id,
                                   [](const T& t, TheId i) { return t.id < i; });
  return it != things.end() && it->id == id ? &*it : nullptr;
}

}  // namespace

const GlueUp* Floor::glue_up(GlueUpId id) const {
  const auto it = glue_ups.find(id);
  return it == glue_ups.end() ? nullptr : &it->second;
}
const GearKind* Floor::kind(GearKindId id) const { return shop ? by_id(shop->gear, id) : nullptr; }
const Recipe* Floor::recipe(RecipeId id) const { return shop ? by_id(shop->recipes, id) : nullptr; }
const AdhesiveSheet* Floor::sheet(SheetId id) const {
  return shop ? by_id(shop->sheets, id) : nullptr;
}
const Builder* Floor::builder(BuilderId id) const {
  return shop ? by_id(shop->builders, id) : nullptr;
}
const Bench* Floor::bench(BenchId id) const { return shop ? by_id(shop->benches, id) : nullptr; }
const Build* Floor::build(BuildId id) const { return shop ? by_id(shop->builds, id) : nullptr; }
const Lot* Floor::lot(LotId id) const {
  const auto it = lots.find(id);
  return it == lots.end() ? nullptr : &it->second;
}
const Pot* Floor::pot(PotId id) const {
  const auto it = pots.find(id);
  return it == pots.end() ? nullptr : &it->second;
}
const GlueUp* Floor::step_of(BuildId build, int step) const {
  const auto steps = chain.find(build);
  if (!build || steps == chain.end()) return nullptr;
  const auto it = steps->second.find(step);
  return it == steps->second.end() ? nullptr : &glue_ups.at(it->second);
}

Hours Floor::hours_for(BuilderId id) const {
  CHECK(shop && zone);
  const Builder* b = builder(id);
  if (b && b->hours) return Hours{*zone, shop->hours, *b->hours};
  return Hours{*zone, shop->hours};
}

}  // namespace squeezeout
