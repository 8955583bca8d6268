#include "common/floor/proposal.h"

#include <algorithm>
#include <map>
#include <set>

#include "common/floor/ask.h"

namespace squeezeout {
namespace {

std::int64_t minutes(Seconds s) { return std::chrono::ceil<Minutes>(s).count(); }

bool waits(const GlueUp& g) {
  return g.progress == Progress::reserved || g.progress == Progress::displaced;
}

}  // namespace

std::vector<GlueUpId> not_started(const Floor& f) {
  std::set<GlueUpId> out{f.displaced.begin(), f.displaced.end()};
  for (const auto& [when, id] : f.due) {  // whatever is reserved is due some day
    if (waits(f.glue_ups.at(id))) out.insert(id);
  }
  return {out.begin(), out.end()};
}

std::optional<Adoptable> adoptable(const Floor& floor, std::vector<Adopted> wished, Instant now) {
  Adoptable out;
  if (wished.empty()) return out;
  if (wished.size() > kMaxMoves) return std::nullopt;
  Trial trial{floor, now};
  const PlanId plan{floor.last_plan + 1};
  std::multimap<std::pair<Instant, GlueUpId>, Adopted> queue;
  for (const Adopted& m : wished) {
    trial.set_aside(m.glue_up);
    queue.emplace(std::pair{std::max(m.start, now), m.glue_up}, m);
  }
  // In order of starts, as AdoptPlan does it: so the records are those that it will make.
  std::size_t tries = 8 * wished.size() + 8;
  while (!queue.empty()) {
    if (tries-- == 0) return std::nullopt;
    auto [start, move] = *queue.begin();
    queue.erase(queue.begin());
    move.start = start.first;
    auto g = trial.at_start(move);
    if (g) {
      g->plan = plan;
      out.moves.push_back(move);
      out.records.push_back(*g);
      if (trial.place(std::move(*g))) return std::nullopt;
      continue;
    }
    const auto* no = std::get_if<DoesNotFit>(&g.error());
    if (!no || !no->next) return std::nullopt;
    out.as_wished = false;
    queue.emplace(std::pair{no->next->times.stage_begin, move.glue_up}, move);
  }
  return out;
}

schedule::Cost cost_with(const Floor& floor, const std::vector<GlueUp>& records, Instant now) {
  std::map<GlueUpId, const GlueUp*> after;
  for (const GlueUp& g : records) after[g.id] = &g;
  schedule::Cost cost;
  for (const GlueUpId id : not_started(floor)) {
    const GlueUp& before = floor.glue_ups.at(id);
    const auto changed = after.find(id);
    const GlueUp& g = changed == after.end() ? before : *changed->second;
    const bool placed = g.progress == Progress::reserved;
    const Instant ready = placed ? g.times.ready_at : now + kHorizon;
    if (const auto due = g.build ? due_of_step(floor, g.build, g.step) : std::nullopt)
      cost.late += std::max<std::int64_t>(0, minutes(ready - *due));
    const Seconds away = std::chrono::abs(g.times.stage_begin - before.times.stage_begin);
    if (!placed)
      cost.disturbed += schedule::kMoved + minutes(kHorizon);
    else if (away > Seconds{0})
      cost.disturbed += schedule::kMoved + minutes(away);
    if (g.sheet != before.sheet) cost.disturbed += kOtherGlue;
    cost.makespan = std::max(cost.makespan, minutes(ready - now));
  }
  return cost;
}

Proposal proposal_of(const Floor& floor, const Adoptable& plan, std::vector<GlueUpId> no_place,
                     Instant now) {
  Proposal out;
  std::vector<std::pair<Seconds, Shift>> shifts;
  for (const GlueUp& g : plan.records) {
    const GlueUp& before = floor.glue_ups.at(g.id);
    Shift shift{g.id, std::nullopt, g.times, g.sheet};
    if (before.progress == Progress::reserved) shift.from = before.times.stage_begin;
    shifts.emplace_back(std::chrono::abs(g.times.stage_begin - before.times.stage_begin), shift);
  }
  std::sort(shifts.begin(), shifts.end(), [](const auto& a, const auto& b) {
    return std::tie(a.first, a.second.to, a.second.glue_up) <
           std::tie(b.first, b.second.to, b.second.glue_up);
  });
  for (auto& [away, shift] : shifts) out.shifts.push_back(std::move(shift));
  out.no_place = std::move(no_place);
  out.before = cost_with(floor, {}, now);
  out.after = cost_with(floor, plan.records, now);
  return out;
}

std::vector<GlueUpId> without_place(const Floor& floor, Instant now) {
  std::vector<GlueUpId> out;
  if (floor.displaced.empty()) return out;
  Trial trial{floor, now};
  for (const GlueUpId id : not_started(floor)) trial.set_aside(id);
  std::vector<std::pair<int, GlueUpId>> by_step;
  for (const GlueUpId id : floor.displaced) by_step.emplace_back(floor.glue_ups.at(id).step, id);
  std::sort(by_step.begin(), by_step.end());
  std::set<std::pair<BuildId, int>> lost;
  for (const auto& [step, id] : by_step) {
    const GlueUp& g = floor.glue_ups.at(id);
    auto query = lone_query(trial.floor(), g, now, trial.climate());
    const Hours hours = trial.floor().hours_for(g.builder);
    const SlotView view = view_of(trial.floor(), hours);
    const bool earlier_lost = g.build && lost.contains({g.build, step - 1});
    const bool missing =
        g.build && step > floor.build(g.build)->done_before && !floor.step_of(g.build, step - 1);
    if (query && !earlier_lost && !missing && earliest_slot(view, *query)) continue;
    out.push_back(id);
    if (g.build) lost.insert({g.build, step});
  }
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace squeezeout
