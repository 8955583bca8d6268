#include "common/floor/repair_places.h"

#include <algorithm>

#include "common/schedule/improve_random.h"

namespace squeezeout {
namespace {

constexpr std::int64_t kWorkOfAt = 10, kWorkOfFirst = 40, kWorkOfAdopted = 100;
constexpr Seconds kMostEarlier = std::chrono::hours{24 * 14};
constexpr int kFruitless = 24;               // rounds without a better one
constexpr std::int64_t kPatience = 200'000;  // work of the first round before a stop is heard

std::int64_t minutes(Seconds s) { return std::chrono::ceil<Minutes>(s).count(); }

}  // namespace

void Places::aside(GlueUpId id) {
  GlueUp g = floor().glue_ups.at(id);
  g.progress = Progress::displaced;
  g.held.clear();
  trial_.put(std::move(g));
}

const SlotQuery* Places::query_of(GlueUpId id) {
  auto at = queries_.find(id);
  if (at == queries_.end())
    at =
        queries_.emplace(id, lone_query(records_, records_.glue_ups.at(id), now_, trial_.climate()))
            .first;
  return at->second ? &*at->second : nullptr;
}

Result<Slot, NoSlot> Places::at(const SlotQuery& query, Instant start) {
  work_ += kWorkOfAt;
  const Hours hours = floor().hours_for(query.builder);
  return slot_at(view_of(floor(), hours), query, start);
}

std::optional<Slot> Places::first(const SlotQuery& query) {
  work_ += kWorkOfFirst;
  const Hours hours = floor().hours_for(query.builder);
  auto slot = earliest_slot(view_of(floor(), hours), query);
  return slot ? std::optional{std::move(*slot)} : std::nullopt;
}

GlueUp Places::placed(GlueUp g, const SlotQuery& query, Slot slot) {
  auto demand = demand_at(query, slot.times);
  CHECK(demand);  // no slot is where it is too cold
  g.progress = Progress::reserved;
  g.demand = std::move(*demand);
  g.times = slot.times;
  g.held = std::move(slot.held);
  return g;
}

std::optional<Places::Asked> Places::asked(const GlueUp& g, const Ids& moved) {
  const SlotQuery* query = query_of(g.id);
  if (!query) return std::nullopt;
  const Instant stood = records_.glue_ups.at(g.id).times.stage_begin;
  Asked out{*query, stood, std::max(now_, std::min(stood, g.wanted_from)), kNever};
  const GlueUp* before = floor().step_of(g.build, g.step - 1);
  if (before && before->progress == Progress::displaced) return std::nullopt;
  if (before && before->progress != Progress::done) {
    out.query.waits_for = NotReadyYet{before->id, before->times.ready_at};
    out.least = std::max(out.least, before->times.ready_at);
  }
  const GlueUp* after = floor().step_of(g.build, g.step + 1);
  if (after && after->progress == Progress::reserved && !moved.contains(after->id))
    out.ready_by = after->times.stage_begin;
  return out;
}

std::optional<GlueUp> Places::there(GlueUpId id, const Ids& moved) {
  const GlueUp& g = floor().glue_ups.at(id);
  const auto a = asked(g, moved);
  if (!a || a->stood < a->least) return std::nullopt;
  auto slot = at(a->query, a->stood);
  if (!slot || slot->times.ready_at > a->ready_by) return std::nullopt;
  return placed(g, a->query, std::move(*slot));
}

std::optional<GlueUp> Places::nearest(GlueUpId id, const Ids& moved) {
  if (auto stands = there(id, moved)) return stands;
  const GlueUp& g = floor().glue_ups.at(id);
  auto a = asked(g, moved);
  if (!a) return std::nullopt;
  a->query.after = std::max(a->least, a->stood);
  std::optional<Slot> best = first(a->query);
  if (best && best->times.ready_at > a->ready_by) best.reset();
  const Seconds away = best ? best->times.stage_begin - a->stood : kMostEarlier;
  const Instant begin = std::max(a->least, a->stood - away + Seconds{1});
  if (auto earlier = last(a->query, begin, a->stood, a->ready_by)) best = std::move(earlier);
  if (!best) return std::nullopt;
  return placed(g, a->query, std::move(*best));
}

// Who starts later is never ready sooner: where the first from an instant on is not ready in time, none behind it is.
std::optional<Slot> Places::last(SlotQuery query, Instant begin, Instant end, Instant ready_by) {
  const auto from = [&](Instant t) {
    query.after = t;
    auto slot = first(query);
    const bool good = slot && slot->times.stage_begin < end && slot->times.ready_at <= ready_by;
    return good ? std::move(slot) : std::nullopt;
  };
  std::optional<Slot> best;
  Instant none = end;  // from here on
  for (Seconds leap = Minutes{1}; !best && none > begin; leap *= 2) {
    const Instant t = std::max(begin, end - leap);
    best = from(t);
    if (!best) none = t;
  }
  while (best && none - best->times.stage_begin > Minutes{1}) {
    const Instant start = best->times.stage_begin;
    const Instant middle = std::chrono::ceil<Minutes>(start + (none - start) / 2);
    if (auto later = middle < none ? from(middle) : std::nullopt)
      best = std::move(later);
    else
      none = std::min(middle, none - Seconds{1});
  }
  return best;
}

namespace {

class Turns {
 public:
  Turns(const Floor& floor, const std::vector<GlueUpId>& displaced, Instant now,
        const schedule::Budget& budget)
      : floor_(floor),
        now_(now),
        budget_(budget),
        dice_(budget.seed),
        places_(floor, now),
        order_(displaced) {
    std::sort(order_.begin(), order_.end(), [&](GlueUpId a, GlueUpId b) {
      return std::pair{stood(a), a} < std::pair{stood(b), b};
    });
  }

