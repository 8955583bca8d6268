#include "common/schedule/exact.h"

#include <algorithm>

#include "common/base/check.h"
#include "common/schedule/exact_model.h"
#include "common/schedule/improve_random.h"

namespace squeezeout::schedule {

using exact::Engine;
using exact::Model;
using exact::Pick;
using exact::Pred;

namespace {

constexpr std::int64_t kLooks = 180;    // of the engine, in a unit of work
constexpr std::int64_t kRestart = 100;  // conflicts, times Luby's sequence

// 1 1 2 1 1 2 4 1 1 2 ...
std::int64_t luby(std::int64_t k) {
  for (;;) {
    std::int64_t size = 1;
    while (size < k) size = 2 * size + 1;
    if (size == k) return (size + 1) / 2;
    k -= size / 2;
  }
}

}  // namespace

struct Exact::Self {
  Self(const Problem& p, Bounds b, std::uint64_t seed)
      : problem(p), bounds(std::move(b)), random(seed * 2 + 1) {
    rebuild();
    lower = model->least_cost();
  }

  // Costs are lowered one after another: each is proven before the next.
  enum class Stage { late, disturbed, makespan, done };

  Answer run(std::int64_t budget, const std::function<bool()>& stop);
  std::int64_t work() const;
  void take(const Schedule& better);

  void rebuild();
  void tighten();
  void stage_is_exhausted();
  void raise_lower();
  void found();
  bool decide();
  Pred by_start();

