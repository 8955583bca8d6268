#include "common/schedule/improve_general.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace squeezeout::schedule {
namespace {

constexpr int kRules = 6;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

}  // namespace

GeneralSearch::GeneralSearch(const Problem& problem, Bounds bounds, std::uint64_t seed)
    : problem_(problem), bounds_(bounds), generator_(problem, std::move(bounds)), random_(seed) {
  done_ = problem.tasks.empty();
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

// The task, and all that it waits for.
std::vector<bool> GeneralSearch::line_before(int task) const {
  std::vector<bool> in(problem_.tasks.size(), false);
  std::vector<int> queue{task};
  in[at(task)] = true;
  while (!queue.empty()) {
    const int i = queue.back();
    queue.pop_back();
    for (const Lag& lag : problem_.lags) {
      if (lag.to != i || in[at(lag.from)] || !orders(lag)) continue;
      in[at(lag.from)] = true;
      queue.push_back(lag.from);
    }
  }
  return in;
}

// The plan with a few tasks taken forward or back, another mode here, an announced start given up there.
Plan GeneralSearch::turned() {
  Plan plan = plan_;
  const int n = static_cast<int>(plan.order.size());
  if (!dear_.empty() && random_.below(2) == 0) {
    // One that costs goes first, with all that it waits for: in time, or back to where people saw it. Who stood there gives way.
    const int task = dear_[at(random_.below(static_cast<int>(dear_.size())))];
    const bool back = problem_.tasks[at(task)].announced && random_.below(2) == 0;
    const std::vector<bool> with_it = line_before(task);
    std::stable_partition(plan.order.begin(), plan.order.end(),
                          [&](int i) { return with_it[at(i)]; });
    for (std::size_t i = 0; i < with_it.size(); ++i)
      if (with_it[i] && !back) plan.keep[i] = Plan::Keep::no;
    if (back) plan.keep[at(task)] = Plan::Keep::always;
    if (random_.below(2) == 0) return plan;
  }
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
  const bool as_is = std::exchange(as_is_, false), first = !as_is && rule_ < kRules;
  Plan plan = as_is ? plan_ : first ? first_plan(rule_++) : turned();
  if (!as_is && !first && !cost_ &&
      generator_.failed() >= 0) {  // whoever failed comes earlier next time
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
  dear_.clear();
  for (std::size_t i = 0; i < schedule->tasks.size(); ++i) {
    const Task& task = problem_.tasks[i];
    const Placed& placed = schedule->tasks[i];
    const bool moved = task.announced && placed.start() != *task.announced;
    const bool late = task.weight > 0 && ready_of(task.modes[at(placed.mode)], placed) > task.due;
    if (moved || late) dear_.push_back(static_cast<int>(i));
  }
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
  for (std::size_t i = 0; i < better.tasks.size(); ++i) {
    plan_.mode[i] = better.tasks[i].mode;
    const bool stays = better.tasks[i].start() == problem_.tasks[i].announced;
    plan_.keep[i] = stays ? Plan::Keep::always : Plan::Keep::no;
  }
  as_is_ = true;
  dear_.clear();
}

}  // namespace squeezeout::schedule
