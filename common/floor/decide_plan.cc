#include <algorithm>
#include <set>

#include "common/floor/apply.h"
#include "common/floor/decide_parts.h"
#include "common/floor/mend.h"
#include "common/floor/trial.h"

namespace squeezeout {
namespace {

Unexpected<Refusal> no(Refusal r) { return Unexpected<Refusal>{std::move(r)}; }

// Several glue-ups change their places at once, on a floor of its own: first each lets go of its place, then each gets another.
// So places can be swapped, and gear is free before it is taken.
class Together {
 public:
  Together(const Floor& floor, Instant at) : trial_(trial_of(floor, at)), at_(at) {}

  const Floor& trial() const { return trial_; }

  void set_aside(GlueUpId id) {
    GlueUp g = trial_.glue_ups.at(id);
    g.progress = Progress::displaced;
    g.held.clear();
    take(GlueUpChanged{Change::set_aside, std::move(g)});
  }

  // None: done.
  std::optional<PlanStale> place(GlueUp g) {
    const auto changed = change(trial_, Change::replanned, g, Snag::none);
    if (!changed) return PlanStale{g.id, taken_since(trial_, g).why};
    for (const Event& e : *changed) {
      const GlueUp& other = std::get<GlueUpChanged>(e).after;
      if (other.id == g.id) continue;
      if (other.snag == Snag::earlier_step) {
        const NotReadyYet waits{g.id, g.times.ready_at};
        return PlanStale{other.id, {{{other.times.stage_begin, waits.until}, waits}}};
      }
      return PlanStale{g.id, taken_since(trial_, g).why};
    }
    take(GlueUpChanged{Change::replanned, std::move(g)});
    return std::nullopt;
  }

  std::vector<Event> record(PlanRecord plan) {
    events_.push_back(PlanChanged{std::move(plan)});
    return std::move(events_);
  }

 private:
  void take(Event e) {
    squeezeout::apply(trial_, e);
    events_.push_back(std::move(e));
  }

  Floor trial_;
  const Instant at_;
  std::vector<Event> events_;
};

// A start with a glue, for one that was set aside.
Result<GlueUp, Refusal> placed(const Floor& floor, const Adopted& move, Instant at) {
  GlueUp g = floor.glue_ups.at(move.glue_up);
  if (move.sheet && move.sheet != g.sheet) {
    g.sheet = move.sheet;
    g.lot = {};  // the bottle and the reason were the other glue's
    g.reason.clear();
  }
  auto query = query_again(floor, g, at, at);
  if (!query) return no(query.error());
  if (g.outside_hours) query->attended = SlotQuery::Hours::ignore;
  auto quote = quote_at(floor, *query, g.sheet, move.start, at);
  if (!quote) {
    if (const auto* taken = std::get_if<DoesNotFit>(&quote.error()))
      return no(PlanStale{g.id, taken->why});
    return no(quote.error());
  }
  take(g, std::move(*quote));
  g.pressed_at = at;
  g.weather.reset();
  return g;
}

// Who came after `since` and keeps the builder, or makes heat beside solvent, at the times of `g`. What was beside it before may
// be again: facts had let them drift together.
std::optional<Hindrance> come_since(const Floor& floor, const GlueUp& g, const SlotQuery& query,
                                    Instant since) {
  const auto fresh = [&](GlueUpId id) { return floor.glue_ups.at(id).pressed_at >= since; };
  for (const Span& s : attended_of(g)) {
    const auto busy = floor.builders.busy(g.builder, s, g.id);
    if (busy && fresh(busy->glue_up))
      return Hindrance{s, BuilderBusy{g.builder, busy->glue_up, busy->span.end}};
  }
  const Hours hours = floor.hours_for(g.builder);
  const SlotView view{floor.gear, floor.builders, floor.shop->gear, hours, floor.fumes};
  for (const BesideHeat& heat : beside_heat(view, query, g.times)) {
    if (fresh(heat.with)) return Hindrance{g.times.held(), heat};
  }
  return std::nullopt;
}

// Whether a record of before the plan can be brought back, as far as gear and later steps do not say.
std::optional<Refusal> lost_since(const Floor& floor, const GlueUp& g, Instant planned,
                                  Instant at) {
  for (const Held& h : g.held) {
    if (!floor.kind(h.kind)) return NoSuch{Thing::gear_kind, h.kind.value};
  }
  if (g.progress != Progress::reserved) return std::nullopt;
  if (g.times.open_begin + kStartGrace <= at)
    return BadTime{g.times.open_begin, at - kStartGrace, kNever};
  const auto query = query_again(floor, g, at, at);
  if (!query) return query.error();
  if (query->waits_for && query->waits_for->until > g.times.stage_begin)
    return PlanStale{g.id, {{g.times.held(), *query->waits_for}}};
  if (auto who = come_since(floor, g, *query, planned)) return PlanStale{g.id, {std::move(*who)}};
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
  Together together{floor, at};
  for (const Adopted& move : moves) together.set_aside(move.glue_up);
  for (const Adopted& move : moves) {
    auto g = placed(together.trial(), move, at);
    if (!g) return no(g.error());
    g->plan = plan.id;
    if (auto stale = together.place(std::move(*g))) return no(std::move(*stale));
    plan.glue_ups.push_back(move.glue_up);
  }
  return together.record(std::move(plan));
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
  Together together{floor, at};
  for (const GlueUp& g : back) together.set_aside(g.id);
  for (GlueUp& g : back) {
    g.pressed_at = at;
    g.plan = {};
    if (auto lost = lost_since(together.trial(), g, plan.at, at)) return no(std::move(*lost));
    if (auto stale = together.place(std::move(g))) return no(std::move(*stale));
  }
  plan.undone = true;
  return together.record(std::move(plan));
}

}  // namespace squeezeout
