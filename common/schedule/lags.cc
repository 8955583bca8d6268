#include "common/schedule/lags.h"

#include <algorithm>
#include <deque>

namespace squeezeout::schedule {
namespace {

// The earliest begin in (after, end] from which the part ends at `end` or later.
Tick begin_for(const Part& part, Tick after, Tick end) {
  if (!part.by_begin) return end - part.length;
  Tick short_of = after, enough = end;
  while (enough - short_of > 1) {
    const Tick middle = short_of + (enough - short_of) / 2;
    (middle + part.length_at(middle) >= end ? enough : short_of) = middle;
  }
  return enough;
}

// A mode placed as early as its own calendars allow, were all resources free; no begins: not before the horizon. Parts that join
// at once move together until each is open; an elastic part holds none of those before it back.
Placed alone(const Problem& problem, const Mode& mode, Tick from) {
  Placed placed;
  const Tick end = std::min(problem.horizon, kFar - 1);
  const std::size_t parts = mode.parts.size();
  for (std::size_t first = 0, last = 1; first < parts; first = last++) {
    while (last < parts && mode.parts[last].joins == Part::Joins::at_once) ++last;
    placed.begins.resize(last);
    for (;;) {
      if (first == 0) from = next_allowed(mode, from);
      if (from > end) return {};
      Tick at = from, open = from;
      std::size_t p = first;
      for (; p < last; at += mode.parts[p].length_at(at), ++p) {
        placed.begins[p] = at;
        open = next_open(problem, mode.parts[p], at);
        if (open != at) break;
      }
      if (p == last) {
        from = at;
        break;
      }
      if (open > end) return {};
      while (p-- > first) open = begin_for(mode.parts[p], placed.begins[p], open);
      from = open;
    }
  }
  if (from > end) return {};
  return placed;
}

// start(to) >= start(from) + ticks over and over, and what a positive cycle of them is.
class Paths {
 public:
  explicit Paths(const Problem& problem) : problem_(problem), out_(problem.tasks.size()) {
    for (std::size_t l = 0; l < problem.lags.size(); ++l)
      out_[static_cast<std::size_t>(problem.lags[l].from)].push_back(static_cast<int>(l));
  }

  std::variant<Bounds, Cycle, NoRoom> run() {
    const std::size_t n = problem_.tasks.size();
    Bounds bounds{std::vector<Tick>(n), std::vector<Tick>(n, kFar)};
    std::vector<Tick>& start = bounds.earliest;
    std::vector<Tick> ready(n);
    std::vector<int> by(n, -1),
        length(n, 0);  // the lag that set it, and of how many lags its path is
    std::deque<int> queue;
    std::vector<bool> waiting(n, false);
    for (std::size_t i = 0; i < n; ++i) start[i] = problem_.tasks[i].earliest;

    const auto settle = [&](std::size_t i) {  // up to a start that the task's own calendars allow
      Tick earliest = kFar, soonest = kFar;
      for (const Mode& mode : problem_.tasks[i].modes) {
        const Placed placed = alone(problem_, mode, start[i]);
        if (placed.begins.empty()) continue;
        earliest = std::min(earliest, placed.start());
        soonest = std::min(soonest, ready_of(mode, placed));
      }
      if (earliest == kFar) return false;
      start[i] = earliest;
      ready[i] = soonest;
      return true;
    };
    for (std::size_t i = 0; i < n; ++i) {
      if (!settle(i)) return NoRoom{static_cast<int>(i)};
      queue.push_back(static_cast<int>(i));
      waiting[i] = true;
    }
    while (!queue.empty()) {
      const auto i = static_cast<std::size_t>(queue.front());
      queue.pop_front();
      waiting[i] = false;
      for (const int l : out_[i]) {
        const Lag& lag = problem_.lags[static_cast<std::size_t>(l)];
        const auto to = static_cast<std::size_t>(lag.to);
        const Tick least = (lag.after == Lag::After::start ? start[i] : ready[i]) + lag.ticks;
        if (least <= start[to]) continue;
        start[to] = least;
        by[to] = l;
        length[to] = length[i] + 1;
        if (length[to] >= static_cast<int>(n)) {
          if (auto cycle = cycle_at(by, lag.to)) return std::move(*cycle);
        }
        if (!settle(to)) {
          if (auto cycle = cycle_at(by, lag.to)) return std::move(*cycle);
          return NoRoom{lag.to};
        }
        if (start[to] > problem_.tasks[to].latest) {
          if (auto cycle = cycle_at(by, lag.to)) return std::move(*cycle);
          return NoRoom{lag.to};
        }
        if (!waiting[to]) {
          queue.push_back(lag.to);
          waiting[to] = true;
        }
      }
    }
    for (std::size_t i = 0; i < n; ++i) {
      if (start[i] > problem_.tasks[i].latest) return NoRoom{static_cast<int>(i)};
    }
    // How late: backwards over start lags, and over ready lags with the least length that any mode has.
    std::vector<Tick>& latest = bounds.latest;
    for (std::size_t i = 0; i < n; ++i) latest[i] = problem_.tasks[i].latest;
    for (bool changed = true; changed;) {
      changed = false;
      for (const Lag& lag : problem_.lags) {
        const auto from = static_cast<std::size_t>(lag.from), to = static_cast<std::size_t>(lag.to);
        if (latest[to] == kFar) continue;
        const Tick length_least = lag.after == Lag::After::start ? 0 : least_length(from);
        const Tick most = latest[to] - lag.ticks - length_least;
        if (most >= latest[from]) continue;
        latest[from] = most;
        if (most < start[from]) return NoRoom{lag.from};
        changed = true;
      }
    }
    return bounds;
  }

 private:
  Tick least_length(std::size_t task) const { return schedule::least_length(problem_.tasks[task]); }

  // Walks back over what set each start: a task met twice lies on a cycle.
  std::optional<Cycle> cycle_at(const std::vector<int>& by, int task) const {
    std::vector<int> seen(problem_.tasks.size(), -1);
    std::vector<int> path;
    for (int at = task;;) {
      const int l = by[static_cast<std::size_t>(at)];
      if (l < 0) return std::nullopt;
      if (seen[static_cast<std::size_t>(at)] >= 0) {
        Cycle cycle;
        for (std::size_t k = path.size();
             k-- > static_cast<std::size_t>(seen[static_cast<std::size_t>(at)]);)
          cycle.lags.push_back(problem_.lags[static_cast<std::size_t>(path[k])]);
        // A calendar may have set a start on the way: only a positive sum of what always holds is a proof.
        std::int64_t sum = 0;
        for (const Lag& lag : cycle.lags)
          sum += lag.ticks + (lag.after == Lag::After::ready
                                  ? least_length(static_cast<std::size_t>(lag.from))
                                  : 0);
        if (sum <= 0) return std::nullopt;
        return cycle;
      }
      seen[static_cast<std::size_t>(at)] = static_cast<int>(path.size());
      path.push_back(l);
      at = problem_.lags[static_cast<std::size_t>(l)].from;
    }
  }

  const Problem& problem_;
  std::vector<std::vector<int>> out_;
};

}  // namespace

std::variant<Bounds, Cycle, NoRoom> bounds_of(const Problem& problem) {
  return Paths{problem}.run();
}

}  // namespace squeezeout::schedule
