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

Tick next_start(const Problem& problem, int calendar, Tick length, Tick from) {
  if (calendar < 0) return from;
  const auto& open = problem.calendars[static_cast<std::size_t>(calendar)].open;
  auto it = std::partition_point(open.begin(), open.end(),
                                 [&](const Window& w) { return w.end <= from; });
  for (; it != open.end(); ++it) {
    const Tick at = std::max(from, it->begin);
    if (at + length <= it->end) return at;
  }
  return kFar;
}

}  // namespace squeezeout::schedule
