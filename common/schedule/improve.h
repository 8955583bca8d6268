#pragma once
// Schedules by generation: serial placement by priority, unscheduling where a most lag breaks, justification, iterated search.
//   Source   unscheduling: Franck, Neumann, Schwindt, OR Spektrum 23 (2001); double justification: Valls, Ballestin,
//            Quintanilla, EJOR 165 (2005)

#include <functional>

#include "common/schedule/lags.h"
#include "common/schedule/problem.h"

namespace squeezeout::schedule {

class Search;

class Improver {
 public:
  Improver(const Problem& problem, Bounds bounds, std::uint64_t seed);
  ~Improver();

  // Searches for about `work` more; true when a better one was found. Ends early when `stop` says so, and when nothing is left.
  bool run(std::int64_t work, const std::function<bool()>& stop);
  void take(const Schedule& better);  // found elsewhere; it goes on from there
  const std::optional<Schedule>& best() const;
  std::int64_t schedules() const;  // generated so far
  std::int64_t work() const;       // done so far: see solve.h

 private:
  std::unique_ptr<Search> search_;
};

}  // namespace squeezeout::schedule
