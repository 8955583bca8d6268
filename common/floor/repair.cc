// The fewest that have to move. First whoever lost its place gets one in turn (repair_places.h): that many are enough. Then sets of
// fewer are searched. A set of glue-ups that move is right when all others can stand where they stood, and those find
// places around them. Sets are tried by size: where two cannot both stand, one of those in the conflict moves, so each conflict
// names the branches.

#include <algorithm>
#include <map>
#include <set>

#include "common/floor/repair_places.h"

namespace squeezeout {
namespace {

constexpr std::int64_t kPlacing = 20'000;  // work for the places of one set
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

  // Of the sets of at most `most`; work that was done before counts.
  std::optional<Found> run(std::size_t most, std::int64_t work_before) {
    work_ = work_before;
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
    complete_ = !over();
    return best_;
  }

  std::int64_t work() const { return places_.work() + work_; }
  bool complete() const { return complete_; }

 private:
  bool over() const { return work() >= budget_.work || (budget_.stop && budget_.stop()); }

  bool can_move(GlueUpId id, const Ids& moved) const {
    const GlueUp& g = floor_.glue_ups.at(id);
    return (g.progress == Progress::reserved || g.progress == Progress::displaced) &&
           !moved.contains(id);
  }

  // All sets of size_ that hold `moved` and are right.
  void look(const Ids& moved) {
    if (over() || found_ >= kSameSize || !seen_.insert(moved).second) return;
    work_ += kSetWork;
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
    const GlueUp* before = places_.step_of(g, g.step - 1);
    if (before && before->progress != Progress::done && !moved.contains(before->id))
      query.waits_for = NotReadyYet{before->id, before->times.ready_at};
    auto slot = places_.at(query, start);
    if (!slot) return in_conflict(id, query, slot.error().why.front().fact, moved);
    const GlueUp* after = places_.step_of(g, g.step + 1);
    if (after && after->progress == Progress::reserved && !moved.contains(after->id) &&
        after->times.stage_begin < slot->times.ready_at)
      return Ids{id, after->id};
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
      // Its claim reaches at least to the end of a release without a night in between.
      const GlueUp& g = floor_.glue_ups.at(id);
      Instant end = g.times.release_end;
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
    if (const auto near = nearest(moved)) take(with(*near), moved.size() <= 1);
    if (moved.size() > 1) {
      auto [starts, proven] = planned(moved);
      if (starts) take(with(std::move(*starts)), proven);
    }
    if (!found) return no_room_[moved] = around(moved);
    ++found_;
    if (!best_ || found->better_than(*best_)) best_ = std::move(found);
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
  std::pair<std::optional<std::vector<Adopted>>, bool> planned(const Ids& moved) {
    const AsProblem as =
        as_problem(places_.floor(), {moved.begin(), moved.end()}, now_, Glues::as_they_are);
    if (!as.left_out.empty()) return {};
    schedule::Budget part;
    part.seed = budget_.seed;
    part.stop = budget_.stop;
    part.work = std::clamp<std::int64_t>(budget_.work - work(), 1, kPlacing);
    const schedule::Outcome outcome = schedule::solve(as.problem, part);
    work_ += outcome.work;
    if (!outcome.best) return {};
    std::vector<Adopted> starts;
    for (std::size_t i = 0; i < as.tasks.size(); ++i)
      starts.push_back({as.tasks[i].glue_up, as.start_of(i, outcome.best->tasks[i]), {}});
    return {std::move(starts), outcome.status == schedule::Outcome::Status::optimal};
  }

  // What keeps those that move from a place before a later step of their build: that step, and who holds what they need.
  Ids around(const Ids& moved) const {
    Ids out;
    for (const GlueUpId id : moved) {
      const GlueUp& g = places_.floor().glue_ups.at(id);
      const GlueUp* after = places_.step_of(g, g.step + 1);
      if (!after || after->progress != Progress::reserved) continue;
      out.insert(after->id);
      for (const auto& [when, other] : places_.floor().due) {
        const GlueUp& o = places_.floor().glue_ups.at(other);
        if (o.progress == Progress::reserved && o.times.stage_begin < after->times.stage_begin &&
            can_move(other, moved))
          out.insert(other);
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
  bool complete_ = false;
};

}  // namespace

Proposal repair(const Floor& floor, Instant now, const schedule::Budget& budget) {
  if (!floor.shop) return {};
  const Floor f = trial_of(floor, now);
  std::vector<GlueUpId> no_place = without_place(f, now), displaced;
  std::set_difference(f.displaced.begin(), f.displaced.end(), no_place.begin(), no_place.end(),
                      std::back_inserter(displaced));
  // In turn first: that is quick, and says how many have to move at most.
  InTurn turn;
  Found best{{}, cost_with(f, {}, now), true};
  std::int64_t work = 0;
  if (!displaced.empty()) {
    turn = in_turn(f, displaced, now, budget);
    work = turn.work;
    best = {turn.plan, cost_with(f, turn.plan.records, now), turn.all && turn.moved == 0};
  }
  if (!best.proven) {
    Search search{f, displaced, now, budget};
    const auto most = turn.all ? static_cast<std::size_t>(turn.moved) : not_started(f).size();
    const auto found = search.run(most, turn.work);
    const bool proven =
        found && found->proven && search.complete() && found->cost.disturbed <= best.cost.disturbed;
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
  out.cancelled = budget.stop && budget.stop();
  out.optimal = best.proven;
  if (out.optimal) out.lower_bound = out.after;
  if (budget.progress)
    budget.progress({.work = work, .best = out.after, .lower_bound = out.lower_bound});
  return out;
}

}  // namespace squeezeout
