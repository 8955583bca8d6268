#include <algorithm>

#include "client/draft/edit_parts.h"

namespace squeezeout::draft {
namespace {

using What = Edit::What;

constexpr std::size_t kMostPeople = 64;

std::string next_name(const std::string& stem, std::size_t n) {
  return stem + " " + std::to_string(n + 1);
}

void edit_bench(Shop& shop, const Edit& edit, const Known& known) {
  auto& benches = shop.benches;
  if (edit.what == What::add_bench && benches.size() < kMostPeople)
    benches.push_back({free_id<BenchId>(benches), free_key(known, &Shop::benches, "bench"),
                       next_name("Bench", benches.size())});
  const auto at = static_cast<std::size_t>(edit.at);
  if (at >= benches.size()) return;
  if (edit.what == What::name_bench) benches[at].name = edit.text;
  if (edit.what == What::one_at_a_time) benches[at].one_at_a_time = !benches[at].one_at_a_time;
  if (edit.what != What::remove_bench || benches.size() == 1) return;
  const BenchId gone = benches[at].id;
  benches.erase(benches.begin() + edit.at);
  for (Builder& b : shop.builders)
    if (b.bench == gone) b.bench = benches.front().id;
}

void edit_builder(Shop& shop, const Edit& edit, const Known& known) {
  auto& builders = shop.builders;
  const auto& benches = shop.benches;
  if (edit.what == What::add_builder && builders.size() < kMostPeople) {
    const std::size_t n = builders.size();
    const BenchId bench = benches.empty() ? BenchId{} : benches[n % benches.size()].id;
    builders.push_back({free_id<BuilderId>(builders),
                        free_key(known, &Shop::builders, "builder"),
                        next_name("Builder", n),
                        bench,
                        {}});
  }
  const auto at = static_cast<std::size_t>(edit.at);
  if (at >= builders.size()) return;
  Builder& builder = builders[at];
  if (edit.what == What::name_builder) builder.name = edit.text;
  if (edit.what == What::bench_of_builder && !benches.empty()) {
    const auto here = std::find_if(benches.begin(), benches.end(),
                                   [&](const Bench& b) { return b.id == builder.bench; });
    const bool last = here == benches.end() || here + 1 == benches.end();
    builder.bench = last ? benches.front().id : (here + 1)->id;
  }
  if (edit.what != What::remove_builder || builders.size() == 1) return;
  const BuilderId gone = builder.id;
  builders.erase(builders.begin() + edit.at);
  for (Build& b : shop.builds)
    if (b.builder == gone) b.builder = builders.front().id;
}

}  // namespace

void edit_people(Shop& shop, const Edit& edit, const Known& known) {
  if (edit.at < 0) return;
  edit_bench(shop, edit, known);
  edit_builder(shop, edit, known);
}

}  // namespace squeezeout::draft
