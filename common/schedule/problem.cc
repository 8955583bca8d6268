#include "common/schedule/problem.h"

#include <algorithm>

namespace squeezeout::schedule {

Tick end_of(const Mode& mode, const Placed& placed) {
  const Tick begin = placed.begins.back();
  return begin + mode.parts.back().length_at(begin);
}

Tick ready_of(const Mode& mode, const Placed& placed) {
  const Tick end = end_of(mode, placed);
  if (!mode.wait) return end;
  const Tick from = placed.begins[static_cast<std::size_t>(mode.wait->from_part)];
  return std::max(end, from + mode.wait->length_at(from));
}

Cost cost_of(const Problem& problem, const std::vector<Placed>& tasks) {
  Cost cost;
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    const Task& task = problem.tasks[i];
    const Mode& mode = task.modes[static_cast<std::size_t>(tasks[i].mode)];
    const Tick ready = ready_of(mode, tasks[i]);
    if (ready > task.due) cost.late += std::int64_t{task.weight} * (ready - task.due);
    cost.disturbed += mode.penalty;
    if (task.announced && tasks[i].start() != *task.announced)
      cost.disturbed += kMoved + std::abs(tasks[i].start() - *task.announced);
    cost.makespan = std::max<std::int64_t>(cost.makespan, ready);
  }
  return cost;
}

Tick next_open(const Problem& problem, const Part& part, Tick from) {
  if (part.calendar < 0) return from;
  const auto& open = problem.calendars[static_cast<std::size_t>(part.calendar)].open;
  auto it = std::partition_point(open.begin(), open.end(),
                                 [&](const Window& w) { return w.end <= from; });
  for (; it != open.end(); ++it) {
    const Tick at = std::max(from, it->begin);
    if (at + part.length_at(at) <= it->end) return at;
  }
  return kFar;
}

Tick next_allowed(const Mode& mode, Tick from) {
  if (mode.starts.empty()) return from;
  const auto it = std::partition_point(mode.starts.begin(), mode.starts.end(),
                                       [&](const Window& w) { return w.end <= from; });
  return it == mode.starts.end() ? kFar : std::max(from, it->begin);
}

Tick least_length(const Task& task) {
  Tick least = kFar;
  for (const Mode& mode : task.modes) {
    Tick sum = 0, waited = 0;
    for (std::size_t p = 0; p < mode.parts.size(); ++p) {
      if (mode.wait && !mode.wait->by_begin && static_cast<int>(p) == mode.wait->from_part)
        waited = sum + mode.wait->length;
      sum += mode.parts[p].by_begin ? 0 : mode.parts[p].length;
    }
    least = std::min(least, std::max(sum, waited));
  }
  return least;
}

}  // namespace squeezeout::schedule
