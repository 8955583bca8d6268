#pragma once
// The scheduling problem in whole numbers: tasks over resources with least and most lags, calendars, substitution, due dates and
// announced starts (RCPSP/max with calendars). Knows nothing of glue; the floor is translated into it (floor/as_problem.h), and
// so is a published instance, by a test. One model, one planner.
//   Shape    ids are indices. A task is a chain of parts, one after another; what it holds, it holds from the begin of the first
//            part to the end of the last. `begins[p] == begins[p-1] + length[p-1]`, but an elastic part may begin later.
//   Units    Tick: the caller's own (the floor: minutes from now). Spans are half-open.

#include <compare>
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace squeezeout::schedule {

using Tick = std::int32_t;
inline constexpr Tick kFar = 1'000'000'000;  // never

struct Window {
  Tick begin = 0, end = 0;
  friend auto operator<=>(const Window&, const Window&) = default;
};

struct Use {
  int resource = 0, count = 0;
  friend auto operator<=>(const Use&, const Use&) = default;
};

// `count` pieces, any mix of `resources` (good enough, least capable first), the same pieces from begin to end.
struct Need {
  int count = 0;
  std::vector<int> resources;
  friend bool operator==(const Need&, const Need&) = default;
};

// A length that hangs on when it begins (weather). begin + at(begin) never falls as begin grows. Safe from several threads.
class Length {
 public:
  virtual ~Length() = default;
  virtual Tick at(Tick begin) const = 0;
};

struct Part {
  Tick length = 0;
  std::shared_ptr<const Length> by_begin;  // null: `length` at any hour
  int calendar = -1;                       // lies within one open window of it; -1: any time
  enum class Joins { at_once, elastic } joins = Joins::at_once;  // to the part before
  std::vector<Use> uses;  // only while it runs: the builder's hands, the bench
  Tick length_at(Tick begin) const { return by_begin ? by_begin->at(begin) : length; }
};

// The task is ready at the end of its last part, and not before begins[from_part] + the wait.
struct Wait {
  int from_part = 0;
  Tick length = 0;
  std::shared_ptr<const Length> by_begin;
  Tick length_at(Tick begin) const { return by_begin ? by_begin->at(begin) : length; }
};

// One way to do it: a glue, say.
struct Mode {
  std::vector<Part> parts;  // at least one
  std::vector<Need> held;
  std::optional<Wait> wait;
  std::vector<Window>
      starts;       // a task begins within one of these only (warm enough); empty: any time
  int penalty = 0;  // counts as disturbance: not the usual way
};

struct Task {
  std::vector<Mode> modes;           // at least one, the usual way first
  Tick earliest = 0, latest = kFar;  // of its start
  Tick due = kFar;                   // of its ready
  int weight = 0;                    // of each tick that it is ready after `due`
  std::optional<Tick> announced;     // the start that people have seen
};

// start(to) >= start(from) + ticks, or >= ready(from) + ticks. A negative `ticks` from a start is a most lag:
// start(from) <= start(to) + |ticks|.
struct Lag {
  int from = 0, to = 0;
  Tick ticks = 0;
  enum class After { start, ready } after = After::start;
};

// Taken already, by what has started or is out of use.
struct Taken {
  int resource = 0, count = 0;
  Window span;
};

struct Calendar {
  std::vector<Window> open;  // in order, apart; closed outside
};

struct Problem {
  std::vector<int> capacity;  // of each resource
  std::vector<Calendar> calendars;
  std::vector<Task> tasks;
  std::vector<Lag> lags;
  std::vector<Taken> taken;
  Tick horizon = kFar;  // no part ends after it
};

// Lexicographic: lateness, then disturbance, then makespan.
struct Cost {
  std::int64_t late = 0;  // sum of weight * ticks after due
  std::int64_t disturbed =
      0;  // sum of penalties, and of kMoved + ticks for each task away from its announced start
  std::int64_t makespan = 0;  // the last ready
  friend auto operator<=>(const Cost&, const Cost&) = default;
};
// One more task moved is worse than all distances, while these come to less: of a thousand tasks, a million ticks each.
inline constexpr std::int64_t kMoved = 1'000'000'000;

struct Placed {
  int mode = 0;
  std::vector<Tick> begins;  // of each part
  std::vector<Use> held;     // which pieces: by resource, each once, in order
  Tick start() const { return begins.front(); }
  friend bool operator==(const Placed&, const Placed&) = default;
};

struct Schedule {
  std::vector<Placed> tasks;
  Cost cost;
};

[[nodiscard]] Tick end_of(const Mode& mode,
                          const Placed& placed);  // of the last part: what is held is free again
[[nodiscard]] Tick ready_of(const Mode& mode, const Placed& placed);
[[nodiscard]] Cost cost_of(const Problem& problem, const std::vector<Placed>& tasks);

// The earliest begin >= from at which the part lies within one open window of its calendar; kFar when none. Within one window no
// later begin helps, as ends never fall.
[[nodiscard]] Tick next_open(const Problem& problem, const Part& part, Tick from);
// The earliest start >= from that the mode's `starts` allow; kFar when none.
[[nodiscard]] Tick next_allowed(const Mode& mode, Tick from);
// From its start until it is ready, at least, whatever the mode; lengths by the hour count as none.
[[nodiscard]] Tick least_length(const Task& task);

}  // namespace squeezeout::schedule
