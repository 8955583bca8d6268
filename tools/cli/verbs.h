#pragma once
// The verbs of the command line, a file a group. Each adds its arguments and sets what runs once they are read.

#include <CLI/CLI.hpp>

#include "tools/cli/tool.h"

namespace squeezeout::cli {

// Adds a verb whose help ends in an example; `run` is called after all arguments are read.
CLI::App& add_verb(CLI::App& to, Tool& tool, const std::string& name, const std::string& says,
                   const std::string& example, std::function<void(Tool&)> run);

// reserve move cancel start on off scraped late spoiled undo
void add_press_verbs(CLI::App& app, Tool& tool);
void add_ask_verbs(CLI::App& app, Tool& tool);      // earliest
void add_why_verb(CLI::App& app, Tool& tool);       // why
void add_joint_verb(CLI::App& app, Tool& tool);     // joint
void add_learned_verbs(CLI::App& app, Tool& tool);  // assembly
void add_solver_verbs(CLI::App& app, Tool& tool);   // go-bar clamp
void add_climate_verbs(CLI::App& app, Tool& tool);  // climate
void add_air_verb(CLI::App& app, Tool& tool);       // air
void add_lot_verbs(CLI::App& app, Tool& tool);      // lots lot mix
void add_look_verbs(CLI::App& app, Tool& tool);     // list show snags wall day health
void add_board_verb(CLI::App& app, Tool& tool);     // board
void add_gear_verbs(CLI::App& app, Tool& tool);     // gear
void add_shop_verbs(CLI::App& app,
                    Tool& tool);  // builds builders benches recipes glues load export
void add_plan_verbs(CLI::App& app, Tool& tool);       // repair replan undo-plan risks
void add_what_if_verb(CLI::App& app, Tool& tool);     // what-if
void add_label_verb(CLI::App& app, Tool& tool);       // label
void add_completion_verb(CLI::App& app, Tool& tool);  // completion

}  // namespace squeezeout::cli
