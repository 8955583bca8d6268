#include "common/schedule/improve.h"

#include "common/schedule/improve_general.h"
#include "common/schedule/improve_least.h"
#include "common/schedule/improve_most.h"

namespace squeezeout::schedule {

struct Improver::Self {
  std::unique_ptr<Search> search;
};

Improver::Improver(const Problem& problem, Bounds bounds, std::uint64_t seed)
    : self_(std::make_unique<Self>()) {
  auto flat = flatten(problem, bounds);
  if (flat && !flat->least_order.empty())
    self_->search = std::make_unique<LeastLagSearch>(problem, std::move(*flat), seed);
  else if (flat)
    self_->search = std::make_unique<MostLagSearch>(problem, std::move(*flat), seed);
  else
    self_->search = std::make_unique<GeneralSearch>(problem, std::move(bounds), seed);
}

Improver::~Improver() = default;

bool Improver::run(std::int64_t work, const std::function<bool()>& stop) {
  return self_->search->run(work, stop);
}
void Improver::take(const Schedule& better) { self_->search->take(better); }
const std::optional<Schedule>& Improver::best() const { return self_->search->best(); }
std::int64_t Improver::schedules() const { return self_->search->schedules(); }
std::int64_t Improver::work() const { return self_->search->work(); }

}  // namespace squeezeout::schedule
