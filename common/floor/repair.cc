// The fewest that have to move. A set of glue-ups that move is right when all others can stand where they stood, and those find
// places around them. Sets are tried by size: where two cannot both stand, one of those in the conflict moves, so each conflict
// names the branches.

#include <algorithm>
#include <map>
#include <set>

#include "common/floor/proposal.h"

namespace squeezeout {
namespace {

constexpr std::int64_t kPlacing = 500;  // work for the places of one set
constexpr Seconds kMostEarlier = std::chrono::hours{24 * 14};
constexpr std::size_t kSameSize = 24;  // sets of the least size that are held against each other

using Ids = std::set<GlueUpId>;

struct Found {
  Adoptable plan;
  schedule::Cost cost;
  bool proven = false;  // no shift is less for this set
};

class Search {
 public:
  Search(const Floor& floor, const std::vector<GlueUpId>& no_place, Instant now,
         const schedule::Budget& budget)
      : floor_(floor), now_(now), budget_(budget), trial_(floor, now) {
    for (const GlueUpId id : floor.displaced) {
      if (std::binary_search(no_place.begin(), no_place.end(), id)) continue;
      displaced_.emplace_back(floor.glue_ups.at(id).times.stage_begin, id);
    }
    std::sort(displaced_.begin(), displaced_.end());
  }

  std::optional<Found> run() {
    Ids moved;
    for (const auto& [start, id] : displaced_) {
      if (start < now_) moved.insert(id);
    }
    const std::size_t most = not_started(floor_).size();
    for (std::size_t size = moved.size(); size <= most && !over(); ++size) {
      seen_.clear();
      size_ = size;
      look(moved);
      if (best_) break;
    }
    complete_ = !over();
    if (!best_) all_displaced();
    return best_;
  }

  std::int64_t work() const { return work_; }
  bool complete() const { return complete_; }
  bool cancelled() const { return budget_.stop && budget_.stop(); }

 private:
  bool over() const { return work_ >= budget_.work || cancelled(); }

  bool can_move(GlueUpId id, const Ids& moved) const {
    const GlueUp& g = floor_.glue_ups.at(id);
    return (g.progress == Progress::reserved || g.progress == Progress::displaced) &&
           !moved.contains(id);
  }

  // All sets of size_ that hold `moved` and are right.
  void look(const Ids& moved) {
    if (over() || found_ >= kSameSize || !seen_.insert(moved).second) return;
    ++work_;
    std::vector<GlueUpId> back;
    std::optional<Ids> conflict;
    for (const auto& [start, id] : displaced_) {
      if (moved.contains(id)) continue;
      conflict = stand_again(id, moved);
      if (conflict) break;
      back.push_back(id);
    }
    if (!conflict) conflict = place(moved, back);
    for (const GlueUpId id : back) aside(id);
    if (!conflict || moved.size() >= size_) return;
    for (const GlueUpId id : *conflict) {
      Ids more = moved;
      more.insert(id);
      const GlueUp stood = trial_.floor().glue_ups.at(id);
      aside(id);
      look(more);
      trial_.put(stood);
    }
  }

  void aside(GlueUpId id) {
    GlueUp g = trial_.floor().glue_ups.at(id);
    g.progress = Progress::displaced;
    g.held.clear();
    trial_.put(std::move(g));
  }

  // Puts one back where it was. Else: of these, one has to move.
  std::optional<Ids> stand_again(GlueUpId id, const Ids& moved) {
    const Floor& f = trial_.floor();
    GlueUp g = f.glue_ups.at(id);
    const Instant start = g.times.stage_begin;
    const SlotQuery* cached = query_of(id);
    if (!cached) return Ids{id};
    SlotQuery query = *cached;
    query.after = start;
    const GlueUp* before = step_of(g, g.step - 1);
    if (before && before->progress != Progress::done && !moved.contains(before->id))
      query.waits_for = NotReadyYet{before->id, before->times.ready_at};
    const Hours hours = f.hours_for(g.builder);
    const SlotView view{f.gear, f.builders, f.shop->gear, hours, f.fumes};
    auto slot = slot_at(view, query, start);
    if (!slot) return in_conflict(id, query, slot.error().why.front().fact, moved);
    const GlueUp* after = step_of(g, g.step + 1);
    if (after && after->progress == Progress::reserved && !moved.contains(after->id) &&
        after->times.stage_begin < slot->times.ready_at)
      return Ids{id, after->id};
    auto demand = demand_at(query, slot->times);
    CHECK(demand);  // no slot is where it is too cold
    g.progress = Progress::reserved;
    g.demand = std::move(*demand);
    g.times = slot->times;
    g.held = std::move(slot->held);
    trial_.put(std::move(g));
    return std::nullopt;
  }

  Ids in_conflict(GlueUpId id, const SlotQuery& query, const Fact& fact, const Ids& moved) const {
    Ids out{id};
    const auto add = [&](GlueUpId other) {
      if (other && floor_.glue_up(other) && can_move(other, moved)) out.insert(other);
    };
    if (const auto* busy = std::get_if<BuilderBusy>(&fact)) add(busy->with);
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
          for (const HeldBy& h : trial_.floor().gear.holders(k.id, {g.times.stage_begin, end})) {
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
      const GlueUp& g = trial_.floor().glue_ups.at(id);
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
    if (!best_ || found->cost.disturbed < best_->cost.disturbed) best_ = std::move(found);
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
      auto g = nearest_place(id, stood, moved);
      if (!g) break;
      out.push_back({id, g->times.stage_begin, {}});
      trial_.put(std::move(*g));
    }
    for (const Adopted& placed : out) aside(placed.glue_up);
    if (out.size() < moved.size()) return std::nullopt;
    return out;
  }

