#pragma once
// The parts of edited(): each makes the shop as it becomes. What does not apply leaves it as it is.

#include "client/draft/draft.h"

namespace squeezeout::draft {

void edit_hours(WeekHours& hours, const Edit& edit);
void edit_people(Shop& shop, const Edit& edit);
// A kind that the running shop has stays in the file with a stock of 0.
void edit_gear(Shop& shop, const Edit& edit, const Shop* running);
void edit_craft(Shop& shop, const Edit& edit);  // glues and recipes

template <class Id, class Thing>
[[nodiscard]] Id free_id(const std::vector<Thing>& things) {
  Id last{};
  for (const Thing& t : things)
    if (t.id.value > last.value) last = t.id;
  return Id{last.value + 1};
}

}  // namespace squeezeout::draft
