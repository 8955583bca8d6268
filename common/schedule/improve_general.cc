#include "common/schedule/improve_general.h"

#include <algorithm>
#include <numeric>

namespace squeezeout::schedule {
namespace {

constexpr int kRules = 6;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

}  // namespace

GeneralSearch::GeneralSearch(const Problem& problem, Bounds bounds, std::uint64_t seed)
    : problem_(problem), bounds_(bounds), generator_(problem, std::move(bounds)), random_(seed) {
  done_ = problem.tasks.empty();
  if (done_) best_ = Schedule{};
}

// Who goes first: the announced, or whoever is due first, or can begin first, or must.
Plan GeneralSearch::first_plan(int rule) const {
  const std::size_t n = problem_.tasks.size();
  Plan plan{std::vector<int>(n), std::vector<int>(n, -1),
            std::vector<Plan::Keep>(n, rule % 2 == 0 ? Plan::Keep::unless_late : Plan::Keep::no)};
  std::iota(plan.order.begin(), plan.order.end(), 0);
  const auto key = [&](int i) {
    const Tick due = generator_.due()[at(i)], early = bounds_.earliest[at(i)];
    const Tick announced = problem_.tasks[at(i)].announced.value_or(kFar);
    if (rule < 2) return std::tuple(announced, due, early);
    if (rule < 4) return std::tuple(due, bounds_.latest[at(i)], early);
    return std::tuple(early, due, announced);
  };
  std::stable_sort(plan.order.begin(), plan.order.end(),
                   [&](int a, int b) { return key(a) < key(b); });
  return plan;
}

// The plan with a few tasks taken forward or back, another mode here, an announced start given up there.
Plan GeneralSearch::turned() {
  Plan plan = plan_;
  const int n = static_cast<int>(plan.order.size());
  const int turns = 1 + random_.below(4);
  for (int k = 0; k < turns; ++k) {
    const int from = random_.below(n);
    const int reach = std::max(2, n / 4);
    const int to = std::clamp(from - reach + random_.below(2 * reach + 1), 0, n - 1);
    const int task = plan.order[at(from)];
    plan.order.erase(plan.order.begin() + from);
    plan.order.insert(plan.order.begin() + to, task);
    if (random_.below(4) == 0) plan.keep[at(task)] = static_cast<Plan::Keep>(random_.below(3));
    const int modes = static_cast<int>(problem_.tasks[at(task)].modes.size());
    if (modes > 1 && random_.below(3) == 0) plan.mode[at(task)] = random_.below(modes + 1) - 1;
  }
  return plan;
}

void GeneralSearch::step() {
  const bool first = rule_ < kRules;
  Plan plan = first ? first_plan(rule_++) : turned();
  if (!first && !cost_ && generator_.failed() >= 0) {  // whoever failed comes earlier next time
    const auto it = std::find(plan.order.begin(), plan.order.end(), generator_.failed());
    const auto to =
        plan.order.begin() + random_.below(static_cast<int>(it - plan.order.begin()) + 1);
    std::rotate(to, it, std::next(it));
  }
  auto schedule = generator_.generate(plan);
  ++schedules_;
  if (plan_.order.empty()) plan_ = plan;
  if (!schedule) {
    if (!cost_) plan_ = std::move(plan);
    return;
  }
  if (cost_ && schedule->cost > *cost_) return;
  cost_ = schedule->cost;
  plan_ = std::move(plan);
  if (!best_ || schedule->cost < best_->cost) best_ = std::move(*schedule);
}

void GeneralSearch::take(const Schedule& better) {
  if (best_ && best_->cost <= better.cost) return;
  best_ = better;
  cost_.reset();
  if (plan_.order.empty()) plan_ = first_plan(0);
  std::stable_sort(plan_.order.begin(), plan_.order.end(), [&](int a, int b) {
    return better.tasks[at(a)].start() < better.tasks[at(b)].start();
  });
  for (std::size_t i = 0; i < better.tasks.size(); ++i) plan_.mode[i] = better.tasks[i].mode;
}

}  // namespace squeezeout::schedule
