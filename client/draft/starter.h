#pragma once
// The starter set: kinds of gear, glues by chemistry and recipes that are common in the trade, to be taken into a shop by a press.
//   Source   common practice, as in trade/SOURCES.md#sheets; a shop's own labels and trials override them

#include "common/floor/shop.h"

namespace squeezeout::draft {

[[nodiscard]] const Shop& starter();

template <class Thing>
[[nodiscard]] const Thing* keyed(const std::vector<Thing>& things, std::string_view key) {
  for (const Thing& t : things)
    if (t.key == key) return &t;
  return nullptr;
}

// The shop's own things that the starter set has not, then the set's in its order, each as the shop has it, if it does: what is taken
// in or left out keeps its place under the finger.
template <class Thing>
struct Offered {
  const Thing* thing;
  bool own;
};
template <class Thing>
[[nodiscard]] std::vector<Offered<Thing>> offered(const std::vector<Thing>& own,
                                                  const std::vector<Thing>& common) {
  std::vector<Offered<Thing>> out;
  for (const Thing& t : own)
    if (keyed(common, t.key) == nullptr) out.push_back({&t, true});
  for (const Thing& t : common) {
    const Thing* had = keyed(own, t.key);
    out.push_back({had != nullptr ? had : &t, had != nullptr});
  }
  return out;
}

}  // namespace squeezeout::draft
