#pragma once
// The arguments that say which glue-up is wanted: shared by reserve, earliest, why and joint.

#include <CLI/CLI.hpp>
#include <string>

#include "tools/cli/session.h"

namespace squeezeout::cli {

struct Wanted {
  std::string recipe, build, builder, bench, glue, lot, after, at, reason;
  bool anyway = false;  // as CLI11 fills it in
};
// What is glued, by whom, with what, and exactly when.
void add_joint_wanted(CLI::App& verb, Wanted& wanted);
// The same, and all else that a place is searched by.
void add_wanted(CLI::App& verb, Wanted& wanted);

// What the names mean on this floor. Left out: the recipe is the build's next step, the builder is the build's.
//   who     nobody: a builder need not be said
//   Stops   Exit::wrong_use: a name or time that is none, or too little said
enum class Who { somebody, nobody };
[[nodiscard]] Reserve read_wanted(const Session& session, const Wanted& wanted,
                                  Who who = Who::somebody);

}  // namespace squeezeout::cli
