#include "tools/cli/wanted.h"

#include <fmt/format.h>

#include <algorithm>

#include "common/floor/ask.h"
#include "tools/cli/names.h"
#include "tools/cli/stop.h"
#include "tools/cli/times.h"

namespace squeezeout::cli {
namespace {

// The step of the build that this recipe would be: the first that has no glue-up yet, else the first at all (and the floor
// says who has it).
int step_of(const Floor& floor, const Build& build, RecipeId recipe) {
  const auto chain = floor.chain.find(build.id);
  std::optional<int> first;
  for (int step = build.done_before; step < static_cast<int>(build.steps.size()); ++step) {
    if (build.steps[static_cast<std::size_t>(step)] != recipe) continue;
    if (chain == floor.chain.end() || !chain->second.contains(step)) return step;
    if (!first) first = step;
  }
  if (first) return *first;
  const Recipe* r = floor.recipe(recipe);
  wrong_use(fmt::format("{} has no {} to come.", build.name, r ? r->key : "such step"),
            "Its chain does not hold it, or it is done.", "squeezeout builds shows each chain.");
}

}  // namespace

void add_joint_wanted(CLI::App& verb, Wanted& w) {
  verb.add_option("recipe", w.recipe, "What is glued: a recipe. Left out: the build's next step");
  verb.add_option("--build", w.build, "For this build");
  verb.add_option("--builder", w.builder, "Who glues. Left out: the build's builder")
      ->envname("SQUEEZEOUT_BUILDER");
  verb.add_option("--glue", w.glue, "With this glue. Left out: the recipe's usual one");
  verb.add_option("--at", w.at, "At exactly this time")->type_name("TIME");
}

void add_wanted(CLI::App& verb, Wanted& w) {
  add_joint_wanted(verb, w);
  verb.add_option("--bench", w.bench, "Where. Left out: the builder's usual bench")
      ->envname("SQUEEZEOUT_BENCH");
  verb.add_option("--lot", w.lot, "From this bottle (squeezeout lots)")->type_name("LOT");
  verb.add_option("--reason", w.reason, "Why this glue although it does not suit: it is recorded")
      ->type_name("TEXT");
  verb.add_option("--after", w.after, "Not before this time")->type_name("TIME");
  verb.add_flag("--anyway", w.anyway, "Outside opening hours too, knowingly");
}

Reserve read_wanted(const Session& session, const Wanted& w, Who who) {
  const Shop& shop = session.shop();
  const words::Context c = session.context();
  Reserve out;
  const Build* build = nullptr;
  if (!w.build.empty()) {
    out.build = find_build(shop, w.build);
    build = c.floor.build(out.build);
  }
  if (!w.recipe.empty()) {
    out.recipe = find_recipe(shop, w.recipe);
    if (build) out.step = step_of(c.floor, *build, out.recipe);
  } else if (build) {
    const auto next = next_step(c.floor, out.build);
    if (!next)
      wrong_use(fmt::format("{} has no step to come.", build->name), "All are reserved or done.",
                "squeezeout builds shows each chain.");
    out.recipe = next->recipe;
    out.step = next->step;
  } else {
    wrong_use("Nothing to glue.", "Neither recipe nor build is given.",
              "squeezeout recipes lists what can be glued.");
  }
  if (!w.builder.empty())
    out.builder = find_builder(shop, w.builder);
  else if (build)
    out.builder = build->builder;
  else if (who == Who::somebody)
    wrong_use("Whose glue-up?", "No builder is given.",
              "Say --builder NAME, or set SQUEEZEOUT_BUILDER.");
  if (!w.bench.empty()) out.bench = find_bench(shop, w.bench);
  if (!w.glue.empty()) out.sheet = find_glue(shop, w.glue);
  if (!w.lot.empty()) out.lot = find_lot(c.floor, w.lot);
  out.reason = w.reason;
  out.after = w.after.empty() ? c.now : read_time(c, w.after, Tense::coming);
  if (!w.at.empty()) out.start = read_time(c, w.at, Tense::coming);
  if (w.anyway) out.hours = Override::knowingly;
  return out;
}

}  // namespace squeezeout::cli
