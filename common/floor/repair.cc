// The fewest that have to move. First whoever lost its place gets one in turn (repair_places.h): where all do, no more than those
// that moved have to. Then sets up to that size are searched. A set of glue-ups that move is right when all others can stand where
// they stood, and those find places around them. Sets are tried by size: where two cannot both stand, one of those in the
// conflict moves, so each conflict names the branches.
//   Proven  every set of the least size, and of fewer, was looked at to its end: one alone by the slot finder, more by the planner
//           where its problem is exact. What was cut short, or refused by the floor, proves nothing

#include <algorithm>
#include <map>
#include <set>

#include "common/floor/repair_places.h"

namespace squeezeout {
namespace {

constexpr std::int64_t kPlacing = 20'000;  // work for the places of one set
constexpr std::size_t kMostKept = 50'000;  // sets that are remembered
constexpr std::int64_t kSetWork = 50;      // of a set, beside what is looked up for it
constexpr std::size_t kSameSize = 24;  // sets of the least size that are held against each other

using Ids = Places::Ids;

struct Found {
  Adoptable plan;
  schedule::Cost cost;
  bool proven = false;  // no shift is less for this set

  // Less disturbed; as much, and fewer are touched who have their places.
  bool better_than(const Found& other) const {
    return std::pair{cost.disturbed, plan.records.size()} <
           std::pair{other.cost.disturbed, other.plan.records.size()};
  }
};

class Search {
 public:
  Search(const Floor& floor, const std::vector<GlueUpId>& displaced, Instant now,
         const schedule::Budget& budget)
      : floor_(floor), now_(now), budget_(budget), places_(floor, now) {
    for (const GlueUpId id : displaced)
      displaced_.emplace_back(floor.glue_ups.at(id).times.stage_begin, id);
    std::sort(displaced_.begin(), displaced_.end());
  }

  // Of the sets of at most `most`; work that was done before counts, and its plan is the best that is told until there is another.
  std::optional<Found> run(std::size_t most, std::int64_t work_before,
                           const schedule::Cost& before) {
    work_ = work_before;
    told_ = before;
    Ids moved;
    for (const auto& [start, id] : displaced_) {
      if (start < now_) moved.insert(id);
    }
    for (std::size_t size = moved.size(); size <= most && !over(); ++size) {
      seen_.clear();
      size_ = size;
      look(moved);
      if (best_) break;
    }
    proven_ = best_ && !over() && !unsure_ && found_ < kSameSize;
    return best_;
  }

  std::int64_t work() const { return places_.work() + work_; }
  // No plan disturbs less than what run() found.
  bool proven() const { return proven_; }

 private:
  bool over() const { return work() >= budget_.work || (budget_.stop && budget_.stop()); }

  bool can_move(GlueUpId id, const Ids& moved) const {
    const GlueUp& g = floor_.glue_ups.at(id);
    return (g.progress == Progress::reserved || g.progress == Progress::displaced) &&
           !moved.contains(id);
  }

  // All sets of size_ that hold `moved` and are right.
  void look(const Ids& moved) {
    if (over() || found_ >= kSameSize) return;
    if (seen_.size() >= kMostKept) seen_.clear();
    if (!seen_.insert(moved).second) return;
    work_ += kSetWork;
    if (budget_.progress) budget_.progress({.work = work(), .best = told_});
    std::vector<GlueUpId> back;
    std::optional<Ids> conflict;
    for (const auto& [start, id] : displaced_) {
      if (moved.contains(id)) continue;
      conflict = stand_again(id, moved);
      if (conflict) break;
      back.push_back(id);
    }
    if (!conflict) conflict = place(moved, back);
    for (const GlueUpId id : back) places_.aside(id);
    if (!conflict || moved.size() >= size_) return;
    for (const GlueUpId id : *conflict) {
      Ids more = moved;
      more.insert(id);
      const GlueUp stood = places_.floor().glue_ups.at(id);
      places_.aside(id);
      look(more);
      places_.put(stood);
    }
  }

