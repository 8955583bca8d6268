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

}  // namespace squeezeout::draft
