#include "common/schedule/improve_flat.h"

#include <algorithm>
#include <bit>

namespace squeezeout::schedule {
namespace {

constexpr std::int64_t kMostTicks = 1 << 16;
constexpr std::size_t kMostTasks = (1 << 16) - 1;  // an index has 16 bits in PopulationSearch
constexpr std::size_t kMostBoundBothWays = 1'000;  // longest paths between all of them are kept

std::size_t at(int index) { return static_cast<std::size_t>(index); }

bool plain(const Task& task) {
  if (task.modes.size() != 1 || task.announced || (task.weight != 0 && task.due != kFar))
    return false;
  const Mode& mode = task.modes.front();
  if (mode.parts.size() != 1 || !mode.starts.empty()) return false;
  if (mode.wait && mode.wait->by_begin) return false;
  const Part& part = mode.parts.front();
  if (part.by_begin || part.calendar >= 0) return false;
  return std::all_of(mode.held.begin(), mode.held.end(),
                     [](const Need& need) { return need.resources.size() == 1; });
}

// An order in which every arc goes forward; empty when there is none.
std::vector<int> order_of(const Flat& flat) {
  std::vector<int> order, waits(flat.length.size());
  for (std::size_t i = 0; i < waits.size(); ++i) {
    waits[i] = static_cast<int>(flat.before[i].size());
    if (waits[i] == 0) order.push_back(static_cast<int>(i));
  }
  for (std::size_t k = 0; k < order.size(); ++k)
    for (const Flat::Arc& arc : flat.after[at(order[k])])
      if (--waits[at(arc.task)] == 0) order.push_back(arc.task);
  if (order.size() < waits.size()) order.clear();
  return order;
}

bool only_least_lags(const Flat& flat) {
  for (std::size_t i = 0; i < flat.length.size(); ++i) {
    if (flat.latest[i] != kFar) return false;
    for (const Flat::Arc& arc : flat.after[i])
      if (arc.lag < flat.length[i]) return false;
  }
  return true;
}

}  // namespace

std::optional<Flat> flatten(const Problem& problem, const Bounds& bounds) {
  const std::size_t n = problem.tasks.size();
  if (n == 0 || n > kMostTasks || !std::all_of(problem.tasks.begin(), problem.tasks.end(), plain))
    return std::nullopt;
  std::vector<int> shift;
  int bits = 0;
  Flat flat;
  std::uint64_t full = 0;
  for (const int capacity : problem.capacity) {
    shift.push_back(bits);
    const int width =
        static_cast<int>(std::bit_width(static_cast<unsigned>(std::max(0, capacity))));
    if (capacity < 0 || bits + width + 1 > 64) return std::nullopt;
    full |= static_cast<std::uint64_t>(capacity) << bits;
    bits += width + 1;
    flat.guards |= std::uint64_t{1} << (bits - 1);
  }

  flat.before.resize(n);
  flat.after.resize(n);
  flat.earliest = bounds.earliest;
  std::int64_t ticks = 1;
  std::vector<std::int64_t> energy(problem.capacity.size());
  for (std::size_t i = 0; i < n; ++i) {
    const Mode& mode = problem.tasks[i].modes.front();
    const Part& part = mode.parts.front();
    std::vector<int> counts(problem.capacity.size());
    for (const Need& need : mode.held) counts[at(need.resources.front())] += need.count;
    for (const Use& use : part.uses) counts[at(use.resource)] += use.count;
    std::uint64_t lanes = 0;
    for (std::size_t r = 0; r < counts.size(); ++r) {
      if (part.length > 0 && counts[r] > problem.capacity[r]) return std::nullopt;
      lanes |= static_cast<std::uint64_t>(part.length > 0 ? counts[r] : 0) << shift[r];
      energy[r] += std::int64_t{counts[r]} * part.length;
    }
    const Tick wait = mode.wait ? mode.wait->length : 0;
    flat.need.push_back(lanes);
    flat.length.push_back(part.length);
    flat.ready.push_back(std::max(part.length, wait));
    flat.latest.push_back(bounds.latest[i] == kFar && problem.horizon == kFar
                              ? kFar
                              : std::min(bounds.latest[i], problem.horizon - part.length));
    if (bounds.earliest[i] < 0 || flat.latest.back() < bounds.earliest[i]) return std::nullopt;
    flat.least_makespan = std::max(flat.least_makespan, bounds.earliest[i] + flat.ready.back());
    ticks = std::max(ticks, std::int64_t{bounds.earliest[i]}) + flat.ready.back();
  }
  for (const Lag& lag : problem.lags) {
    const Tick ticks_start =
        lag.ticks + (lag.after == Lag::After::ready ? flat.ready[at(lag.from)] : 0);
    flat.after[at(lag.from)].push_back({lag.to, ticks_start});
    flat.before[at(lag.to)].push_back({lag.from, ticks_start});
    ticks += std::max(0, ticks_start);
  }
  for (const Taken& taken : problem.taken) {
    if (taken.span.end > taken.span.begin) ticks += std::max(0, taken.span.end);
  }
  if (ticks > kMostTicks) return std::nullopt;

  flat.horizon = static_cast<Tick>(ticks);
  flat.free.assign(2 * static_cast<std::size_t>(ticks), full | flat.guards);
  for (std::size_t r = 0; r < problem.capacity.size(); ++r) {
    std::vector<int> left(flat.free.size(), problem.capacity[r]);
    bool any = false;
    for (const Taken& taken : problem.taken) {
      if (at(taken.resource) != r) continue;
      any = true;
      for (Tick t = std::max(0, taken.span.begin); t < taken.span.end; ++t)
        left[at(t)] -= taken.count;
    }
    for (std::size_t t = 0; any && t < left.size(); ++t) {
      const auto lack = static_cast<std::uint64_t>(problem.capacity[r] - std::max(0, left[t]));
      flat.free[t] -= lack << shift[r];
    }
    if (!any && problem.capacity[r] > 0)
      flat.least_makespan =
          std::max(flat.least_makespan,
                   static_cast<Tick>((energy[r] + problem.capacity[r] - 1) / problem.capacity[r]));
  }
  if (only_least_lags(flat)) flat.least_order = order_of(flat);
  if (flat.least_order.empty() && n > kMostBoundBothWays) return std::nullopt;
  return flat;
}

Schedule schedule_of(const Problem& problem, const std::vector<Tick>& starts) {
  Schedule schedule;
  for (std::size_t i = 0; i < starts.size(); ++i) {
    Placed placed{0, {starts[i]}, {}};
    const Mode& mode = problem.tasks[i].modes.front();
    std::vector<int> counts(problem.capacity.size());
    for (const Need& need : mode.held) counts[at(need.resources.front())] += need.count;
    for (std::size_t r = 0; r < counts.size(); ++r)
      if (counts[r] > 0) placed.held.push_back({static_cast<int>(r), counts[r]});
    schedule.tasks.push_back(std::move(placed));
  }
  schedule.cost = cost_of(problem, schedule.tasks);
  return schedule;
}

}  // namespace squeezeout::schedule
