#pragma once
// What a set of published instances says of the planner, beside what is known of them.
//   Units    deviations in percent, of the makespan; lower is better

#include <optional>
#include <string>
#include <vector>

#include "tests/bench/schedule/race.h"
#include "tests/support/schedule/read_instance.h"

namespace squeezeout::schedule::testing {

struct Entry {
  std::string name;
  Known known;
  Finish finish;

  std::optional<double> over_best_known() const;
  std::optional<double> over_critical_path() const;
  std::vector<std::string> failures() const;  // faults, and proofs that what is known contradicts
};

struct Summary {
  int instances = 0, solved = 0, proven = 0;  // proven: optimal
  int feasible_missed = 0;                    // known to be feasible, and no schedule found
  int infeasible = 0, infeasible_proven = 0, infeasible_missed = 0, infeasible_wrong = 0;
  int by_cycle = 0, by_no_room = 0;  // of infeasible_proven; the rest by search
  int better = 0;                    // than the best known
  double mean_deviation = 0, worst_deviation = 0;
  double over_critical_path = 0, best_known_over_critical_path = 0;  // of the same instances
  double mean_first_seconds = 0, worst_first_seconds = 0, mean_best_seconds = 0;
};

[[nodiscard]] Summary summary_of(const std::vector<Entry>& results);

// Published means over the critical path bound of whole sets, to print beside one's own.
struct Yardstick {
  double percent = 0;
  const char* of = "";
};
[[nodiscard]] std::vector<Yardstick> yardsticks_for(const std::string& first_instance);

[[nodiscard]] std::string line_of(const Entry& result);
[[nodiscard]] std::string table_of(const Summary& summary,
                                   const std::vector<Yardstick>& yardsticks);
[[nodiscard]] std::string json_of(const Race& race, const std::vector<Entry>& results);

}  // namespace squeezeout::schedule::testing
