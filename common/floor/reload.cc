#include "common/floor/reload.h"

#include <algorithm>
#include <functional>
#include <map>
#include <set>

#include "common/trade/material.h"

namespace squeezeout {
namespace {

// Gives the new list's keys their old ids, or new ones above all; sorts by id; answers which file id became which.
template <class T, class TheId>
std::map<TheId, TheId> keep_ids(std::vector<T>& fresh, const std::vector<T>* old,
                                std::uint32_t last = 0) {
  std::map<std::string, TheId> known;
  if (old) {
    for (const T& t : *old) {
      known[t.key] = t.id;
      last = std::max(last, t.id.value);
    }
  }
  std::map<TheId, TheId> became;
  for (T& t : fresh) {
    const auto it = known.find(t.key);
    const TheId id = it != known.end() ? it->second : TheId{++last};
    became[t.id] = id;
    t.id = id;
  }
  std::sort(fresh.begin(), fresh.end(), [](const T& a, const T& b) { return a.id < b.id; });
  return became;
}

template <class T, class TheId>
void require(const std::vector<T>& old, const std::vector<T>& fresh, const std::set<TheId>& used,
             const char* what, std::vector<Mistake>& mistakes) {
  for (const T& t : old) {
    const bool kept =
        std::any_of(fresh.begin(), fresh.end(), [&](const T& n) { return n.key == t.key; });
    if (!kept && used.contains(t.id)) {
      mistakes.push_back({std::string{what} + " \"" + t.key + "\"",
                          "is missing, but glue-ups on record use it",
                          "put it back into the file; a stock of 0 takes gear out of use"});
    }
  }
}

// A joint of a material that nobody knows cannot be worked out.
void know_materials(const Shop& shop, std::vector<Mistake>& mistakes) {
  const auto check = [&](const std::string& key, const std::string& where) {
    if (key.empty() || material(key)) return;
    mistakes.push_back({where, "material \"" + key + "\" is not known",
                        "use one of those in common/trade/material.cc, such as \"sitka-spruce\""});
  };
  for (const Recipe& r : shop.recipes) {
    for (const Face& face : {r.joint.a, r.joint.b})
      check(face.material, "recipe \"" + r.key + "\"");
  }
  for (const Build& b : shop.builds) {
    for (const auto& [part, wood] : b.woods) check(wood, "build \"" + b.key + "\", " + part);
  }
}

// A step that has its glue-up keeps its place in the chain.
void keep_chains(const Floor& floor, const Shop& shop, std::vector<Mistake>& mistakes) {
  for (const Build& build : shop.builds) {
    const auto chain = floor.chain.find(build.id);
    if (chain == floor.chain.end()) continue;
    for (const auto& [step, glue_up] : chain->second) {
      const auto at = static_cast<std::size_t>(step);
      if (at < build.steps.size() && build.steps[at] == floor.glue_ups.at(glue_up).recipe) continue;
      const Recipe* was = floor.recipe(floor.glue_ups.at(glue_up).recipe);
      mistakes.push_back({"build \"" + build.key + "\", step " + std::to_string(step + 1),
                          "is another recipe than its glue-up on record",
                          "put \"" + (was ? was->key : "?") + "\" back there"});
    }
  }
}

}  // namespace

Result<std::vector<Event>, Refusal> reload(const Floor& floor, const Shop& given, Instant at) {
  Shop shop = given;
  const Shop* old = floor.shop ? &*floor.shop : nullptr;
  std::vector<Mistake> mistakes;
  if (!Zone::find(shop.zone)) {
    mistakes.push_back({"zone", "\"" + shop.zone + "\" is no IANA time zone",
                        "use a name such as \"Europe/Dublin\""});
  }

  know_materials(shop, mistakes);

  const auto benches = keep_ids<Bench, BenchId>(shop.benches, old ? &old->benches : nullptr);
  const auto builders = keep_ids<Builder, BuilderId>(shop.builders, old ? &old->builders : nullptr);
  // A kind's number is never given twice: the ledger knows the claims of those that are gone.
  keep_ids<GearKind, GearKindId>(shop.gear, old ? &old->gear : nullptr,
                                 floor.stock.empty() ? 0 : floor.stock.rbegin()->first.value);
  const auto sheets = keep_ids<AdhesiveSheet, SheetId>(shop.sheets, old ? &old->sheets : nullptr);
  const auto recipes = keep_ids<Recipe, RecipeId>(shop.recipes, old ? &old->recipes : nullptr);
  keep_ids<Build, BuildId>(shop.builds, old ? &old->builds : nullptr);
  const auto follow = [](const auto& became, auto& id) {
    if (const auto it = became.find(id); it != became.end()) id = it->second;
  };
  for (Builder& b : shop.builders) follow(benches, b.bench);
  for (Recipe& r : shop.recipes) {
    for (SheetId& s : r.glues) follow(sheets, s);
  }
  for (Build& b : shop.builds) {
    follow(builders, b.builder);
    for (RecipeId& r : b.steps) follow(recipes, r);
  }

  if (old) {
    std::set<BenchId> used_benches;
    std::set<BuilderId> used_builders;
    std::set<GearKindId> used_gear;
    std::set<SheetId> used_sheets;
    std::set<RecipeId> used_recipes;
    std::set<BuildId> used_builds;
    for (const auto& [id, g] : floor.glue_ups) {
      used_benches.insert(g.bench), used_builders.insert(g.builder), used_sheets.insert(g.sheet);
      used_recipes.insert(g.recipe), used_builds.insert(g.build);
      for (const Held& h : g.held) used_gear.insert(h.kind);
    }
    for (const auto& [id, g] : floor.before) {
      for (const Held& h : g.held) used_gear.insert(h.kind);
    }
    for (const auto& [id, o] : floor.outages) used_gear.insert(o.kind);
    for (const auto& [id, l] : floor.lots) used_sheets.insert(l.sheet);
    require(old->benches, shop.benches, used_benches, "bench", mistakes);
    require(old->builders, shop.builders, used_builders, "builder", mistakes);
    require(old->gear, shop.gear, used_gear, "gear", mistakes);
    require(old->sheets, shop.sheets, used_sheets, "adhesive", mistakes);
    require(old->recipes, shop.recipes, used_recipes, "recipe", mistakes);
    require(old->builds, shop.builds, used_builds, "build", mistakes);
    keep_chains(floor, shop, mistakes);
  }
  if (!mistakes.empty()) return Unexpected{Refusal{BadShop{std::move(mistakes)}}};

  // The file's count becomes the stock when it is new or has changed; else what was counted at a bench stays.
  std::vector<Event> stock;
  for (const GearKind& k : shop.gear) {
    const GearKind* before = floor.kind(k.id);
    if (before && before->stock == k.stock) continue;
    constexpr std::size_t kMost = 16;
    const Span from_now{at, kNever};
    if (floor.gear.peak(k.id, from_now).level > k.stock) {
      return Unexpected{
          Refusal{BelowClaims{k.id, k.stock, floor.gear.holders(k.id, from_now, kMost)}}};
    }
    stock.push_back(StockSet{k.id, k.stock, at});
  }
  std::vector<Event> events{ShopLoaded{std::move(shop)}};
  events.insert(events.end(), stock.begin(), stock.end());
  return events;
}

}  // namespace squeezeout