  const Problem& problem;
  Bounds bounds;
  Random random;
  std::unique_ptr<Model> model;
  std::vector<std::uint32_t> rank;  // of tasks, where nothing else tells them apart
  std::vector<Tick> guide;          // the best schedule, variable by variable
  std::optional<Schedule> best;
  Cost lower;
  Stage stage = Stage::late;
  bool tight = true;  // the model asks for better than best
  bool to_trim = false;
  std::int64_t spent = 0;  // work of models before this one
  std::int64_t conflicts = 0, restarts = 0, until_restart = kRestart;
};

std::int64_t Exact::Self::work() const { return spent + model->engine.work() / kLooks; }

void Exact::Self::rebuild() {
  if (model) spent = work();
  model = std::make_unique<Model>(problem, bounds);
  rank.resize(problem.tasks.size());
  for (auto& each : rank) each = static_cast<std::uint32_t>(random.next());
  guide.assign(model->engine.variables(), kFar);
  if (best) guide = model->values_of(*best);
  tight = false;
}

// Asks the model for less than best, in the first cost that is not proven yet.
void Exact::Self::tighten() {
  if (tight) return;
  tight = true;
  Engine& engine = model->engine;
  engine.restart();
  if (!best) return;
  if (stage == Stage::late && best->cost.late <= lower.late) stage = Stage::disturbed;
  if (stage == Stage::disturbed && best->cost.disturbed <= lower.disturbed) stage = Stage::makespan;
  if (stage == Stage::makespan && best->cost.makespan <= lower.makespan) stage = Stage::done;
  if (stage == Stage::done) return;
  model->late_at_most(best->cost.late - (stage == Stage::late ? 1 : 0));
  if (stage == Stage::late) return;
  model->disturbed_at_most(best->cost.disturbed - (stage == Stage::disturbed ? 1 : 0));
  if (stage == Stage::disturbed) return;
  if (!engine.fix(at_most(model->makespan, static_cast<Tick>(best->cost.makespan) - 1)))
    stage_is_exhausted();
}

// Nothing better in this cost: what was learned leaned on asking for less, so the next one starts afresh.
void Exact::Self::stage_is_exhausted() {
  if (!best || stage == Stage::makespan) {
    if (best) lower = best->cost;
    stage = Stage::done;
    return;
  }
  if (stage == Stage::late) {
    lower.late = best->cost.late;
    stage = Stage::disturbed;
  } else {
    lower.disturbed = best->cost.disturbed;
    stage = Stage::makespan;
  }
  rebuild();
  // What the bounds said of later costs was said of schedules that are better in this one.
  const Cost least = model->least_cost();
  if (stage == Stage::disturbed) lower.disturbed = least.disturbed;
  lower.makespan = least.makespan;
}

// By what holds of every schedule that the model still allows, and of best.
void Exact::Self::raise_lower() {
  const Cost least = model->least_cost();
  if (stage == Stage::late) lower.late = std::max(lower.late, least.late);
  if (stage <= Stage::disturbed) lower.disturbed = std::max(lower.disturbed, least.disturbed);
  lower.makespan = std::max(lower.makespan, least.makespan);
}

void Exact::Self::found() {
  Schedule schedule = model->read();
  CHECK(!best || schedule.cost < best->cost);
  best = std::move(schedule);
  for (exact::Var var = 0; var < guide.size(); ++var) guide[var] = model->engine.least({var});
  tight = false;
}

void Exact::Self::take(const Schedule& better) {
  if (best && best->cost <= better.cost) return;
  best = better;
  guide = model->values_of(better);
  tight = false;
}

// The task that can start first, as soon as it can.
Pred Exact::Self::by_start() {
  const Engine& engine = model->engine;
  const auto open = [&](const std::vector<Pick>& picks) -> const Pick* {
    for (const Pick& pick : picks)
      if (!engine.fixed(pick.var)) return &pick;
    return nullptr;
  };
  const Pick* chosen = nullptr;
  std::tuple<Tick, Tick, std::uint32_t> least;
  for (std::size_t i = 0; i < model->tasks.size(); ++i) {
    const auto& task = model->tasks[i];
    const std::tuple here{engine.least(task.start), engine.most(task.start), rank[i]};
    if (chosen && least <= here) continue;
    const Pick* pick = open(task.picks);
    if (!pick) continue;
    chosen = pick;
    least = here;
  }
  if (!chosen) chosen = open(model->last);
  if (!chosen) return {exact::kNone, 0};
  if (chosen->toward == Pick::Toward::most)
    return at_least(exact::View{chosen->var}, engine.most({chosen->var}));
  return at_most(exact::View{chosen->var}, engine.least({chosen->var}));
}

// False: all is decided.
bool Exact::Self::decide() {
  Engine& engine = model->engine;
  Pred p{exact::kNone, 0};
  if (engine.level() == 0 && !best) {
    // Aims at an early end first: with far bounds, starts that push one another would creep through all the time there is.
    const Tick least = engine.least(model->makespan);
    if (2 * least < engine.most(model->makespan)) p = at_most(model->makespan, 2 * least);
  }
  if (p.side == exact::kNone &&
      restarts > 0) {  // by start until the first restart, and where nothing active is open
    p = engine.activity().next(
        engine.level(), [&](Pred each) { return !engine.holds(each) && !engine.broken(each); });
    if (p.side != exact::kNone) {
      const Tick guided = guide[p.side / 2];
      if (guided == kFar || guided < p.least) p = !p;
    }
  }
  if (p.side == exact::kNone) p = by_start();
  if (p.side == exact::kNone) return false;
  engine.decide(p);
  return true;
}

Exact::Answer Exact::Self::run(std::int64_t budget, const std::function<bool()>& stop) {
  const std::int64_t until = work() + budget;
  const auto enough = [&] { return work() >= until || (stop && stop()); };
  for (;;) {
    tighten();
    if (stage == Stage::done) return Answer::exhausted;
    if (work() >= until) return Answer::budget;
    Engine& engine = model->engine;
    switch (engine.propagate(enough)) {
      case Engine::Result::interrupted:
        return Answer::budget;
      case Engine::Result::conflict:
        ++conflicts;
        if (!engine.resolve()) {
          stage_is_exhausted();
        } else if (--until_restart <= 0) {
          engine.restart();
          to_trim = true;
          until_restart = kRestart * luby(++restarts + 1);
        }
        break;
      case Engine::Result::settled:
        if (engine.level() == 0) {
          raise_lower();
          if (to_trim) engine.trim();
          to_trim = false;
        }
        if (!decide()) {
          found();
          return Answer::better;
        }
    }
  }
}

Exact::Exact(const Problem& problem, Bounds bounds, std::uint64_t seed)
    : self_(new Self(problem, std::move(bounds), seed)) {}
Exact::~Exact() = default;

Exact::Answer Exact::run(std::int64_t work, const std::function<bool()>& stop) {
  return self_->run(work, stop);
}
void Exact::take(const Schedule& better) { self_->take(better); }
const std::optional<Schedule>& Exact::best() const { return self_->best; }
Cost Exact::lower_bound() const { return self_->lower; }
std::int64_t Exact::conflicts() const { return self_->conflicts; }
std::int64_t Exact::work() const { return self_->work(); }

}  // namespace squeezeout::schedule
