#pragma once
// A plain problem laid flat for quick generation: one way and one part a task, constant lengths, no calendar, each need from one
// resource, and the makespan as the only cost. Resources are packed as lanes of one word, ticks as an array.
//   Shape    lane r holds counts of resource r with a guard bit on top: (free - need) keeps all guard bits set exactly when
//            every lane has enough
//   Refuses  nothing (nullopt) for any other problem, and where lanes or ticks are too many

#include <algorithm>
#include <optional>

#include "common/schedule/lags.h"
#include "common/schedule/problem.h"

namespace squeezeout::schedule {

struct Flat {
  struct Arc {
    int task = 0;
    Tick lag = 0;  // start to start, at least
  };
  std::vector<Tick> length, ready;       // from its start
  std::vector<std::uint64_t> need;       // in lanes
  std::vector<std::vector<Arc>> before;  // start >= start(arc.task) + arc.lag
  std::vector<std::vector<Arc>> after;   // the same arcs by their other end
  std::vector<Tick> earliest, latest;    // of starts
  std::vector<std::uint64_t> free;       // of each tick, guards set, as taken leaves it
  std::uint64_t guards = 0;
  Tick horizon = 0;  // a best schedule ends by then, if there is any; there are twice as many ticks
  Tick least_makespan = 0;  // by longest paths and by energy
  std::vector<int>
      least_order;  // tasks so that arcs go forward, when all arcs are least lags of a full length or more and
                    // nothing bounds a start from above; else empty

  int tasks() const { return static_cast<int>(length.size()); }
};

[[nodiscard]] std::optional<Flat> flatten(const Problem& problem, const Bounds& bounds);
[[nodiscard]] Schedule schedule_of(const Problem& problem, const std::vector<Tick>& starts);

// What is free at each tick while a flat problem is placed.
class Ticks {
 public:
  explicit Ticks(const Flat& flat) : flat_(flat), free_(flat.free) {}

  void clear() {
    std::copy(flat_.free.begin(), flat_.free.begin() + dirty_, free_.begin());
    dirty_ = 0;
  }
  // The earliest start >= from with room for the task; the ticks beyond the last are all free.
  Tick first_fit(int task, Tick from) const {
    const auto i = static_cast<std::size_t>(task);
    const std::uint64_t need = flat_.need[i], guards = flat_.guards;
    const Tick length = flat_.length[i];
    const std::uint64_t* free = free_.data();
    Tick start = from, known = from;  // [start, known) has room
    for (;;) {
      const Tick end = start + length;
      Tick at = end;
      while (at > known && ((free[at - 1] - need) & guards) == guards) --at;
      if (at <= known) return start;
      start = at;
      known = end;
    }
  }
  // The latest start <= from with room for the task; kNone when there is none at or after tick 0.
  static constexpr Tick kNone = -1;
  Tick last_fit(int task, Tick from) const {
    const auto i = static_cast<std::size_t>(task);
    const std::uint64_t need = flat_.need[i], guards = flat_.guards;
    const Tick length = flat_.length[i];
    const std::uint64_t* free = free_.data();
    Tick start = from, known = from + length;  // [known, start + length) has room
    while (start >= 0) {
      Tick at = start;
      while (at < known && ((free[at] - need) & guards) == guards) ++at;
      if (at >= known) return start;
      known = start;
      start = at - length;
    }
    return kNone;
  }
  void take(int task, Tick start) {
    const auto i = static_cast<std::size_t>(task);
    const std::uint64_t need = flat_.need[i];
    const Tick end = start + flat_.length[i];
    for (Tick at = start; at < end; ++at) free_[static_cast<std::size_t>(at)] -= need;
    dirty_ = std::max(dirty_, end);
  }
  void give_back(int task, Tick start) {
    const auto i = static_cast<std::size_t>(task);
    const std::uint64_t need = flat_.need[i];
    const Tick end = start + flat_.length[i];
    for (Tick at = start; at < end; ++at) free_[static_cast<std::size_t>(at)] += need;
  }

 private:
  const Flat& flat_;
  std::vector<std::uint64_t> free_;
  Tick dirty_ = 0;  // ticks from here on are as at first
};

}  // namespace squeezeout::schedule
