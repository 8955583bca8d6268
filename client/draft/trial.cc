#include "client/draft/trial.h"

#include "common/floor/apply.h"
#include "common/floor/ask.h"
#include "common/floor/reload.h"
#include "proto/shop_file.h"

namespace squeezeout::draft {
namespace {

std::vector<Trial::First> firsts_of(const Floor& floor, Instant now) {
  constexpr std::size_t kTold = 4;
  std::vector<Trial::First> out;
  const Shop& shop = *floor.shop;
  if (shop.builders.empty()) return out;
  const Builder& builder = shop.builders.front();
  for (const bool usual : {true, false})
    for (const Recipe& r : shop.recipes) {
      if (r.usual != usual || out.size() == kTold) continue;
      const auto quote =
          earliest(floor, {.recipe = r.id, .builder = builder.id, .bench = builder.bench}, now);
      if (quote) out.push_back({r.id, quote->slot.times.stage_begin});
    }
  return out;
}

}  // namespace

std::optional<Shop> as_counted(const Floor& floor) {
  std::optional<Shop> shop = floor.shop;
  if (!shop) return shop;
  for (GearKind& k : shop->gear)
    if (const auto it = floor.stock.find(k.id); it != floor.stock.end()) k.stock = it->second.count;
  return shop;
}

Trial tried(const Floor& floor, const Shop& shop, Instant now) {
  Trial out;
  auto read = read_shop_file("", write_shop_file(shop));
  if (!read) {
    for (const FileMistake& m : read.error())
      out.mistakes.push_back((m.field.empty() ? "" : m.field + " ") + m.what + ". " + m.mend);
    return out;
  }
  out.shop = std::move(*read);
  const auto events = reload(floor, *out.shop, now);
  if (!events) {
    out.refusal = events.error();
    return out;
  }
  out.floor = floor;
  for (const Event& event : *events) apply(*out.floor, event);
  out.firsts = firsts_of(*out.floor, now);
  return out;
}

}  // namespace squeezeout::draft
