#pragma once
// A shop on paper for the tests of the craft: a sheet of each chemistry by common practice, the usual gear, and the joints of a
// guitar that a practitioner knows by heart.

#include <string>
#include <vector>

#include "common/craft/answer.h"

namespace squeezeout {

std::vector<AdhesiveSheet>
craft_sheets();  // one of each chemistry; the id is the chemistry's number + 1
SheetId sheet_of(Chemistry c);
std::vector<GearKind> craft_gear();
const GearKind& kind_of(const std::vector<GearKind>& gear, const std::string& key);

// Recipes with their joints. Glues: usual one first.
Recipe join_top();
Recipe top_braces();
Recipe back_braces();  // of a back in `rosewood`, which a build may change
Recipe lining();
Recipe close_box();
Recipe plastic_binding();
Recipe fretboard();
Recipe bridge();      // of rosewood
Recipe bent_sides();  // heated, without glue
std::vector<Recipe> craft_recipes();

// A question about a recipe at 20 C and 45 %, with every sheet of the shop as it is at the hour. References: keep it alive while
// its question is used.
struct Asked {
  explicit Asked(Recipe what);
  Asked(const Asked&) = delete;
  Asked& operator=(const Asked&) = delete;
  JointQuestion question() const;
  SheetAsked& of(Chemistry c);

  std::vector<AdhesiveSheet> all_sheets = craft_sheets();
  std::vector<GearKind> gear = craft_gear();
  Recipe recipe;
  Woods woods;
  std::vector<SheetAsked> sheets;
  SheetId chosen;  // the usual one
  AssemblyPlan assembly{};
  OverrunChance chance{};
  Celsius air{20};
  Percent humidity{45};
};

const Fitness& fitness_in(const std::vector<Fitness>& all, Chemistry c);
bool says(const Fitness& fitness, Rule rule);

}  // namespace squeezeout
