// What a joint needs: glues ranked, gear, times at the hour, moisture, cautions; each with where it comes from.

#include <fmt/format.h>

#include <algorithm>

#include "client/words/columns.h"
#include "client/words/craft.h"
#include "common/floor/ask.h"
#include "common/floor/weather.h"
#include "common/trade/material.h"
#include "tools/cli/craft_json.h"
#include "tools/cli/names.h"
#include "tools/cli/verbs.h"
#include "tools/cli/wanted.h"

namespace squeezeout::cli {
namespace {

struct JointArgs {
  Wanted wanted;
  std::string wood_a, wood_b;
  bool why = false;  // as CLI11 fills it in
};

constexpr std::size_t kNameColumns = 32;

std::string known_material(const std::string& text) {
  std::vector<Named> all;
  std::uint32_t id = 0;
  for (const Material& m : materials())
    all.push_back({++id, std::string(m.key), std::string(m.name)});
  return all.at(find_named("wood or plastic", all, text) - 1).key;
}

// The floor with this joint's faces of other woods, whatever recipe and build say.
Floor with_woods(const Floor& floor, RecipeId id, const JointArgs& args) {
  Floor out = floor;
  for (Recipe& r : out.shop->recipes) {
    if (r.id != id) continue;
    if (!args.wood_a.empty()) r.joint.a = {"", known_material(args.wood_a)};
    if (!args.wood_b.empty()) r.joint.b = {"", known_material(args.wood_b)};
  }
  return out;
}

// One joint as it was asked about, and what is known of it.
struct Asked {
  const words::Context& c;
  Reserve wanted;
  Instant at{};
  JointAnswer answer;
  AssemblyPlan plan;
  OverrunChance chance;
  SheetId glue;  // whose times are told
};

const Figure* figure_of(const JointAnswer& answer, FigureOf of) {
  for (const Figure& f : answer.figures)
    if (f.of == of) return &f;
  return nullptr;
}

Asked look_into(const words::Context& c, const Reserve& wanted) {
  const Instant at = wanted.start.value_or(c.now);
  auto answer = joint_answer(c.floor, wanted, at, c.now);
  if (!answer)
    throw Stop{Exit::refused, words::refusal(c, wanted, answer.error()),
               refusal_json(c, answer.error())};
  const Recipe& recipe = *c.floor.recipe(wanted.recipe);
  const std::vector<Seconds> times = assembly_times(c.floor, recipe.id, wanted.builder);
  Asked out{c,  wanted,      at, std::move(*answer), plan_assembly(recipe.assembly, times),
            {}, wanted.sheet};
  if (!out.glue && !recipe.glues.empty()) out.glue = recipe.glues.front();
  if (const Figure* open = figure_of(out.answer, FigureOf::open_time))
    out.chance = overrun_chance(Seconds{static_cast<std::int64_t>(open->band.value)}, times);
  return out;
}

std::string head(const Asked& a) {
  const Build* build = a.c.floor.build(a.wanted.build);
  std::string out = build ? build->name + " · " : "";
  out += words::recipe(a.c, a.wanted.recipe);
  if (const AdhesiveSheet* sheet = a.c.floor.sheet(a.glue)) out += ", " + words::small(sheet->name);
  if (a.wanted.builder) out += ", " + words::builder(a.c, a.wanted.builder);
  const Weather weather = weather_of(a.c.floor, a.c.now);
  return out + fmt::format("; {}, {}, {:.0f} %\n", words::clock(a.c, a.at),
                           words::degrees(a.c, weather.air(a.at)), weather.humidity(a.at).value);
}

std::string faces(const Asked& a) {
  const Recipe& recipe = *a.c.floor.recipe(a.wanted.recipe);
  const Build* build = a.c.floor.build(a.wanted.build);
  const Joint joint = build ? recipe.joint.of(build->woods) : recipe.joint;
  if (!joint.described()) return "The recipe does not describe its joint: only times are told.\n";
  std::string out = fmt::format("{} x {}", words::millimetres(a.c, joint.length),
                                words::millimetres(a.c, joint.width));
  for (const Face* face : {&joint.a, &joint.b}) {
    if (face->material.empty()) continue;
    const auto known = material(face->material);
    out += (face == &joint.a ? ", " : " to ") +
           (known ? words::small(std::string((*known)->name)) : face->material);
  }
  return out + "\n";
}

// The reasons beside the one that the line tells: all of a glue that may be taken, of others those that stand in the way.
std::string more_reasons(const Fitness& f) {
  const std::string told = words::worst_reason(f);
  std::string out;
  for (const Reason& r : f.reasons) {
    const std::string says = words::rule(r.rule);
    if (says == told || (f.verdict > Verdict::warn && r.verdict < Verdict::unfit)) continue;
    out += (out.empty() ? "      " : "; ") + says;
  }
  return out.empty() ? out : out + "\n";
}

std::string glues(const Asked& a, bool why) {
  std::string out;
  int place = 0;
  for (const Fitness& f : a.answer.glues)
    out += fmt::format("{:3} {}\n", ++place, words::fitness_line(a.c, f)) + more_reasons(f);
  if (out.empty()) return "";
  if (why) out += "      " + words::source(FormulaId::fitness) + "\n";
  return "\nglue\n" + out;
}

bool of_gear(FigureOf of) { return of >= FigureOf::clamps && of <= FigureOf::rod_bending; }
bool of_wood(FigureOf of) { return of >= FigureOf::moisture_now && of <= FigureOf::safe_to_touch; }

template <class Chosen>
std::string figures(const Asked& a, const std::string& title, bool why, Chosen chosen) {
  std::string out;
  GearKindId kind;
  for (const Figure& f : a.answer.figures) {
    if (!chosen(f.of)) continue;
    if (f.kind && f.kind != kind) {
      kind = f.kind;
      const GearKind* gear = a.c.floor.kind(kind);
      if (gear) out += fmt::format("  {}\n", words::small(gear->name));
    }
    out +=
        "  " + words::left(words::figure_name(f.of), kNameColumns) + words::figure(a.c, f) + "\n";
    if (why) out += "      " + words::figure_source(f) + "\n";
  }
  return out.empty() ? "" : fmt::format("\n{}\n{}", title, out);
}

// Of the recipe's glues that may be taken, the one that stays open longest, if that is longer: what it is and how long.
std::string slower_glue(const Asked& a) {
  const Figure* open = figure_of(a.answer, FigureOf::open_time);
  double best = open ? open->band.value : 0;
  std::string out;
  for (const SheetId glue : a.c.floor.recipe(a.wanted.recipe)->glues) {
    const auto fit = std::find_if(a.answer.glues.begin(), a.answer.glues.end(),
                                  [&](const Fitness& f) { return f.sheet == glue; });
    if (fit == a.answer.glues.end() || fit->verdict > Verdict::warn) continue;
    Reserve other = a.wanted;
    other.sheet = glue;
    const auto answer = joint_answer(a.c.floor, other, a.at, a.c.now);
    const Figure* its = answer ? figure_of(*answer, FigureOf::open_time) : nullptr;
    if (!its || its->band.value <= best) continue;
    best = its->band.value;
    out = fmt::format("{}, open {}", words::small(a.c.floor.sheet(glue)->name),
                      words::exact(Seconds{static_cast<std::int64_t>(best)}));
  }
  return out;
}

// What to do where the glue may skin before the clamps are on; empty: it need not be said.
std::string what_helps(const Asked& a) {
  const Figure* open = figure_of(a.answer, FigureOf::open_time);
  const bool too_slow = open && static_cast<double>(a.plan.planned.count()) > open->band.value;
  if (!too_slow && !(a.plan.learned && a.chance.chance > kOneInFive)) return "";
  const std::string slower = slower_glue(a);
  return fmt::format("{}a helper, fewer pieces a lift, a dry run",
                     slower.empty() ? "" : "a slower glue (" + slower + "), ");
}

std::string cautions(const Asked& a) {
  std::string out;
  for (const Caution caution : a.answer.cautions) out += "  " + words::caution(a.c, caution) + "\n";
  const AdhesiveSheet* sheet = a.c.floor.sheet(a.glue);
  if (sheet && !sheet->caution.empty()) out += "  " + sheet->caution + "\n";
  const Recipe* recipe = a.c.floor.recipe(a.wanted.recipe);
  if (!recipe->caution.empty()) out += "  " + recipe->caution + "\n";
  return out.empty() ? "" : "\ncautions\n" + out;
}

std::string left_out(const JointAnswer& answer) {
  std::string out;
  if (answer.unknown) out += words::left_out(*answer.unknown) + "\n";
  for (const OutOfRange& why : answer.left_out) out += words::left_out(why) + "\n";
  for (const FigureOf of : answer.unpublished) out += words::unpublished(of) + "\n";
  return out.empty() ? "" : "\n" + out;
}

Json joint_json(const Asked& a, const std::string& helps) {
  const words::Context& c = a.c;
  const Weather weather = weather_of(c.floor, c.now);
  Json glues = Json::array(), figures = Json::array(), cautions = Json::array(),
       out = Json::array();
  for (const Fitness& f : a.answer.glues) glues.push_back(fitness_json(c, f));
  for (const Figure& f : a.answer.figures) figures.push_back(figure_json(c, f));
  for (const Caution caution : a.answer.cautions) cautions.push_back(caution_json(a.c, caution));
  for (const OutOfRange& why : a.answer.left_out) out.push_back(out_of_range_json(why));
  const AdhesiveSheet* sheet = c.floor.sheet(a.glue);
  return {{"recipe", c.floor.recipe(a.wanted.recipe)->key},
          {"glue", sheet ? Json(sheet->key) : Json(nullptr)},
          {"at", time_json(c, a.at)},
          {"air_celsius", weather.air(a.at).value},
          {"humidity_percent", weather.humidity(a.at).value},
          {"glues", glues},
          {"figures", figures},
          {"learned",
           {{"planned_seconds", a.plan.planned.count()},
            {"n", a.plan.n},
            {"learned", a.plan.learned},
            {"overrun_chance", a.plan.learned ? Json(a.chance.chance) : Json(nullptr)},
            {"what_helps", helps}}},
          {"cautions", cautions},
          {"left_out", out},
          {"unknown_material", a.answer.unknown ? Json(a.answer.unknown->key) : Json(nullptr)}};
}

void say_joint(Tool& tool, const JointArgs& args) {
  const Session& session = tool.session();
  const Reserve wanted = read_wanted(session, args.wanted, Who::nobody);
  const Floor floor = with_woods(session.floor(), wanted.recipe, args);
  const words::Context c{floor, session.now()};
  const Asked a = look_into(c, wanted);
  const std::string helps = what_helps(a);

  std::string text = head(a) + faces(a) + glues(a, args.why);
  text += figures(a, "gear", args.why, of_gear);
  const AdhesiveSheet* sheet = floor.sheet(a.glue);
  text += figures(a, sheet ? "times, with " + words::small(sheet->name) : "times", args.why,
                  [](FigureOf of) { return !of_gear(of) && !of_wood(of); });
  if (a.plan.learned) text += "  " + words::learned(a.plan, a.chance) + "\n";
  if (!helps.empty()) text += "  what helps: " + helps + "\n";
  text += figures(a, "wood", args.why, of_wood);
  text += cautions(a) + left_out(a.answer);
  if (!args.why) text += "\nWhere a figure comes from: --why.\n";
  tool.print(text, joint_json(a, helps));
}

}  // namespace

void add_joint_verb(CLI::App& app, Tool& tool) {
  const auto args = std::make_shared<JointArgs>();
  CLI::App& verb = add_verb(app, tool, "joint",
                            "What a joint needs: glue, gear, times at the hour, cautions; and why",
                            "squeezeout joint bridge --builder ida --at 15:00\n  "
                            "squeezeout joint --build n14 --why\n  "
                            "squeezeout joint close-back --wood-a indian-rosewood",
                            [args](Tool& t) { say_joint(t, *args); });
  add_joint_wanted(verb, args->wanted);
  verb.add_option("--wood-a", args->wood_a, "As if its one face were of this")->type_name("WOOD");
  verb.add_option("--wood-b", args->wood_b, "As if its other face were of this")->type_name("WOOD");
  verb.add_flag("--why", args->why, "Under each figure: formula, source, how well it is known");
}

}  // namespace squeezeout::cli
