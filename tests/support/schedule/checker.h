#pragma once
// The judge: is this a schedule of that problem? Written from the comments of problem.h alone and sharing no code with the
// planner; naive, so that it is plain to see that it is right.
//   Shape    one sentence for each broken rule; empty: valid, and its cost is what it says

#include <string>
#include <vector>

#include "common/schedule/problem.h"

namespace squeezeout::schedule::testing {

[[nodiscard]] std::vector<std::string> faults_of(const Problem& problem, const Schedule& schedule);

}  // namespace squeezeout::schedule::testing
