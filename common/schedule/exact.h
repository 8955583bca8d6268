#pragma once
// Exact search: proves optimum and impossibility, and finds what generation misses. Starts are integers with lazily made bound
// literals; lags, calendars, timetables and cost explain what they rule out; conflicts are learned.
//   Source   lazy clause generation: Ohrimenko, Stuckey, Codish, Constraints 14 (2009); Schutt, Feydy, Stuckey, Wallace,
//            Constraints 16 (2011) and J. Scheduling 16 (2013) for most lags

#include <functional>

#include "common/schedule/lags.h"
#include "common/schedule/problem.h"

namespace squeezeout::schedule {

class Exact {
 public:
  Exact(const Problem& problem, Bounds bounds, std::uint64_t seed);
  ~Exact();

  enum class Answer {
    better,     // best() is new
    exhausted,  // nothing better than best() exists (nothing at all, when there is none)
    budget
  };
  // Searches through about `conflicts` conflicts for a schedule that costs less than best().
  Answer run(std::int64_t conflicts, const std::function<bool()>& stop);
  void take(
      const Schedule&
          better);  // found elsewhere: only a better one counts from now on, and its starts guide the search
  const std::optional<Schedule>& best() const;
  Cost lower_bound() const;  // proven so far, lexicographically; monotone
  std::int64_t conflicts() const;

 private:
  struct Self;
  std::unique_ptr<Self> self_;
};

}  // namespace squeezeout::schedule
