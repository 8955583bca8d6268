// How long it takes to get the clamps on, as learned from the shop's own glue-ups.

#include <fmt/format.h>

#include <algorithm>

#include "client/words/columns.h"
#include "client/words/craft.h"
#include "common/floor/ask.h"
#include "tools/cli/names.h"
#include "tools/cli/verbs.h"

namespace squeezeout::cli {
namespace {

using words::Align;
using Rows = std::vector<std::vector<std::string>>;

std::optional<double> value_of(const JointAnswer& answer, FigureOf of) {
  for (const Figure& f : answer.figures)
    if (f.of == of) return f.band.value;
  return std::nullopt;
}

struct AssemblyArgs {
  std::string recipe, builder;
};

void say_assembly(Tool& tool, const AssemblyArgs& args) {
  const Shop& shop = tool.session().shop();
  const words::Context c = tool.session().context();
  const RecipeId recipe = args.recipe.empty() ? RecipeId{} : find_recipe(shop, args.recipe);
  const BuilderId builder = args.builder.empty() ? BuilderId{} : find_builder(shop, args.builder);

  Rows rows;
  Json list = Json::array();
  const auto add = [&](const Recipe& r, const Builder& b) {
    std::vector<Seconds> times = assembly_times(c.floor, r.id, b.id);
    std::sort(times.begin(), times.end());
    const AssemblyPlan plan = plan_assembly(r.assembly, times);
    Reserve wanted;
    wanted.recipe = r.id;
    wanted.builder = b.id;
    const auto answer = joint_answer(c.floor, wanted, c.now, c.now);
    const auto open = answer ? value_of(*answer, FigureOf::open_time) : std::nullopt;
    const auto chance =
        answer && plan.learned ? value_of(*answer, FigureOf::overrun_chance) : std::nullopt;
    rows.push_back(
        {r.key, b.name, fmt::format("{}", plan.n), words::exact(plan.planned),
         plan.learned ? "learned" : "the recipe's",
         times.empty() ? "" : words::exact(times.front()) + " to " + words::exact(times.back()),
         open ? words::exact(Seconds{static_cast<std::int64_t>(*open)}) : "no glue",
         chance ? fmt::format("{:.0f} %", *chance * 100) : ""});
    Json took = Json::array();
    for (const Seconds t : times) took.push_back(t.count());
    list.push_back({{"recipe", r.key},
                    {"builder", b.key},
                    {"n", plan.n},
                    {"learned", plan.learned},
                    {"planned_seconds", plan.planned.count()},
                    {"recipe_seconds", r.assembly.count()},
                    {"took_seconds", took},
                    {"open_seconds", open ? Json(*open) : Json(nullptr)},
                    {"overrun_chance", chance ? Json(*chance) : Json(nullptr)}});
  };
  const bool asked = recipe && builder;  // then it is told even when nothing is learned
  for (const Recipe& r : shop.recipes)
    for (const Builder& b : shop.builders) {
      const bool wanted = (!recipe || r.id == recipe) && (!builder || b.id == builder);
      if (wanted && (asked || c.floor.assembly.contains({r.id, b.id}))) add(r, b);
    }
  std::string text = rows.empty() ? "Nothing learned yet: times come from Start to Clamps on.\n"
                                  : words::table({{"recipe"},
                                                  {"builder"},
                                                  {"n", Align::right},
                                                  {"planned", Align::right},
                                                  {"by"},
                                                  {"took"},
                                                  {"glue open now", Align::right},
                                                  {"longer than that", Align::right}},
                                                 rows);
  text += words::source(FormulaId::assembly_time) + "\n";
  tool.print(text, list);
}

}  // namespace

void add_learned_verbs(CLI::App& app, Tool& tool) {
  const auto args = std::make_shared<AssemblyArgs>();
  CLI::App& verb = add_verb(app, tool, "assembly",
                            "How long it takes to get the clamps on, learned from the shop's own",
                            "squeezeout assembly\n  squeezeout assembly bridge ida",
                            [args](Tool& t) { say_assembly(t, *args); });
  verb.add_option("recipe", args->recipe, "Of this recipe");
  verb.add_option("builder", args->builder, "By this builder");
}

}  // namespace squeezeout::cli
