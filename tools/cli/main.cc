// squeezeout: everything that a bench can do, from the command line.

#include <cstdio>

#include "tools/cli/verbs.h"

namespace squeezeout::cli {

CLI::App& add_verb(CLI::App& to, Tool& tool, const std::string& name, const std::string& says,
                   const std::string& example, std::function<void(Tool&)> run) {
  CLI::App& verb = *to.add_subcommand(name, says);
  verb.fallthrough();  // --server, --json and --wait may stand behind the verb
  verb.footer("For example:\n  " + example);
  // A verb's own verbs are called before it: the innermost one runs.
  verb.final_callback([&tool, run = std::move(run)] {
    if (!tool.verb) tool.verb = run;
  });
  return verb;
}

namespace {

void add_everything(CLI::App& app, Tool& tool) {
  app.require_subcommand(1);
  app.add_option("--server", tool.server, "Where the server is")
      ->envname("SQUEEZEOUT_SERVER")
      ->type_name("HOST:PORT")
      ->capture_default_str();
  app.add_option("--wait", tool.wait_seconds, "How long to wait for the server")
      ->type_name("SECONDS")
      ->check(CLI::Range(0.1, 3600.0))
      ->capture_default_str();
  app.add_flag("--json", tool.json, "For scripts: one line of JSON");
  app.set_version_flag("--version", SQUEEZEOUT_VERSION);
  app.footer(
      "Times are the shop's: 15:40 or 3:40pm, \"2026-11-27 9:30\", or RFC 3339. Things go by key, "
      "name, "
      "number, or how they begin.\n"
      "Exit codes: 0 done, 1 refused by the floor, 2 wrong use, 3 no server or connection lost.\n"
      "For example:\n"
      "  squeezeout earliest bridge --builder ida\n"
      "  squeezeout reserve bridge --builder ida --json\n"
      "  squeezeout joint bridge --why\n"
      "  squeezeout climate forecast --night 13\n"
      "  squeezeout board");
  add_press_verbs(app, tool);
  add_ask_verbs(app, tool);
  add_why_verb(app, tool);
  add_joint_verb(app, tool);
  add_learned_verbs(app, tool);
  add_solver_verbs(app, tool);
  add_climate_verbs(app, tool);
  add_air_verb(app, tool);
  add_lot_verbs(app, tool);
  add_board_verb(app, tool);
  add_look_verbs(app, tool);
  add_gear_verbs(app, tool);
  add_shop_verbs(app, tool);
  add_plan_verbs(app, tool);
  add_what_if_verb(app, tool);
  add_label_verb(app, tool);
  add_completion_verb(app, tool);
}

Exit run(int argc, char** argv) {
  Tool tool;
  CLI::App app{"squeezeout: reserve glue-ups, run them, and see who holds what until when.",
               "squeezeout"};
  add_everything(app, tool);
  try {
    app.parse(argc, argv);
    tool.verb(tool);
    return Exit::done;
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? Exit::done : Exit::wrong_use;
  } catch (const Stop& stop) {
    tool.print(stop);
    return stop.code;
  }
}

}  // namespace
}  // namespace squeezeout::cli

int main(int argc, char** argv) { return static_cast<int>(squeezeout::cli::run(argc, argv)); }