  // Puts one back where it was. Else: of these, one has to move.
  std::optional<Ids> stand_again(GlueUpId id, const Ids& moved) {
    GlueUp g = places_.floor().glue_ups.at(id);
    const Instant start = g.times.stage_begin;
    const SlotQuery* alone = places_.query_of(id);
    if (!alone) return Ids{id};
    SlotQuery query = *alone;
    query.after = start;
    const GlueUp* before = places_.floor().step_of(g.build, g.step - 1);
    if (before && before->progress != Progress::done && !moved.contains(before->id))
      query.waits_for = NotReadyYet{before->id, before->times.ready_at};
    auto slot = places_.at(query, start);
    if (!slot) return in_conflict(id, query, slot.error().why.front().fact, moved);
    const GlueUp* after = places_.floor().step_of(g.build, g.step + 1);
    if (after && after->progress == Progress::reserved && !moved.contains(after->id) &&
        after->times.stage_begin < slot->times.ready_at) {
      Ids out = who_pushes(query, slot->times.clamped_begin, moved);
      out.insert({id, after->id});
      return out;
    }
    places_.put(Places::placed(std::move(g), query, std::move(*slot)));
    return std::nullopt;
  }

  Ids in_conflict(GlueUpId id, const SlotQuery& query, const Fact& fact, const Ids& moved) const {
    Ids out{id};
    const auto add = [&](GlueUpId other) {
      if (other && floor_.glue_up(other) && can_move(other, moved)) out.insert(other);
    };
    if (const auto* busy = std::get_if<BuilderBusy>(&fact)) add(busy->with);
    if (const auto* bench = std::get_if<BenchBusy>(&fact)) add(bench->with);
    if (const auto* waits = std::get_if<NotReadyYet>(&fact)) add(waits->waits_for);
    if (const auto* heat = std::get_if<BesideHeat>(&fact)) add(heat->with);
    if (const auto* gear = std::get_if<GearShort>(&fact)) {
      const GlueUp& g = floor_.glue_ups.at(id);
      const Instant clamped = g.times.stage_begin + query.demand.stage + query.demand.assembly;
      const Span release = release_of(query, clamped);
      for (const GlueUpId other : who_pushes(query, clamped, moved)) out.insert(other);
      Instant end = release.end;
      for (const HeldBy& h : gear->holders) end = std::max(end, h.span.begin + Seconds{1});
      for (const GearNeed& need : query.demand.needs) {
        for (const GearKind& k : floor_.shop->gear) {
          if (!good_enough(k, need)) continue;
          for (const HeldBy& h : places_.floor().gear.holders(k.id, {g.times.stage_begin, end})) {
            if (h.holder.what == Holder::What::glue_up) add(GlueUpId{h.holder.id});
          }
        }
      }
    }
    return out;
  }

  // From when the clamps could come off until they are off, its builder and the bench as busy as they are.
  Span release_of(const SlotQuery& query, Instant clamped) const {
    PhaseTimes t;
    t.open_begin = clamped - query.demand.assembly;
    t.clamped_begin = clamped;
    const auto demand = demand_at(query, t);
    const Instant off = clamped + (demand ? demand->dwell : query.demand.dwell);
    const Hours hours = places_.floor().hours_for(query.builder);
    const SlotView view = view_of(places_.floor(), hours);
    return {off, release_after(view, query, off).value_or(off) + query.demand.release};
  }

  // Whose hands, or whose place at the bench, put the release off: it holds its gear longer for them.
  Ids who_pushes(const SlotQuery& query, Instant clamped, const Ids& moved) const {
    Ids out;
    const Span release = release_of(query, clamped);
    for (const auto& [when, id] : places_.floor().due) {
      const GlueUp& g = places_.floor().glue_ups.at(id);
      const bool in_the_way = g.builder == query.builder || (query.bench && g.bench == query.bench);
      if (!in_the_way || id == query.ignoring || !can_move(id, moved)) continue;
      for (const Span& s : attended_of(g))
        if (s.overlaps(release)) out.insert(id);
    }
    return out;
  }

