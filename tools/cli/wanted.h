#pragma once
// The arguments that say which glue-up is wanted: shared by reserve, earliest and why.

#include <CLI/CLI.hpp>
#include <string>

#include "tools/cli/session.h"

namespace squeezeout::cli {

struct Wanted {
  std::string recipe, build, builder, bench, glue, after, at;
  bool anyway = false;  // as CLI11 fills it in
};
void add_wanted(CLI::App& verb, Wanted& wanted);

// What the names mean on this floor. Left out: the recipe is the build's next step, the builder is the build's.
//   Stops   Exit::wrong_use: a name or time that is none, or too little said
[[nodiscard]] Reserve read_wanted(const Session& session, const Wanted& wanted);

}  // namespace squeezeout::cli
