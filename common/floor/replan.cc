#include "common/floor/replan.h"

#include <algorithm>

#include "common/floor/repair_places.h"

namespace squeezeout {
namespace {

// Of the work, for the plan that moves the fewest.
constexpr std::int64_t kRepairShare = 16, kRepairLeast = 10'000, kRepairMost = 300'000;

struct Wishes {
  std::vector<Adopted> changed, all;  // all: also those that stay, with other pieces maybe
};

Wishes wishes_of(const Floor& f, const AsProblem& as, const schedule::Schedule& plan) {
  Wishes out;
  for (std::size_t i = 0; i < as.tasks.size(); ++i) {
    const GlueUp& g = f.glue_ups.at(as.tasks[i].glue_up);
    const Adopted wish{g.id, as.start_of(i, plan.tasks[i]), as.sheet_of(i, plan.tasks[i])};
    out.all.push_back(wish);
    if (g.progress == Progress::displaced || wish.start != g.times.stage_begin ||
        wish.sheet != g.sheet)
      out.changed.push_back(wish);
  }
  return out;
}

// The plan as the floor would take it: the rest untouched, when that goes.
std::optional<Adoptable> on_floor(const Floor& f, const AsProblem& as,
                                  const schedule::Schedule& plan, Instant now) {
  const Wishes wishes = wishes_of(f, as, plan);
  auto rest_stays = adoptable(f, wishes.changed, now);
  if (rest_stays && rest_stays->as_wished) return rest_stays;
  auto all_anew = adoptable(f, wishes.all, now);
  if (!rest_stays) return all_anew;
  if (!all_anew) return rest_stays;
  const bool better = cost_with(f, all_anew->records, now) < cost_with(f, rest_stays->records, now);
  return better ? all_anew : rest_stays;
}

}  // namespace

Proposal replan(const Floor& floor, Instant now, const schedule::Budget& budget) {
  if (!floor.shop) return {};
  const Floor f = trial_of(floor, now);
  schedule::Budget fewest = budget;
  fewest.work = std::clamp(budget.work / kRepairShare, kRepairLeast, kRepairMost);
  fewest.progress = {};
  fewest.on_better = {};
  Proposal best = repair(f, now, fewest);
  best.optimal = false;
  best.lower_bound = {};

  std::vector<std::pair<Instant, GlueUpId>> by_start;
  for (const GlueUpId id : not_started(f)) {
    const bool lost = std::binary_search(best.no_place.begin(), best.no_place.end(), id);
    const GlueUp& g = f.glue_ups.at(id);
    const bool laid_out = g.progress == Progress::reserved && g.times.stage_begin <= now;
    if (!lost && !laid_out && g.times.stage_begin < now + kHorizon)
      by_start.emplace_back(g.times.stage_begin, id);
  }
  std::sort(by_start.begin(), by_start.end());
  if (by_start.size() > kMaxMoves) by_start.resize(kMaxMoves);
  std::vector<GlueUpId> movable;
  for (const auto& [start, id] : by_start) movable.push_back(id);
  std::sort(movable.begin(), movable.end());
  const AsProblem as = as_problem(f, movable, now, Glues::may_change);
  const schedule::Outcome outcome = schedule::solve(as.problem, budget);
  best.cancelled = budget.stop && budget.stop();
  best.lower_bound = outcome.lower_bound;
  if (!outcome.best) return best;
  if (const auto plan = on_floor(f, as, *outcome.best, now)) {
    Proposal found = proposal_of(f, *plan, best.no_place, now);
    for (const GlueUpId id : f.displaced) {
      const bool spoken_of = std::binary_search(movable.begin(), movable.end(), id) ||
                             std::binary_search(best.no_place.begin(), best.no_place.end(), id);
      if (!spoken_of) found.put_off.push_back(id);
    }
    // Nobody is moved for nothing.
    const schedule::Cost stands = best.shifts.empty() ? best.before : best.after;
    const bool proven = outcome.status == schedule::Outcome::Status::optimal && plan->as_wished;
    if (found.after < stands) {
      found.lower_bound = best.lower_bound;
      found.cancelled = best.cancelled;
      best = std::move(found);
      best.optimal = proven;
    } else {
      best.optimal = proven && found.after == stands;
    }
  }
  return best;
}

namespace {

// A step that has no place yet gets its earliest. nullopt: there is none.
std::optional<GlueUp> earliest_place(const Trial& trial, const Build& build, int step,
                                     const GlueUp* on_floor, BuilderId builder, Instant now) {
  const Floor& f = trial.floor();
  const Reserve wanted{.recipe = build.steps[static_cast<std::size_t>(step)],
                       .build = build.id,
                       .step = step,
                       .builder = builder,
                       .after = now};
  const auto query = on_floor ? query_again(f, *on_floor, now, now, trial.climate())
                              : query_of(f, wanted, now, trial.climate());
  if (!query) return std::nullopt;
  const Hours hours = f.hours_for(query->builder);
  auto slot = earliest_slot(view_of(f, hours), *query);
  if (!slot) return std::nullopt;
  GlueUp g;
  if (on_floor) {
    g = *on_floor;
  } else {
    g.id = GlueUpId{f.last_glue_up + 1};
    g.recipe = wanted.recipe;
    g.build = build.id;
    g.step = step;
    g.builder = builder;
  }
  return Places::placed(std::move(g), *query, std::move(*slot));
}

AtRisk when_ready(Trial& trial, const Build& build, Instant now) {
  AtRisk out{build.id, *build.due, Instant::min(), {}};
  BuilderId builder = build.builder;
  if (!builder && !trial.floor().shop->builders.empty())
    builder = trial.floor().shop->builders.front().id;
  for (int step = build.done_before; step < static_cast<int>(build.steps.size()); ++step) {
    const GlueUp* on_floor = trial.floor().step_of(build.id, step);
    const GlueUpId known = on_floor ? on_floor->id : GlueUpId{};
    if (on_floor && on_floor->builder) builder = on_floor->builder;
    if (!on_floor || on_floor->progress == Progress::displaced) {
      auto placed = earliest_place(trial, build, step, on_floor, builder, now);
      if (!placed) return {build.id, *build.due, now + kHorizon, known};
      trial.put(std::move(*placed));
    }
    const Instant ready = trial.floor().step_of(build.id, step)->times.ready_at;
    if (ready > out.ready) out.ready = ready, out.last = known;
  }
  return out;
}

}  // namespace

std::vector<AtRisk> builds_at_risk(const Floor& floor, Instant now) {
  std::vector<AtRisk> out;
  if (!floor.shop) return out;
  std::vector<const Build*> due;
  for (const Build& b : floor.shop->builds) {
    if (b.due && b.done_before < static_cast<int>(b.steps.size())) due.push_back(&b);
  }
  std::sort(due.begin(), due.end(), [](const Build* a, const Build* b) {
    return std::tie(*a->due, a->id) < std::tie(*b->due, b->id);
  });
  if (due.empty()) return out;
  Trial trial{floor, now};
  for (const Build* b : due) {
    for (int step = b->done_before; step < static_cast<int>(b->steps.size()); ++step) {
      const GlueUp* over = floor.step_of(b->id, step);
      if (over && !trial.floor().glue_up(over->id)) trial.put(*over);
    }
    const AtRisk risk = when_ready(trial, *b, now);
    if (risk.ready > risk.due) out.push_back(risk);
  }
  return out;
}

}  // namespace squeezeout
