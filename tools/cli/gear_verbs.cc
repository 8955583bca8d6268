// The steward's gear: what there is, what broke, and the table that goes out to a spreadsheet and comes back.

#include <fmt/format.h>

#include <fstream>
#include <sstream>

#include "client/words/columns.h"
#include "common/floor/ask.h"
#include "proto/shop_file.h"
#include "tools/cli/files.h"
#include "tools/cli/names.h"
#include "tools/cli/verbs.h"

namespace squeezeout::cli {
namespace {

using words::Align;

void say_gear(Tool& tool) {
  const words::Context c = tool.session().context();
  (void)tool.session().shop();
  std::vector<std::vector<std::string>> rows;
  Json list = Json::array();
  for (const GearNow& g : gear_now(c.floor, c.now)) {
    const GearKind* kind = c.floor.kind(g.kind);
    if (!kind) continue;
    rows.push_back({kind->key, kind->name, fmt::format("{}", g.stock), fmt::format("{}", g.free),
                    fmt::format("{}", g.held), g.broken == 0 ? "" : fmt::format("{}", g.broken),
                    g.more_at ? words::clock(c, *g.more_at) : ""});
    list.push_back(gear_json(c, g));
  }
  tool.print(words::table({{"key"},
                           {"gear"},
                           {"stock", Align::right},
                           {"free", Align::right},
                           {"held", Align::right},
                           {"broken", Align::right},
                           {"more at"}},
                          rows),
             list);
}

// Gear as it stands: the shop file's kinds with the stock of now.
std::vector<GearKind> gear_of(const Session& session) {
  std::vector<GearKind> gear = session.shop().gear;
  for (GearKind& kind : gear) kind.stock = session.floor().gear.stock(kind.id);
  return gear;
}

std::vector<GearKind> read_gear(const std::string& file) {
  auto gear = read_gear_csv(file, read_file(file));
  if (!gear) stop_for(gear.error());
  return std::move(*gear);
}

struct Change {
  std::vector<std::string> added, changed, left_out;
};

Change compare(const std::vector<GearKind>& now, const std::vector<GearKind>& read) {
  Change change;
  const auto find = [](const std::vector<GearKind>& in, const std::string& key) {
    return std::find_if(in.begin(), in.end(), [&](const GearKind& k) { return k.key == key; });
  };
  for (const GearKind& kind : read) {
    const auto had = find(now, kind.key);
    GearKind same = kind;
    if (had == now.end()) {
      change.added.push_back(kind.key);
    } else {
      same.id = had->id;
      if (same != *had) change.changed.push_back(kind.key);
    }
  }
  for (const GearKind& kind : now)
    if (find(read, kind.key) == read.end()) change.left_out.push_back(kind.key);
  return change;
}

std::string joined(const std::vector<std::string>& keys) {
  std::string out;
  for (const auto& key : keys) out += (out.empty() ? "" : ", ") + key;
  return out.empty() ? "none" : out;
}

void say_check(Tool& tool, const std::string& file) {
  const std::vector<GearKind> read = read_gear(file);
  const Change change = compare(gear_of(tool.session()), read);
  tool.print(fmt::format("{}: {} in order.\nnew: {}\nchanged: {}\nnot in it, and kept: {}\n", file,
                         words::number(static_cast<int>(read.size()), "kind"), joined(change.added),
                         joined(change.changed), joined(change.left_out)),
             {{"kinds", read.size()},
              {"new", change.added},
              {"changed", change.changed},
              {"kept", change.left_out}});
}

// Kinds in the file are added or replaced by key; all others stay as they are.
void import_gear(Tool& tool, const std::string& file) {
  const std::vector<GearKind> read = read_gear(file);
  LoadShop load{tool.session().shop()};
  load.shop.gear = gear_of(tool.session());
  for (const GearKind& kind : read) {
    const auto had = std::find_if(load.shop.gear.begin(), load.shop.gear.end(),
                                  [&](const GearKind& k) { return k.key == kind.key; });
    if (had == load.shop.gear.end())
      load.shop.gear.push_back(kind);
    else
      *had = kind;
  }
  tool.ask(std::move(load));
}

struct GearArgs {
  std::string kind, reason, file;
  int count = 0;
};
using Args = std::shared_ptr<GearArgs>;

CLI::App& add_count_verb(CLI::App& gear, Tool& tool, const Args& args, const std::string& name,
                         const std::string& says, const std::string& example,
                         std::function<Body(GearKindId)> body) {
  CLI::App& verb =
      add_verb(gear, tool, name, says, example, [args, body = std::move(body)](Tool& t) {
        t.ask(body(find_gear(t.session().shop(), args->kind)));
      });
  verb.add_option("kind", args->kind, "Which gear")->required()->type_name("KIND");
  verb.add_option("count", args->count, "How many")->required()->type_name("N");
  return verb;
}

CLI::App& add_file_verb(CLI::App& gear, Tool& tool, const Args& args, const std::string& name,
                        const std::string& says, void (*run)(Tool&, const std::string&)) {
  CLI::App& verb = add_verb(gear, tool, name, says, "squeezeout gear " + name + " gear.csv",
                            [args, run](Tool& t) { run(t, args->file); });
  verb.add_option("file", args->file, "A table as gear export writes it")
      ->required()
      ->type_name("FILE");
  return verb;
}

}  // namespace

void add_gear_verbs(CLI::App& app, Tool& tool) {
  CLI::App& gear = add_verb(
      app, tool, "gear", "What gear there is and what is free; what broke; tables in and out",
      "squeezeout gear\n  squeezeout gear broken deep-clamp 2 --reason \"screw bent\"", say_gear);
  gear.require_subcommand(0, 1);
  const auto args = std::make_shared<GearArgs>();
  add_verb(gear, tool, "list", "What gear there is, and what is free now", "squeezeout gear list",
           say_gear);
  add_count_verb(gear, tool, args, "broken", "Take gear out of use",
                 "squeezeout gear broken deep-clamp 2 --reason \"screw bent\"",
                 [args](GearKindId kind) {
                   return GearBroken{kind, args->count, args->reason};
                 })
      .add_option("--reason", args->reason, "What is wrong with it")
      ->type_name("TEXT");
  add_count_verb(gear, tool, args, "mended", "Put gear back in use",
                 "squeezeout gear mended deep-clamp 2", [args](GearKindId kind) {
                   return GearMended{kind, args->count};
                 });
  add_count_verb(gear, tool, args, "stock", "Say how many the shop owns",
                 "squeezeout gear stock deep-clamp 14", [args](GearKindId kind) {
                   return SetStock{kind, args->count};
                 });
  add_verb(gear, tool, "export", "Write the gear table (CSV) to the standard output",
           "squeezeout gear export > gear.csv", [](Tool& t) {
             const std::string csv = write_gear_csv(gear_of(t.session()));
             t.print(csv, {{"csv", csv}});
           });
  add_file_verb(gear, tool, args, "check",
                "Read a gear table and say what is wrong with it, or what it would change",
                say_check);
  add_file_verb(gear, tool, args, "import",
                "Add and replace gear by a gear table; what is not in it stays", import_gear);
}

}  // namespace squeezeout::cli
