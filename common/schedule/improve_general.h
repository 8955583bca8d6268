#pragma once
// Search for problems of every kind (calendars, modes, gear mixes, due dates, announced starts): iterated local search over what
// the generator tries.

#include "common/schedule/generate.h"
#include "common/schedule/improve_random.h"
#include "common/schedule/improve_search.h"

namespace squeezeout::schedule {

class GeneralSearch final : public Search {
 public:
  GeneralSearch(const Problem& problem, Bounds bounds, std::uint64_t seed);
  std::int64_t work() const override { return (generator_.placings() + schedules_) * kPlacing; }
  void take(const Schedule& better) override;

 private:
  static constexpr std::int64_t kPlacing = 2;  // work of one

  void step() override;
  Plan first_plan(int rule) const;
  Plan turned();
  std::vector<bool> line_before(int task) const;

  const Problem& problem_;
  const Bounds bounds_;
  Generator generator_;
  Random random_;
  Plan plan_;
  std::optional<Cost> cost_;  // of plan_
  bool as_is_ = false;     // plan_ was made from a schedule found elsewhere, and has not been tried
  std::vector<int> dear_;  // by plan_: late, or away from where they were announced
  int rule_ = 0;           // of the first plans; then turns of them
};

}  // namespace squeezeout::schedule