  InTurn run() {
    Round round = in_order();
    std::int64_t least = round.harm;
    Adoptable best = adopted(round.starts);
    schedule::Cost cost = cost_with(floor_, best.records, now_);
    first_ = false;
    tell(cost);
    for (int fruitless = 0; least > 0 && fruitless < kFruitless && !over();) {
      reorder(round.moved);
      round = in_order();
      ++fruitless;
      if (round.harm >= least) continue;
      least = round.harm;
      Adoptable plan = adopted(round.starts);
      const schedule::Cost its = cost_with(floor_, plan.records, now_);
      if (its.disturbed >= cost.disturbed) continue;
      best = std::move(plan);
      cost = its;
      fruitless = 0;
      tell(cost);
    }
    InTurn out{std::move(best), work(), 0, false};
    for (const GlueUp& g : out.plan.records) out.moved += g.times.stage_begin != stood(g.id);
    out.all = out.plan.records.size() == order_.size();
    return out;
  }

 private:
  struct Round {
    std::vector<Adopted> starts;  // in the order in which they were found
    Places::Ids moved;            // or without a place
    std::int64_t harm = 0;
  };

  Instant stood(GlueUpId id) const { return floor_.glue_ups.at(id).times.stage_begin; }
  std::int64_t work() const { return places_.work() + work_; }
  bool over() const { return work() >= budget_.work || (budget_.stop && budget_.stop()); }
  bool cut() const {
    return first_ ? work() >= kPatience && budget_.stop && budget_.stop() : over();
  }
  void tell(const schedule::Cost& best) const {
    if (budget_.progress) budget_.progress({.work = work(), .best = best});
  }

  // What is left when it is cut short has no place.
  Round in_order() {
    Round out;
    Places::Ids placed;
    const auto take = [&](GlueUp g) {
      out.starts.push_back({g.id, g.times.stage_begin, {}});
      placed.insert(g.id);
      places_.put(std::move(g));
    };
    for (const GlueUpId id : order_) {
      if (cut()) break;
      if (auto stands = places_.there(id, {})) take(std::move(*stands));
    }
    for (const GlueUpId id : order_) {
      if (placed.contains(id)) continue;
      out.moved.insert(id);
      auto g = cut() ? std::nullopt : places_.nearest(id, {});
      const Seconds away = g ? std::chrono::abs(g->times.stage_begin - stood(id)) : kHorizon;
      out.harm += schedule::kMoved + minutes(away);
      if (g) take(std::move(*g));
    }
    for (const GlueUpId id : placed) places_.aside(id);
    return out;
  }

  // Those that moved come first, and two of all change their turns; the steps of a build stay in theirs.
  void reorder(const Places::Ids& moved) {
    std::stable_partition(order_.begin(), order_.end(),
                          [&](GlueUpId id) { return moved.contains(id); });
    const auto some = [&]() -> GlueUpId& {
      return order_[static_cast<std::size_t>(dice_.below(static_cast<int>(order_.size())))];
    };
    std::swap(some(), some());
    std::map<BuildId, std::vector<GlueUpId>> steps;
    for (const GlueUpId id : order_) steps[floor_.glue_ups.at(id).build].push_back(id);
    steps.erase(BuildId{});
    for (auto& [build, ids] : steps)
      std::sort(ids.begin(), ids.end(), [&](GlueUpId a, GlueUpId b) {
        return floor_.glue_ups.at(a).step > floor_.glue_ups.at(b).step;
      });
    for (GlueUpId& id : order_) {
      const auto its = steps.find(floor_.glue_ups.at(id).build);
      if (its == steps.end()) continue;
      id = its->second.back();
      its->second.pop_back();
    }
  }

  // Where they do not all go together (pieces are chosen anew, in the order of the starts), as many as go.
  Adoptable adopted(const std::vector<Adopted>& starts) {
    std::vector<Adopted> kept;
    Adoptable plan;
    const std::function<void(std::size_t, std::size_t)> add = [&](std::size_t from,
                                                                  std::size_t to) {
      if (from == to || cut()) return;
      std::vector<Adopted> more = kept;
      for (std::size_t i = from; i < to; ++i) more.push_back(starts[i]);
      work_ += kWorkOfAdopted * static_cast<std::int64_t>(more.size());
      if (auto with = adoptable(floor_, more, now_)) {
        kept = std::move(more);
        plan = std::move(*with);
      } else if (to - from > 1) {
        const std::size_t middle = from + (to - from) / 2;
        add(from, middle);
        add(middle, to);
      }
    };
    add(0, starts.size());
    return plan;
  }

  const Floor& floor_;
  const Instant now_;
  const schedule::Budget& budget_;
  schedule::Random dice_;
  Places places_;
  std::vector<GlueUpId> order_;
  bool first_ = true;  // round
  std::int64_t work_ = 0;
};

}  // namespace

InTurn in_turn(const Floor& floor, const std::vector<GlueUpId>& displaced, Instant now,
               const schedule::Budget& budget) {
  return Turns{floor, displaced, now, budget}.run();
}

}  // namespace squeezeout
