// What opening a draft would change. Things are the same by their keys: a draft that went through its file has other ids.
#include <map>

#include "client/draft/lacks.h"
#include "client/draft/starter.h"

namespace squeezeout::draft {
namespace {

// Gives the draft's things the ids that the running shop knows them by; new things get ids beyond all.
template <class Id, class Thing>
std::map<Id, Id> take_ids(std::vector<Thing>& things, const std::vector<Thing>& running) {
  constexpr std::uint32_t kBeyond = 1'000'000;
  std::map<Id, Id> became;
  for (Thing& t : things) {
    const Thing* known = keyed(running, t.key);
    const Id id = known != nullptr ? known->id : Id{t.id.value + kBeyond};
    became[t.id] = id;
    t.id = id;
  }
  return became;
}

template <class Id>
void follow(const std::map<Id, Id>& became, Id& id) {
  if (const auto it = became.find(id); it != became.end()) id = it->second;
}

Shop with_ids_of(const Shop& running, Shop shop) {
  const auto benches = take_ids<BenchId>(shop.benches, running.benches);
  const auto builders = take_ids<BuilderId>(shop.builders, running.builders);
  const auto sheets = take_ids<SheetId>(shop.sheets, running.sheets);
  const auto recipes = take_ids<RecipeId>(shop.recipes, running.recipes);
  (void)take_ids<GearKindId>(shop.gear, running.gear);
  (void)take_ids<BuildId>(shop.builds, running.builds);
  for (Builder& b : shop.builders) follow(benches, b.bench);
  for (Recipe& r : shop.recipes)
    for (SheetId& s : r.glues) follow(sheets, s);
  for (Build& b : shop.builds) {
    follow(builders, b.builder);
    for (RecipeId& r : b.steps) follow(recipes, r);
  }
  return shop;
}

template <class Thing>
void compare(const std::vector<Thing>& running, const std::vector<Thing>& draft, Changes& out) {
  for (const Thing& d : draft) {
    const Thing* r = keyed(running, d.key);
    if (r == nullptr)
      out.added.push_back(d.name);
    else if (!(*r == d))
      out.changed.push_back(d.name);
  }
  for (const Thing& r : running)
    if (keyed(draft, r.key) == nullptr) out.removed.push_back(r.name);
}

}  // namespace

Changes changes(const Shop& running, const Shop& given) {
  const Shop draft = with_ids_of(running, given);
  Changes out;
  compare(running.benches, draft.benches, out);
  compare(running.builders, draft.builders, out);
  compare(running.gear, draft.gear, out);
  compare(running.sheets, draft.sheets, out);
  compare(running.recipes, draft.recipes, out);
  compare(running.builds, draft.builds, out);
  const bool frame = running.name != draft.name || running.zone != draft.zone ||
                     running.hours != draft.hours || running.display != draft.display;
  if (frame) out.changed.push_back(draft.name);
  return out;
}

}  // namespace squeezeout::draft
