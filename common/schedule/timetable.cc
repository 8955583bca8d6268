#include "common/schedule/timetable.h"

#include <algorithm>
#include <limits>

namespace squeezeout::schedule {
namespace {

constexpr Tick kEver = std::numeric_limits<Tick>::min();

template <typename Steps>
auto step_at(Steps& steps, Tick at) {
  return std::prev(std::partition_point(steps.begin(), steps.end(),
                                        [&](const auto& step) { return step.at <= at; }));
}

}  // namespace

Timetable::Timetable(const Problem& problem) {
  for (const int capacity : problem.capacity) steps_.push_back({{kEver, capacity}});
  for (const Taken& taken : problem.taken) take(taken.resource, taken.count, taken.span);
}

void Timetable::take(int resource, int count, Window span) { change(resource, -count, span); }
void Timetable::give_back(int resource, int count, Window span) { change(resource, count, span); }

std::size_t Timetable::split(std::vector<Step>& steps, Tick at) {
  auto it = step_at(steps, at);
  if (it->at != at) it = steps.insert(std::next(it), {at, it->free});
  return static_cast<std::size_t>(it - steps.begin());
}

void Timetable::change(int resource, int by, Window span) {
  if (by == 0 || span.begin >= span.end) return;
  std::vector<Step>& steps = steps_[static_cast<std::size_t>(resource)];
  const std::size_t first = split(steps, span.begin), last = split(steps, span.end);
  for (std::size_t k = first; k < last; ++k) steps[k].free += by;
  const auto needless = [&](std::size_t k) {  // two neighbours alike are one step
    if (k > 0 && steps[k].free == steps[k - 1].free)
      steps.erase(steps.begin() + static_cast<std::ptrdiff_t>(k));
  };
  needless(last);
  needless(first);
}

Timetable::Low Timetable::lowest(int resource, Window window) const {
  const std::vector<Step>& steps = steps_[static_cast<std::size_t>(resource)];
  Low low{std::numeric_limits<int>::max(), window.begin};
  if (window.begin >= window.end) return low;
  for (auto it = step_at(steps, window.begin); it != steps.end() && it->at < window.end; ++it) {
    if (it->free > low.free) continue;
    low = {it->free, std::next(it) == steps.end() ? kFar : std::next(it)->at};
  }
  return low;
}

Tick Timetable::blocked_until(int resource, int count, Window window) const {
  if (window.begin >= window.end) return window.begin;
  const std::vector<Step>& steps = steps_[static_cast<std::size_t>(resource)];
  Tick until = window.begin;
  for (auto it = step_at(steps, window.begin); it != steps.end() && it->at < window.end; ++it) {
    if (it->free < count) until = std::next(it) == steps.end() ? kFar : std::next(it)->at;
  }
  return until;
}

}  // namespace squeezeout::schedule