  // Places for those that move, around all others. Else: of these, one has to move as well.
  std::optional<Ids> place(const Ids& moved, const std::vector<GlueUpId>& back) {
    if (const auto known = no_room_.find(moved); known != no_room_.end()) return known->second;
    std::vector<Adopted> wished;
    for (const GlueUpId id : back) {
      const GlueUp& g = places_.floor().glue_ups.at(id);
      wished.push_back({id, g.times.stage_begin, {}});
    }
    std::optional<Found> found;
    const auto take = [&](std::optional<Adoptable> plan, bool proven) {
      if (!plan) return;
      const schedule::Cost cost = cost_with(floor_, plan->records, now_);
      proven = proven && plan->as_wished;
      if (!found || cost.disturbed < found->cost.disturbed)
        found = Found{std::move(*plan), cost, proven};
      else if (cost.disturbed == found->cost.disturbed)
        found->proven = found->proven || proven;
    };
    const auto with = [&](std::vector<Adopted> more) {
      work_ += kSetWork * static_cast<std::int64_t>(more.size() + wished.size());
      more.insert(more.end(), wished.begin(), wished.end());
      return adoptable(floor_, std::move(more), now_);
    };
    const auto near = nearest(moved);
    bool no_room = !near && moved.size() <= 1;
    if (near) take(with(*near), moved.size() <= 1);
    if (moved.size() > 1) {
      Planned all = planned(moved);
      no_room = all.no_room;
      if (all.starts) take(with(std::move(*all.starts)), all.proven);
    }
    if (!found) {
      unsure_ = unsure_ || !no_room;
      if (no_room_.size() >= kMostKept) no_room_.clear();
      return no_room_[moved] = around(moved);
    }
    unsure_ = unsure_ || !found->proven;
    ++found_;
    if (!best_ || found->better_than(*best_)) best_ = std::move(found);
    told_ = best_->cost;
    return std::nullopt;
  }

  // One after another to the place nearest to where it stood. For one alone that is the least shift.
  std::optional<std::vector<Adopted>> nearest(const Ids& moved) {
    std::vector<std::pair<Instant, GlueUpId>> order;
    for (const GlueUpId id : moved)
      order.emplace_back(floor_.glue_ups.at(id).times.stage_begin, id);
    std::sort(order.begin(), order.end());
    std::vector<Adopted> out;
    for (const auto& [stood, id] : order) {
      auto g = places_.nearest(id, moved);
      if (!g) break;
      out.push_back({id, g->times.stage_begin, {}});
      places_.put(std::move(*g));
    }
    for (const Adopted& placed : out) places_.aside(placed.glue_up);
    if (out.size() < moved.size()) return std::nullopt;
    return out;
  }

  // As the planner places them, all at once.
  struct Planned {
    std::optional<std::vector<Adopted>> starts;
    bool proven = false;   // none is less
    bool no_room = false;  // proven: there are no places
  };
  Planned planned(const Ids& moved) {
    AsProblem as =
        as_problem(places_.floor(), {moved.begin(), moved.end()}, now_, Glues::as_they_are);
    if (!as.left_out.empty()) return {};
    for (schedule::Task& task : as.problem.tasks) task.weight = 0;  // the least shift, late or not
    schedule::Budget part;
    part.seed = budget_.seed;
    part.stop = budget_.stop;
    part.work = std::clamp<std::int64_t>(budget_.work - work(), 1, kPlacing);
    const schedule::Outcome outcome = schedule::solve(as.problem, part);
    work_ += outcome.work;
    using Status = schedule::Outcome::Status;
    if (!outcome.best) return {{}, false, as.exact && outcome.status == Status::infeasible};
    Planned out{std::vector<Adopted>{}, as.exact && outcome.status == Status::optimal, false};
    for (std::size_t i = 0; i < as.tasks.size(); ++i)
      out.starts->push_back({as.tasks[i].glue_up, as.start_of(i, outcome.best->tasks[i]), {}});
    return out;
  }

