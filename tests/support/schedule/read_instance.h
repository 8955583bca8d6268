#pragma once
// Published scheduling instances, and tables of what is known about them, read into the planner's own model.
//   Shape    `.sm`  (PSPLIB, one mode): job j is task j - 1, the first is the source, the last the sink; a successor begins at
//                   the end of its job or later (a lag of 0 after ready)
//            `.sch` (ProGen/max): node i is task i, 0 the source, n + 1 the sink; arcs are lags from start to start, a negative
//                   one is a most lag
//            A job is one part that uses its resources while it runs. Source and sink last no time; each job has a path to
//            the sink that is at least as long as the job, so that the makespan is the start of the sink, as published.
//            `.csv`  columns by name: instance, best_known_makespan (empty: none is known), lower_bound, is_optimal,
//                   critical_path, and status where infeasible ones are among them
//   Units    Tick: the instance's own
//   Refuses  ReadError: the file cannot be opened, or a line does not say what the format wants there

#include <filesystem>
#include <map>
#include <string>

#include "common/base/result.h"
#include "common/schedule/problem.h"

namespace squeezeout::schedule::testing {

struct ReadError {
  std::string file;
  int line = 0;  // 0: the whole file
  std::string what, mend;
  std::string where() const;  // file:line
  std::string words() const;
};

[[nodiscard]] Result<Problem, ReadError> read_instance(const std::filesystem::path& file);

struct Known {
  bool feasible = true;
  std::optional<Tick> best_makespan;
  Tick lower_bound = 0;
  bool is_optimal = false;
  Tick critical_path = 0;
};
using KnownTable = std::map<std::string, Known>;  // by instance: the file's name without its ending

[[nodiscard]] Result<KnownTable, ReadError> read_known(const std::filesystem::path& csv);

// The instances of a folder in natural order: j301_2 before j301_10.
[[nodiscard]] std::vector<std::filesystem::path> instances_in(const std::filesystem::path& folder);

}  // namespace squeezeout::schedule::testing
