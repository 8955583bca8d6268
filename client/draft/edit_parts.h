#pragma once
// The parts of edited(): each makes the shop as it becomes. What does not apply leaves it as it is.

#include <algorithm>

#include "client/draft/draft.h"
#include "client/draft/starter.h"

namespace squeezeout::draft {

void edit_hours(WeekHours& hours, const Edit& edit);
// The shop, the running one, and those that Undo goes back to: a key of theirs means one thing for good.
using Known = std::vector<const Shop*>;
void edit_people(Shop& shop, const Edit& edit, const Known& known);
// A kind that the running shop has, or that is other than the starter set's, stays with a stock of 0.
void edit_gear(Shop& shop, const Edit& edit, const Shop* running, const Known& known);
// Glues and recipes. A glue that is taken in goes where the running shop's recipe, else the starter set's, names it.
void edit_craft(Shop& shop, const Edit& edit, const Shop* running);

// "bench-3": a key that nothing of the kind has or had.
template <class Thing>
[[nodiscard]] std::string free_key(const Known& known, std::vector<Thing> Shop::*things,
                                   const std::string& stem) {
  for (int n = 1;; ++n) {
    std::string key = stem + "-" + std::to_string(n);
    const auto has = [&](const Shop* s) { return keyed(s->*things, key) != nullptr; };
    if (std::none_of(known.begin(), known.end(), has)) return key;
  }
}

template <class Id, class Thing>
[[nodiscard]] Id free_id(const std::vector<Thing>& things) {
  Id last{};
  for (const Thing& t : things)
    if (t.id.value > last.value) last = t.id;
  return Id{last.value + 1};
}

}  // namespace squeezeout::draft
