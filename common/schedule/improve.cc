#include "common/schedule/improve.h"

#include "common/schedule/improve_general.h"
#include "common/schedule/improve_least.h"
#include "common/schedule/improve_most.h"

namespace squeezeout::schedule {

Improver::Improver(const Problem& problem, Bounds bounds, std::uint64_t seed) {
  auto flat = flatten(problem, bounds);
  if (flat && !flat->least_order.empty())
    search_ = std::make_unique<LeastLagSearch>(problem, std::move(*flat), seed);
  else if (flat)
    search_ = std::make_unique<MostLagSearch>(problem, std::move(*flat), seed);
  else
    search_ = std::make_unique<GeneralSearch>(problem, std::move(bounds), seed);
}

Improver::~Improver() = default;

bool Improver::run(std::int64_t work, const std::function<bool()>& stop) {
  return search_->run(work, stop);
}
void Improver::take(const Schedule& better) { search_->take(better); }
const std::optional<Schedule>& Improver::best() const { return search_->best(); }
std::int64_t Improver::schedules() const { return search_->schedules(); }
std::int64_t Improver::work() const { return search_->work(); }

}  // namespace squeezeout::schedule
