// The shop itself: who, with what recipes and glues, builds what; its file.

#include <fmt/format.h>

#include "client/words/columns.h"
#include "common/floor/ask.h"
#include "proto/shop_file.h"
#include "tools/cli/files.h"
#include "tools/cli/verbs.h"

namespace squeezeout::cli {
namespace {

using words::Align;
using Rows = std::vector<std::vector<std::string>>;

void say_builds(Tool& tool) {
  const Shop& shop = tool.session().shop();
  const words::Context c = tool.session().context();
  Rows rows;
  Json list = Json::array();
  for (const Build& b : shop.builds) {
    const auto next = next_step(c.floor, b.id);
    const std::string coming = next ? c.floor.recipe(next->recipe)->key : "";
    const auto reserved = next ? next->step : static_cast<int>(b.steps.size());
    rows.push_back({b.key, b.name, words::builder(c, b.builder),
                    fmt::format("{} of {}", reserved, b.steps.size()),
                    coming.empty() ? "all reserved or done" : coming,
                    b.due ? words::day(c, *b.due) : ""});
    Json steps = Json::array();
    const auto chain = c.floor.chain.find(b.id);
    for (std::size_t i = 0; i < b.steps.size(); ++i) {
      const Recipe* r = c.floor.recipe(b.steps[i]);
      Json step{{"step", i},
                {"recipe", r ? r->key : ""},
                {"done_before", static_cast<int>(i) < b.done_before},
                {"by", nullptr}};
      if (chain != c.floor.chain.end())
        if (const auto g = chain->second.find(static_cast<int>(i)); g != chain->second.end())
          step["by"] = g->second.value;
      steps.push_back(std::move(step));
    }
    list.push_back({{"build", b.key},
                    {"name", b.name},
                    {"steps", steps},
                    {"next_recipe", coming.empty() ? Json(nullptr) : Json(coming)},
                    {"due", time_json(c, b.due)}});
  }
  tool.print(words::table({{"key"}, {"build"}, {"builder"}, {"reserved"}, {"next"}, {"due"}}, rows),
             list);
}

void say_builders(Tool& tool) {
  const Shop& shop = tool.session().shop();
  const words::Context c = tool.session().context();
  Rows rows;
  Json list = Json::array();
  for (const Builder& b : shop.builders) {
    const bool here = c.floor.hours_for(b.id).open_at(c.now).has_value();
    const auto busy = c.floor.builders.busy(b.id, {c.now, c.now + Seconds{1}});
    const GlueUp* with = busy ? c.floor.glue_up(busy->glue_up) : nullptr;
    const std::string now =
        with   ? words::title(c, *with) + " till " + words::clock(c, busy->span.end)
        : here ? "free"
               : "not at work";
    rows.push_back({b.key, b.name, words::bench(c, b.bench), now});
    const Bench* bench = c.floor.bench(b.bench);
    list.push_back({{"builder", b.key},
                    {"name", b.name},
                    {"bench", bench ? Json(bench->key) : Json(nullptr)},
                    {"at_work", here},
                    {"busy_until", with ? time_json(c, busy->span.end) : Json(nullptr)}});
  }
  tool.print(words::table({{"key"}, {"builder"}, {"bench"}, {"now"}}, rows), list);
}

void say_benches(Tool& tool) {
  Rows rows;
  Json list = Json::array();
  for (const Bench& b : tool.session().shop().benches) {
    rows.push_back({b.key, b.name});
    list.push_back({{"bench", b.key}, {"name", b.name}});
  }
  tool.print(words::table({{"key"}, {"bench"}}, rows), list);
}

void say_recipes(Tool& tool) {
  const Shop& shop = tool.session().shop();
  const words::Context c = tool.session().context();
  Rows rows;
  Json list = Json::array();
  for (const Recipe& r : shop.recipes) {
    std::string needs;
    Json glues = Json::array();
    for (const GearNeed& n : r.needs) needs += (needs.empty() ? "" : "; ") + words::need(c, n);
    for (SheetId id : r.glues)
      if (const AdhesiveSheet* sheet = c.floor.sheet(id)) glues.push_back(sheet->key);
    const std::string usual = glues.empty() ? "no glue" : glues.front().get<std::string>();
    rows.push_back({r.key, r.name, usual, needs});
    list.push_back({{"recipe", r.key},
                    {"name", r.name},
                    {"glues", glues},
                    {"needs", needs},
                    {"usual", r.usual},
                    {"stage_seconds", r.stage.count()},
                    {"assembly_seconds", r.assembly.count()},
                    {"release_seconds", r.release.count()},
                    {"caution", r.caution}});
  }
  tool.print(words::table({{"key"}, {"recipe"}, {"usual glue"}, {"needs", Align::left, 60}}, rows),
             list);
}

void say_glues(Tool& tool) {
  const Shop& shop = tool.session().shop();
  const words::Context c = tool.session().context();
  Rows rows;
  Json list = Json::array();
  for (const AdhesiveSheet& s : shop.sheets) {
    const auto dwell = dwell_at(s, c.floor.climate.air);
    rows.push_back({s.key, s.name, words::length(s.open),
                    dwell ? words::length(*dwell) : "too cold", words::length(s.wait),
                    words::degrees(c, s.floor), s.source});
    list.push_back({{"glue", s.key},
                    {"name", s.name},
                    {"chemistry", to_string(s.chemistry)},
                    {"open_seconds", s.open.count()},
                    {"dwell_seconds", dwell ? Json(dwell->count()) : Json(nullptr)},
                    {"wait_seconds", s.wait.count()},
                    {"floor_celsius", s.floor.value},
                    {"caution", s.caution},
                    {"source", s.source}});
  }
  tool.print(
      fmt::format("at {}:\n", words::degrees(c, c.floor.climate.air)) +
          words::table(
              {{"key"}, {"glue"}, {"open"}, {"clamped"}, {"wait"}, {"not below"}, {"source"}},
              rows),
      list);
}

void load_shop(Tool& tool, const std::string& file) {
  auto shop = read_shop_file(file, read_file(file));
  if (!shop) stop_for(shop.error());
  tool.ask(LoadShop{std::move(*shop)});
}

void export_shop(Tool& tool) {
  const Session& session = tool.session();
  Shop shop = session.shop();
  for (GearKind& kind : shop.gear) kind.stock = session.floor().gear.stock(kind.id);
  const std::string text = write_shop_file(shop);
  tool.print(text, {{"shop_file", text}});
}

}  // namespace

void add_shop_verbs(CLI::App& app, Tool& tool) {
  add_verb(app, tool, "builds", "What is being built, and each one's next step",
           "squeezeout builds", say_builds);
  add_verb(app, tool, "builders", "Who works here, and who is busy", "squeezeout builders",
           say_builders);
  add_verb(app, tool, "benches", "The benches", "squeezeout benches", say_benches);
  add_verb(app, tool, "recipes", "What can be glued, with which glue and gear",
           "squeezeout recipes", say_recipes);
  add_verb(app, tool, "glues", "The shop's glues, and their times at its climate",
           "squeezeout glues", say_glues);

  const auto file = std::make_shared<std::string>();
  add_verb(app, tool, "load", "Load a shop file; keys keep what they name",
           "squeezeout load shop.textproto", [file](Tool& t) { load_shop(t, *file); })
      .add_option("file", *file, "The shop file")
      ->required()
      ->type_name("SHOPFILE");
  add_verb(app, tool, "export", "Write the shop file to the standard output",
           "squeezeout export > shop.textproto", export_shop);
}

}  // namespace squeezeout::cli
