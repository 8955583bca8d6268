#include "common/schedule/exact.h"

#include <algorithm>

namespace squeezeout::schedule {

struct Exact::Self {
  std::optional<Schedule> best;
  Cost lower;
};

Exact::Exact(const Problem& problem, Bounds bounds, std::uint64_t) : self_(new Self) {
  for (std::size_t i = 0; i < problem.tasks.size(); ++i)
    self_->lower.makespan = std::max<std::int64_t>(self_->lower.makespan, bounds.earliest[i]);
}
Exact::~Exact() = default;

Exact::Answer Exact::run(std::int64_t, const std::function<bool()>&) {
  return self_->best && self_->best->cost <= self_->lower ? Answer::exhausted : Answer::budget;
}

void Exact::take(const Schedule& better) {
  if (!self_->best || better.cost < self_->best->cost) self_->best = better;
}
const std::optional<Schedule>& Exact::best() const { return self_->best; }
Cost Exact::lower_bound() const { return self_->lower; }
std::int64_t Exact::conflicts() const { return 0; }

}  // namespace squeezeout::schedule
