#include "common/floor/replan.h"

#include <algorithm>

#include "common/floor/proposal.h"

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

  std::vector<GlueUpId> movable;
  for (const GlueUpId id : not_started(f)) {
    const bool lost = std::binary_search(best.no_place.begin(), best.no_place.end(), id);
    const GlueUp& g = f.glue_ups.at(id);
    const bool laid_out = g.progress == Progress::reserved && g.times.stage_begin <= now;
    if (!lost && !laid_out && g.times.stage_begin < now + kHorizon) movable.push_back(id);
  }
  const AsProblem as = as_problem(f, movable, now, Glues::may_change);
  const schedule::Outcome outcome = schedule::solve(as.problem, budget);
  best.cancelled = budget.stop && budget.stop();
  best.lower_bound = outcome.lower_bound;
  if (!outcome.best) return best;
  if (const auto plan = on_floor(f, as, *outcome.best, now)) {
    Proposal found = proposal_of(f, *plan, best.no_place, now);
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
    Instant ready = Instant::min();
    AtRisk risk{b->id, *b->due, ready, {}};
    BuilderId builder = b->builder;
    for (int step = b->done_before; step < static_cast<int>(b->steps.size()); ++step) {
      const Floor& f = trial.floor();
      const auto chain = f.chain.find(b->id);
      const bool on_floor = chain != f.chain.end() && chain->second.contains(step);
      GlueUp g;
      if (on_floor) g = f.glue_ups.at(chain->second.at(step));
      if (on_floor && g.builder) builder = g.builder;
      if (!on_floor || g.progress == Progress::displaced) {
        if (!builder) builder = f.shop->builders.front().id;
        const auto quote =
            on_floor ? earliest_for(f, g.id, now, now)
                     : earliest(f,
                                Reserve{.recipe = b->steps[static_cast<std::size_t>(step)],
                                        .build = b->id,
                                        .step = step,
                                        .builder = builder,
                                        .after = now},
                                now);
        if (!quote) {
          risk.ready = now + kHorizon;
          risk.last = g.id;
          break;
        }
        if (!on_floor) {
          g.id = GlueUpId{f.last_glue_up + 1};
          g.recipe = b->steps[static_cast<std::size_t>(step)];
          g.build = b->id;
          g.step = step;
          g.builder = builder;
        }
        g.progress = Progress::reserved;
        g.sheet = quote->sheet;
        g.demand = quote->demand;
        g.held = quote->slot.held;
        g.times = g.promised = quote->slot.times;
        trial.put(g);
      }
      if (g.times.ready_at > risk.ready) {
        risk.ready = g.times.ready_at;
        risk.last = on_floor ? g.id : GlueUpId{};
      }
    }
    if (risk.ready > risk.due) out.push_back(risk);
  }
  return out;
}

}  // namespace squeezeout
