#include <algorithm>
#include <set>

#include "common/floor/ask.h"
#include "common/floor/decide_parts.h"
#include "common/floor/trial.h"

namespace squeezeout {
namespace {

std::vector<Event> with_record(const Trial& trial, PlanRecord plan) {
  std::vector<Event> events = trial.events();
  events.push_back(PlanChanged{std::move(plan)});
  return events;
}

// Who came after the plan, or was moved by the weather, and keeps the builder or the bench, or makes heat beside solvent, at the
// times of `g`. What was beside it before may be again: facts had let them drift together.
std::optional<Hindrance> come_since(const Floor& floor, const GlueUp& g, const SlotQuery& query,
                                    const PlanRecord& plan) {
  const auto fresh = [&](GlueUpId id) {
    const bool its_own = std::count(plan.glue_ups.begin(), plan.glue_ups.end(), id) > 0;
    const GlueUp& other = floor.glue_ups.at(id);
    const bool moved = other.weather && other.weather->moved_from;
    return !its_own && (moved || other.pressed_at >= plan.at);
  };
  for (const Span& s : attended_of(g)) {
    const auto busy = floor.builders.busy(g.builder, s, g.id);
    if (busy && fresh(busy->glue_up))
      return Hindrance{s, BuilderBusy{g.builder, busy->glue_up, busy->span.end}};
    const auto at_bench = [&](GlueUpId id) {
      return query.bench && fresh(id) && floor.glue_ups.at(id).bench == query.bench;
    };
    if (const auto there = floor.builders.others_busy(g.builder, s, at_bench))
      return Hindrance{s, BenchBusy{query.bench, there->glue_up, there->span.end}};
  }
  const Hours hours = floor.hours_for(g.builder);
  const SlotView view = view_of(floor, hours);
  for (const BesideHeat& heat : beside_heat(view, query, g.times)) {
    if (fresh(heat.with)) return Hindrance{g.times.held(), heat};
  }
  return std::nullopt;
}

// Whether a record of before the plan can be brought back, as far as gear and later steps do not say.
std::optional<Refusal> lost_since(const Trial& trial, const GlueUp& g, const PlanRecord& plan,
                                  Instant at) {
  const Floor& floor = trial.floor();
  for (const Held& h : g.held) {
    if (!floor.kind(h.kind)) return NoSuch{Thing::gear_kind, h.kind.value};
  }
  if (g.progress != Progress::reserved) return std::nullopt;
  if (g.times.open_begin + kStartGrace <= at)
    return BadTime{g.times.open_begin, at - kStartGrace, kNever};
  const auto query = query_again(floor, g, at, at, trial.climate());
  if (!query) return query.error();
  if (query->waits_for && query->waits_for->until > g.times.stage_begin)
    return PlanStale{g.id, {{g.times.held(), *query->waits_for}}};
  if (auto who = come_since(floor, g, *query, plan)) return PlanStale{g.id, {std::move(*who)}};
  return std::nullopt;
}

}  // namespace

Decided answer_to(const Floor& floor, const AdoptPlan& c, Instant at) {
  if (c.moves.empty() || c.moves.size() > kMaxMoves)
    return no(BadCount{static_cast<int>(c.moves.size()), 1, static_cast<int>(kMaxMoves)});
  std::set<GlueUpId> seen;
  for (const Adopted& move : c.moves) {
    const GlueUp* g = floor.glue_up(move.glue_up);
    if (!g) return no(NoSuch{Thing::glue_up, move.glue_up.value});
    if (g->progress != Progress::reserved && g->progress != Progress::displaced)
      return no(WrongProgress{g->id, g->progress});
    if (move.sheet && !floor.sheet(move.sheet)) return no(NoSuch{Thing::sheet, move.sheet.value});
    if (!seen.insert(g->id).second) return no(AlreadyReserved{g->id});
  }
  std::vector<Adopted> moves = c.moves;
  std::sort(moves.begin(), moves.end(), [](const Adopted& a, const Adopted& b) {
    return std::tie(a.start, a.glue_up) < std::tie(b.start, b.glue_up);
  });
  PlanRecord plan{PlanId{floor.last_plan + 1}, at, {}, false};
  const Instant since = std::clamp(moves.front().start, at - kAskSlack, at);
  Trial trial{floor, at, since};
  for (const Adopted& move : moves) trial.set_aside(move.glue_up);
  for (const Adopted& move : moves) {
    auto g = trial.at_start(move);
    if (!g) {
      if (const auto* taken = std::get_if<DoesNotFit>(&g.error()))
        return no(PlanStale{move.glue_up, taken->why});
      return no(g.error());
    }
    g->plan = plan.id;
    if (auto stale = trial.place(std::move(*g))) return no(std::move(*stale));
    plan.glue_ups.push_back(move.glue_up);
  }
  return with_record(trial, std::move(plan));
}

Decided answer_to(const Floor& floor, const UndoPlan& c, Instant at) {
  const auto found = floor.plans.find(c.plan);
  if (found == floor.plans.end()) return no(NoSuch{Thing::plan, c.plan.value});
  PlanRecord plan = found->second;
  if (plan.undone || at - plan.at > kUndoWindow) return no(NothingToUndo{plan.glue_ups.front()});
  std::vector<GlueUp> back;
  for (const GlueUpId id : plan.glue_ups) {
    const GlueUp* now = floor.glue_up(id);
    const auto before = floor.before.find(id);
    const bool its_own = now && now->plan == plan.id && before != floor.before.end() &&
                         before->second.plan != plan.id;
    const bool waits =
        its_own && (now->progress == Progress::reserved || now->progress == Progress::displaced);
    if (!waits) return no(PlanStale{id, {}});
    back.push_back(before->second);
  }
  std::sort(back.begin(), back.end(), [](const GlueUp& a, const GlueUp& b) {
    return std::tie(a.times.stage_begin, a.id) < std::tie(b.times.stage_begin, b.id);
  });
  Instant since = at;
  for (const GlueUp& g : back)
    if (g.progress == Progress::reserved) since = std::min(since, g.times.stage_begin);
  Trial trial{floor, at, since};
  for (const GlueUp& g : back) trial.set_aside(g.id);
  for (GlueUp& g : back) {
    g.pressed_at = at;
    g.plan = {};
    if (auto lost = lost_since(trial, g, plan, at)) return no(std::move(*lost));
    if (auto stale = trial.place(std::move(g))) return no(std::move(*stale));
  }
  plan.undone = true;
  return with_record(trial, std::move(plan));
}

}  // namespace squeezeout
