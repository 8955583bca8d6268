#pragma once
// Exact search: proves optimum and impossibility, and finds what generation misses.
//   Shape    a clause learning search over bounds of whole-number variables; lags, calendars, timetables, mixes and costs
//            explain what they rule out. Every feature of problem.h is modelled: given time it proves any problem. Reading order:
//            exact_predicate, exact_engine (bounds, reasons; exact_learn: what is learned), exact_activity, exact_timetable,
//            exact_order (who goes first), exact_rules, exact_cost, exact_model (the problem in these terms), exact.cc
//   Units    work: reproducible by seed and work, when `stop` does not cut in
//   Source   lazy clause generation: Ohrimenko, Stuckey, Codish, Constraints 14 (2009); for resources and most lags: Schutt,
//            Feydy, Stuckey, Wallace, Constraints 16 (2011), and Schutt, Feydy, Stuckey, J. Scheduling 16 (2013)

#include <functional>

#include "common/schedule/lags.h"
#include "common/schedule/problem.h"

namespace squeezeout::schedule {

class Exact {
 public:
  // Keeps a reference to the problem. `bounds` are of that problem.
  Exact(const Problem& problem, Bounds bounds, std::uint64_t seed);
  ~Exact();

  enum class Answer {
    better,     // best() is new
    exhausted,  // nothing better than best() exists (nothing at all, when there is none)
    budget
  };
  // Searches for about `work` for a schedule that costs less than best(). `stop` is asked each millisecond or so; a stopped
  // search goes on where it was.
  Answer run(std::int64_t work, const std::function<bool()>& stop);
  // Found elsewhere: only a better one counts from now on, and its starts guide the search.
  void take(const Schedule& better);
  const std::optional<Schedule>& best() const;
  Cost lower_bound() const;  // proven so far, lexicographically; monotone
  std::int64_t conflicts() const;
  std::int64_t work() const;  // done so far: see solve.h

 private:
  struct Self;
  std::unique_ptr<Self> self_;
};

}  // namespace squeezeout::schedule