  // What keeps those that move from a place before a later step of their build, or before the mix sets or the cold comes: that
  // step, and whoever begins before that.
  Ids around(const Ids& moved) {
    Ids out;
    for (const GlueUpId id : moved) {
      const GlueUp& g = places_.floor().glue_ups.at(id);
      const GlueUp* after = places_.floor().step_of(g.build, g.step + 1);
      const SlotQuery* query = places_.query_of(id);
      const bool by_hour = query && query->curing && query->curing->steady_from() > now_;
      Instant before = by_hour ? kNever : Instant::min();
      if (query && query->pot) before = std::max(before, query->pot->until);
      if (after && after->progress == Progress::reserved) {
        if (can_move(after->id, moved)) out.insert(after->id);
        before = std::max(before, after->times.stage_begin);
      }
      for (const auto& [when, other] : places_.floor().due) {
        const GlueUp& o = places_.floor().glue_ups.at(other);
        if (o.times.stage_begin < before && can_move(other, moved)) out.insert(other);
      }
    }
    return out;
  }

  const Floor& floor_;
  const Instant now_;
  const schedule::Budget& budget_;
  Places places_;  // those that lost theirs are aside, but for the ones that stand again just now
  std::vector<std::pair<Instant, GlueUpId>> displaced_;
  std::set<Ids> seen_;
  std::map<Ids, Ids> no_room_;  // sets that find no place, and who is around
  std::size_t size_ = 0, found_ = 0;
  std::int64_t work_ = 0;
  std::optional<Found> best_;
  schedule::Cost told_;
  bool unsure_ = false;  // of a set: whether there is room, or less of a shift
  bool proven_ = false;
};

// Takes out of `displaced` those that one plan cannot move with the others: who stood last.
std::vector<GlueUpId> beyond_one_plan(const Floor& f, std::vector<GlueUpId>& displaced) {
  if (displaced.size() <= kMaxMoves) return {};
  std::sort(displaced.begin(), displaced.end(), [&](GlueUpId a, GlueUpId b) {
    return std::pair{f.glue_ups.at(a).times.stage_begin, a} <
           std::pair{f.glue_ups.at(b).times.stage_begin, b};
  });
  std::vector<GlueUpId> out{displaced.begin() + kMaxMoves, displaced.end()};
  displaced.resize(kMaxMoves);
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace

Proposal repair(const Floor& floor, Instant now, const schedule::Budget& budget) {
  if (!floor.shop) return {};
  const Floor f = trial_of(floor, now);
  std::vector<GlueUpId> no_place = without_place(f, now), displaced;
  std::set_difference(f.displaced.begin(), f.displaced.end(), no_place.begin(), no_place.end(),
                      std::back_inserter(displaced));
  std::vector<GlueUpId> put_off = beyond_one_plan(f, displaced);
  // In turn first: that is quick, and says how many have to move at most.
  InTurn turn;
  Found best{{}, cost_with(f, {}, now), true};
  std::int64_t work = 0;
  if (!displaced.empty()) {
    turn = in_turn(f, displaced, now, budget);
    work = turn.work;
    best = {turn.plan, cost_with(f, turn.plan.records, now),
            turn.all && turn.moved == 0 && put_off.empty()};
  }
  if (!best.proven) {
    Search search{f, displaced, now, budget};
    const auto most = turn.all ? static_cast<std::size_t>(turn.moved) : not_started(f).size();
    const auto found = search.run(most, turn.work, best.cost);
    const bool proven =
        search.proven() && found->cost.disturbed <= best.cost.disturbed && put_off.empty();
    if (found && found->better_than(best)) best = *found;
    best.proven = proven;
    work = search.work();
  }
  for (const GlueUpId id : displaced) {
    const auto its = [&](const GlueUp& g) { return g.id == id; };
    if (std::none_of(best.plan.records.begin(), best.plan.records.end(), its))
      no_place.push_back(id);
  }
  std::sort(no_place.begin(), no_place.end());
  Proposal out = proposal_of(f, best.plan, std::move(no_place), now);
  out.put_off = std::move(put_off);
  out.cancelled = budget.stop && budget.stop();
  out.optimal = best.proven;
  if (out.optimal) out.lower_bound = out.after;
  if (budget.progress)
    budget.progress({.work = work, .best = out.after, .lower_bound = out.lower_bound});
  return out;
}

}  // namespace squeezeout