  std::optional<GlueUp> nearest_place(GlueUpId id, Instant stood, const Ids& moved) {
    const SlotQuery* cached = query_of(id);
    if (!cached) return std::nullopt;
    GlueUp g = trial_.floor().glue_ups.at(id);
    SlotQuery query = *cached;
    Instant least = std::max(now_, std::min(stood, g.wanted_from));
    const GlueUp* before = step_of(g, g.step - 1);
    if (before && before->progress == Progress::displaced) return std::nullopt;
    if (before && before->progress != Progress::done) {
      query.waits_for = NotReadyYet{before->id, before->times.ready_at};
      least = std::max(least, before->times.ready_at);
    }
    const GlueUp* after = step_of(g, g.step + 1);
    const bool stays = after && after->progress == Progress::reserved && !moved.contains(after->id);
    const Instant ready_by = stays ? after->times.stage_begin : kNever;
    const Floor& f = trial_.floor();
    const Hours hours = f.hours_for(g.builder);
    const SlotView view{f.gear, f.builders, f.shop->gear, hours, f.fumes};
    query.after = std::max(least, stood);
    std::optional<Slot> best;
    if (auto later = earliest_slot(view, query); later && later->times.ready_at <= ready_by)
      best = std::move(*later);
    const Seconds away = best ? best->times.stage_begin - stood : kMostEarlier;
    for (Instant t = std::chrono::ceil<Minutes>(stood) - Minutes{1}; t >= least && stood - t < away;
         t -= Minutes{1}) {
      auto earlier = slot_at(view, query, t);
      if (!earlier || earlier->times.ready_at > ready_by) continue;
      best = std::move(*earlier);
      break;
    }
    if (!best) return std::nullopt;
    auto demand = demand_at(query, best->times);
    CHECK(demand);  // no slot is where it is too cold
    g.progress = Progress::reserved;
    g.demand = std::move(*demand);
    g.times = best->times;
    g.held = std::move(best->held);
    return g;
  }

  // As the planner places them, all at once.
  std::pair<std::optional<std::vector<Adopted>>, bool> planned(const Ids& moved) {
    const AsProblem as =
        as_problem(trial_.floor(), {moved.begin(), moved.end()}, now_, Glues::as_they_are);
    if (!as.left_out.empty()) return {};
    schedule::Budget part;
    part.seed = budget_.seed;
    part.stop = budget_.stop;
    part.work = std::min(kPlacing, std::max<std::int64_t>(budget_.work - work_, 1));
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
      const GlueUp& g = trial_.floor().glue_ups.at(id);
      const GlueUp* after = step_of(g, g.step + 1);
      if (!after || after->progress != Progress::reserved) continue;
      out.insert(after->id);
      for (const auto& [when, other] : trial_.floor().due) {
        const GlueUp& o = trial_.floor().glue_ups.at(other);
        if (o.progress == Progress::reserved && o.times.stage_begin < after->times.stage_begin &&
            can_move(other, moved))
          out.insert(other);
      }
    }
    return out;
  }

  // When the work is at its end: whatever lost its place gets another.
  void all_displaced() {
    std::vector<Adopted> wished;
    for (const auto& [start, id] : displaced_) wished.push_back({id, std::max(start, now_), {}});
    auto plan = adoptable(floor_, std::move(wished), now_);
    if (!plan) return;
    const schedule::Cost cost = cost_with(floor_, plan->records, now_);
    best_ = Found{std::move(*plan), cost, false};
  }

  const GlueUp* step_of(const GlueUp& g, int step) const {
    const auto chain = trial_.floor().chain.find(g.build);
    if (!g.build || chain == trial_.floor().chain.end()) return nullptr;
    const auto at = chain->second.find(step);
    return at == chain->second.end() ? nullptr : &trial_.floor().glue_ups.at(at->second);
  }

  const SlotQuery* query_of(GlueUpId id) {
    const auto known = queries_.find(id);
    const auto at =
        known != queries_.end()
            ? known
            : queries_.emplace(id, lone_query(floor_, floor_.glue_ups.at(id), now_)).first;
    return at->second ? &*at->second : nullptr;
  }

  const Floor& floor_;
  const Instant now_;
  const schedule::Budget& budget_;
  Trial
      trial_;  // those that lost their place are aside, but for the ones that stand again just now
  std::vector<std::pair<Instant, GlueUpId>> displaced_;
  std::map<GlueUpId, std::optional<SlotQuery>> queries_;
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
  const std::vector<GlueUpId> no_place = without_place(f, now);
  Search search{f, no_place, now, budget};
  const auto found = search.run();
  Proposal out = proposal_of(f, found ? found->plan : Adoptable{}, no_place, now);
  out.cancelled = search.cancelled();
  out.optimal = found && found->proven && search.complete();
  if (out.optimal) out.lower_bound = out.after;
  if (budget.progress) budget.progress({search.work(), out.after, out.lower_bound});
  return out;
}

}  // namespace squeezeout
