#include "common/schedule/generate.h"

#include <algorithm>
#include <limits>
#include <tuple>

#include "common/schedule/generate_place.h"

namespace squeezeout::schedule {
namespace {

constexpr int kNearer = 4;  // tries

std::size_t at(int index) { return static_cast<std::size_t>(index); }

}  // namespace

Generator::Generator(const Problem& problem, Bounds bounds)
    : problem_(problem),
      bounds_(std::move(bounds)),
      empty_(problem),
      in_(problem.tasks.size()),
      out_(problem.tasks.size()),
      due_(problem.tasks.size(), kFar),
      weight_(problem.tasks.size(), 0),
      timetable_(problem),
      placed_(problem.tasks.size()) {
  const std::size_t n = problem.tasks.size();
  for (std::size_t l = 0; l < problem.lags.size(); ++l) {
    out_[at(problem.lags[l].from)].push_back(static_cast<int>(l));
    in_[at(problem.lags[l].to)].push_back(static_cast<int>(l));
  }
  for (std::size_t i = 0; i < n; ++i) {
    least_length_.push_back(least_length(problem.tasks[i]));
    if (problem.tasks[i].weight == 0) continue;
    due_[i] = problem.tasks[i].due;
    weight_[i] = problem.tasks[i].weight;
  }
  // What others wait for is due in time for them.
  for (std::size_t round = 0; round < n; ++round) {
    bool changed = false;
    for (const Lag& lag : problem.lags) {
      if (!orders(lag) || due_[at(lag.to)] >= kFar / 2) continue;
      const Tick due = due_[at(lag.to)] - least_length_[at(lag.to)] - lag.ticks +
                       (lag.after == Lag::After::start ? least_length_[at(lag.from)] : 0);
      if (due >= due_[at(lag.from)]) continue;
      due_[at(lag.from)] = due;
      weight_[at(lag.from)] = std::max(weight_[at(lag.from)], weight_[at(lag.to)]);
      changed = true;
    }
    if (!changed) break;
  }
}

Tick Generator::least_ready(int task) const {
  return earliest_[at(task)] + least_length_[at(task)];
}

Tick Generator::ready(int task) const {
  const Placed& placed = *placed_[at(task)];
  return ready_of(problem_.tasks[at(task)].modes[at(placed.mode)], placed);
}

std::optional<Generator::Choice> Generator::choose(int i, const Plan& plan) {
  const Task& task = problem_.tasks[at(i)];
  const Plan::Keep keep = plan.keep[at(i)];
  const auto announced = keep == Plan::Keep::no ? std::nullopt : task.announced;
  const auto key = [&](const Choice& c) {
    return keep == Plan::Keep::always ? std::tuple(c.disturbed, c.late, c.ready)
                                      : std::tuple(c.late, c.disturbed, c.ready);
  };
  std::optional<Choice> best;
  const auto consider = [&](int m, Tick from) {
    const Mode& mode = task.modes[at(m)];
    ++placings_;
    auto placed = place(problem_, timetable_, mode, from);
    if (!placed) return;
    placed->mode = m;
    Choice choice{std::move(*placed)};
    choice.ready = ready_of(mode, choice.placed);
    choice.late = std::int64_t{weight_[at(i)]} * std::max(0, choice.ready - due_[at(i)]);
    choice.disturbed = mode.penalty;
    if (announced && choice.placed.start() != *announced)
      choice.disturbed += kMoved + std::abs(choice.placed.start() - *announced);
    if (!best || key(choice) < key(*best)) best = std::move(choice);
  };
  const Tick from = earliest_[at(i)];
  for (int m = 0; m < static_cast<int>(task.modes.size()); ++m) {
    const int penalty = task.modes[at(m)].penalty;
    if (plan.mode[at(i)] >= 0 && plan.mode[at(i)] != m) continue;
    if (best && best->late == 0 && best->disturbed <= penalty && penalty > 0)
      continue;  // it could only be worse
    if (!announced) {
      consider(m, from);
      continue;
    }
    if (*announced >= from && *announced <= latest_[at(i)]) {
      consider(m, *announced);
      if (best && best->placed.start() == *announced &&
          (best->late == 0 || keep == Plan::Keep::always))
        continue;
    }
    consider(m, from);
    // As near before what is announced as may be: there is no query for it, so a few tries.
    for (Tick back = 1; back < *announced - from; back *= 2) consider(m, *announced - back);
    for (int k = 0; k < kNearer && best && best->placed.start() < *announced; ++k)
      consider(m, best->placed.start() + 1);
  }
  return best;
}

int Generator::next(const Plan& plan) const {
  int first = -1;
  for (const int i : plan.order) {
    if (placed_[at(i)]) continue;
    if (first < 0) first = i;
    const auto waits = [&](int l) {
      const Lag& lag = problem_.lags[at(l)];
      return orders(lag) && !placed_[at(lag.from)];
    };
    if (std::none_of(in_[at(i)].begin(), in_[at(i)].end(), waits)) return i;
  }
  return first;  // they wait for each other
}

void Generator::put(int i, Placed placed) {
  const Mode& mode = problem_.tasks[at(i)].modes[at(placed.mode)];
  const Window span{placed.start(), end_of(mode, placed)};
  for (const Use& use : placed.held) timetable_.take(use.resource, use.count, span);
  for (std::size_t p = 0; p < mode.parts.size(); ++p) {
    const Tick begin = placed.begins[p];
    for (const Use& use : mode.parts[p].uses)
      timetable_.take(use.resource, use.count, {begin, begin + mode.parts[p].length_at(begin)});
  }
  placed_[at(i)] = std::move(placed);
  --left_;
}

void Generator::take_back(int i) {
  const Placed& placed = *placed_[at(i)];
  const Mode& mode = problem_.tasks[at(i)].modes[at(placed.mode)];
  const Window span{placed.start(), end_of(mode, placed)};
  for (const Use& use : placed.held) timetable_.give_back(use.resource, use.count, span);
  for (std::size_t p = 0; p < mode.parts.size(); ++p) {
    const Tick begin = placed.begins[p];
    for (const Use& use : mode.parts[p].uses)
      timetable_.give_back(use.resource, use.count,
                           {begin, begin + mode.parts[p].length_at(begin)});
  }
  placed_[at(i)].reset();
  ++left_;
}

void Generator::reset_bounds() {
  earliest_ = bounds_.earliest;
  latest_ = bounds_.latest;
  latest_by_.assign(earliest_.size(), -1);
  for (std::size_t i = 0; i < floor_.size(); ++i) earliest_[i] = std::max(earliest_[i], floor_[i]);
  for (std::size_t i = 0; i < floor_.size(); ++i)
    if (floor_[i] > bounds_.earliest[i] || placed_[i]) spread(static_cast<int>(i));
}

// What the start of task i, or how early it can be, means for those not yet placed.
void Generator::spread(int i) {
  if (placed_[at(i)]) earliest_[at(i)] = latest_[at(i)] = placed_[at(i)]->start();
  queue_.assign(1, i);
  for (std::size_t head = 0; head < queue_.size(); ++head) {
    const int j = queue_[head];
    for (const int l : out_[at(j)]) {
      const Lag& lag = problem_.lags[at(l)];
      if (placed_[at(lag.to)]) continue;
      const Tick from = lag.after == Lag::After::start ? earliest_[at(j)]
                        : placed_[at(j)]               ? ready(j)
                                                       : least_ready(j);
      if (from + lag.ticks <= earliest_[at(lag.to)]) continue;
      earliest_[at(lag.to)] = from + lag.ticks;
      if (earliest_[at(lag.to)] < problem_.horizon) queue_.push_back(lag.to);
    }
  }
  if (!placed_[at(i)]) return;
  queue_.assign(1, i);
  for (std::size_t head = 0; head < queue_.size(); ++head) {
    const int j = queue_[head];
    for (const int l : in_[at(j)]) {
      const Lag& lag = problem_.lags[at(l)];
      if (placed_[at(lag.from)] || latest_[at(j)] == kFar) continue;
      const Tick most = latest_[at(j)] - lag.ticks -
                        (lag.after == Lag::After::start ? 0 : least_length_[at(lag.from)]);
      if (most >= latest_[at(lag.from)]) continue;
      latest_[at(lag.from)] = most;
      latest_by_[at(lag.from)] = i;
      if (most > -kFar) queue_.push_back(lag.from);
    }
  }
}

// A placed task that begins too early for task i, and by how much.
Generator::InTheWay Generator::broken_by(int i) const {
  for (const int l : out_[at(i)]) {
    const Lag& lag = problem_.lags[at(l)];
    if (lag.to == i || !placed_[at(lag.to)]) continue;
    const Tick from = lag.after == Lag::After::start ? placed_[at(i)]->start() : ready(i);
    const Tick by = from + lag.ticks - placed_[at(lag.to)]->start();
    if (by > 0) return {lag.to, by};
  }
  return {};
}

// It moves later; all that begin no earlier are placed anew. False when it cannot move so late.
bool Generator::make_way(InTheWay early) {
  const Tick start = placed_[at(early.task)]->start();
  if (start + early.by > bounds_.latest[at(early.task)]) return false;
  floor_[at(early.task)] = start + early.by;
  for (std::size_t j = 0; j < placed_.size(); ++j)
    if (placed_[j] && placed_[j]->start() >= start) take_back(static_cast<int>(j));
  reset_bounds();
  return true;
}

std::optional<Schedule> Generator::generate(const Plan& plan) {
  const std::size_t n = problem_.tasks.size();
  timetable_ = empty_;
  placed_.assign(n, std::nullopt);
  floor_.assign(n, std::numeric_limits<Tick>::min());
  left_ = static_cast<int>(n);
  reset_bounds();
  std::size_t unscheduled = 0;
  while (left_ > 0) {
    const int i = failed_ = next(plan);
    auto choice = choose(i, plan);
    if (!choice) return std::nullopt;
    const Tick late = choice->placed.start() - latest_[at(i)];
    InTheWay early{latest_by_[at(i)], late};
    if (late > 0 && early.task < 0) return std::nullopt;
    if (late <= 0) {
      put(i, std::move(choice->placed));
      early = broken_by(i);
      if (early.task < 0) {
        spread(i);
        continue;
      }
      take_back(i);
    }
    if (++unscheduled > n + 10 || !make_way(early)) return std::nullopt;
  }
  Schedule schedule;
  for (std::optional<Placed>& placed : placed_) schedule.tasks.push_back(std::move(*placed));
  schedule.cost = cost_of(problem_, schedule.tasks);
  failed_ = -1;
  return schedule;
}

}  // namespace squeezeout::schedule
