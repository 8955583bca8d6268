#include "common/plan/slot.h"

#include <algorithm>
#include <limits>

namespace squeezeout {
namespace {

constexpr Seconds kLongestAttended = std::chrono::hours{24};

Instant up_to_minute(Instant t) {
  const auto floor = std::chrono::floor<Minutes>(t);
  return floor == t ? t : floor + Minutes{1};
}

Holder own(const SlotQuery& q) { return q.ignoring ? Holder::of(q.ignoring) : Holder{}; }

std::vector<const GearKind*> candidates(std::span<const GearKind> kinds, const GearNeed& need) {
  std::vector<const GearKind*> out;
  for (const GearKind& k : kinds) {
    if (good_enough(k, need)) out.push_back(&k);
  }
  std::sort(out.begin(), out.end(),
            [](const GearKind* a, const GearKind* b) { return less_capable(*a, *b); });
  return out;
}

// Which kinds meet which need: a flow from kinds to needs, grown need by need. A need that finds its kinds taken may push
// another need on to other kinds (an augmenting path), so needs are met together whenever they can be.
class Assignment {
 public:
  Assignment(const GearLedger& gear, std::span<const GearKind> kinds,
             std::span<const GearNeed> needs, Span span, Holder except) {
    for (const GearNeed& need : needs) {
      auto& choices = choices_.emplace_back();
      for (const GearKind* k : candidates(kinds, need)) {
        auto at = std::find_if(lanes_.begin(), lanes_.end(),
                               [&](const Lane& l) { return l.kind == k->id; });
        if (at == lanes_.end()) {
          lanes_.push_back({k->id, gear.free_over(k->id, span, except)});
          at = std::prev(lanes_.end());
        }
        choices.push_back(static_cast<std::size_t>(at - lanes_.begin()));
      }
    }
    given_.assign(needs.size(), std::vector<int>(lanes_.size(), 0));
    for (std::size_t n = 0; n < needs.size(); ++n) {
      int left = needs[n].count;
      while (left > 0) {
        std::vector<bool> seen(lanes_.size(), false);
        const int moved = push(n, left, seen);
        if (moved == 0) {
          short_need_ = n;
          got_ = needs[n].count - left;
          return;
        }
        left -= moved;
      }
    }
  }

  std::optional<std::size_t> short_need() const { return short_need_; }
  int got() const { return got_; }

  std::vector<Held> held() const {
    std::vector<Held> out;
    for (std::size_t l = 0; l < lanes_.size(); ++l) {
      int count = 0;
      for (const auto& row : given_) count += row[l];
      if (count > 0) out.push_back({lanes_[l].kind, count});
    }
    std::sort(out.begin(), out.end());
    return out;
  }

 private:
  struct Lane {
    GearKindId kind;
    int free;
  };

  int push(std::size_t need, int wanted, std::vector<bool>& seen) {
    for (const std::size_t l : choices_[need]) {  // least capable first
      if (const int take = std::min(wanted, lanes_[l].free); take > 0) {
        lanes_[l].free -= take;
        given_[need][l] += take;
        return take;
      }
    }
    for (const std::size_t l : choices_[need]) {
      if (seen[l]) continue;
      seen[l] = true;
      for (std::size_t other = 0; other < given_.size(); ++other) {
        if (other == need || given_[other][l] == 0) continue;
        const int moved = push(other, std::min(wanted, given_[other][l]), seen);
        if (moved == 0) continue;
        given_[other][l] -= moved;
        given_[need][l] += moved;
        return moved;
      }
    }
    return 0;
  }

  std::vector<std::vector<std::size_t>> choices_;  // of each need: lanes
  std::vector<Lane> lanes_;
  std::vector<std::vector<int>> given_;  // need x lane
  std::optional<std::size_t> short_need_;
  int got_ = 0;
};

// Open spans from an instant on, worked out as far as they are asked for.
class OpenLine {
 public:
  // Starts are searched up to a horizon after `last`; their releases as far again behind the dwell.
  OpenLine(const SlotView& view, const SlotQuery& query, Instant from, Instant last)
      : hours_(view.hours),
        keep_(query.attended == SlotQuery::Hours::keep),
        known_(from),
        limit_(last + 2 * kHorizon + kMaxClaim) {}

  // Monotone use only: t never goes back by more than what a caller still holds.
  std::optional<Instant> next(Seconds length, Instant t) {
    if (!keep_) return t;
    for (std::size_t i = 0;; ++i) {
      while (i + 1 >= spans_.size()) {  // the last known span may still grow across midnight
        if (!grow()) {
          if (i >= spans_.size()) return std::nullopt;
          break;
        }
      }
      if (i >= spans_.size()) return std::nullopt;
      const Instant s = std::max(t, spans_[i].begin);
      if (s < spans_[i].end && s + length <= spans_[i].end) return s;
    }
  }

 private:
  bool grow() {
    if (known_ >= limit_) return false;
    const Instant end = known_ + std::chrono::hours{24 * 4};
    for (const Span& s : hours_.open_spans({known_, end})) {
      if (!spans_.empty() && spans_.back().end == s.begin) {
        spans_.back().end = s.end;
      } else {
        spans_.push_back(s);
      }
    }
    known_ = end;
    return true;
  }

  const Hours& hours_;
  const bool keep_;
  std::vector<Span> spans_;
  Instant known_, limit_;
};

std::optional<Instant> release_from(const SlotView& view, const SlotQuery& q, OpenLine& open,
                                    Instant from) {
  const Seconds length = q.demand.release;
  for (int i = 0; i < 1000; ++i) {
    const auto r = open.next(length, from);
    if (!r) return std::nullopt;
    const auto busy =
        view.builders.busy(q.builder, {*r, *r + std::max(length, Seconds{1})}, q.ignoring);
    if (!busy) return r;
    from = busy->span.end;
  }
  return std::nullopt;
}

struct Rejected {
  Fact fact;
  Instant next;  // no start before this one can do
};
enum class Tell {
  all,
  little
};  // little: enough reasons are known, who holds what need not be looked up

GearShort shortage(const SlotView& view, const SlotQuery& q, const Assignment& a, Span span) {
  constexpr std::size_t kMost = 16;
  const GearNeed& need = q.demand.needs[*a.short_need()];
  GearShort out{.need = need, .wanted = need.count, .free = a.got()};
  for (const GearKind* k : candidates(view.kinds, need)) {
    out.kinds.push_back(k->id);
    out.owned += view.gear.stock(k->id);
    for (const HeldBy& h : view.gear.holders(k->id, span, kMost + 1)) {
      if (q.ignoring && h.holder == Holder::of(q.ignoring)) continue;
      out.holders.push_back(h);
    }
  }
  std::sort(out.holders.begin(), out.holders.end(), [](const HeldBy& x, const HeldBy& y) {
    return std::tie(x.span.end, x.span.begin, x.holder) <
           std::tie(y.span.end, y.span.begin, y.holder);
  });
  if (out.holders.size() > kMost) out.holders.resize(kMost);
  return out;
}

std::variant<Slot, Rejected> attempt(const SlotView& view, const SlotQuery& q, OpenLine& open,
                                     Instant s, Tell tell) {
  if (q.waits_for && s < q.waits_for->until) return Rejected{*q.waits_for, q.waits_for->until};

  const Demand& d = q.demand;
  const Seconds attended = d.stage + d.assembly;
  const auto opens = open.next(attended, s);
  if (!opens) return Rejected{ShopClosed{kNever}, kNever};
  if (*opens > s) return Rejected{ShopClosed{*opens}, *opens};

  if (const auto busy =
          view.builders.busy(q.builder, {s, s + std::max(attended, Seconds{1})}, q.ignoring)) {
    return Rejected{BuilderBusy{q.builder, busy->glue_up, busy->span.end}, busy->span.end};
  }

  PhaseTimes t;
  t.stage_begin = s;
  t.open_begin = s + d.stage;
  t.clamped_begin = t.open_begin + d.assembly;
  Seconds dwell = d.dwell, wait = d.wait;
  if (q.curing) {
    const auto lengths = q.curing->at(t.open_begin, t.clamped_begin);
    if (!lengths) {
      // Whatever is spread before it is warm again either sees that cold or has been tried already.
      const TooCold& cold = lengths.error();
      return Rejected{cold, cold.until ? *cold.until - d.stage : kNever};
    }
    if (lengths->open_limit < d.assembly && q.open_time == SlotQuery::Open::keep) {
      const auto open_again = q.curing->stays_open(d.assembly, t.open_begin);
      return Rejected{SkinsFirst{q.curing->sheet().id, d.assembly, lengths->open_limit,
                                 q.curing->weather().air(t.open_begin)},
                      open_again ? *open_again - d.stage : kNever};
    }
    dwell = lengths->dwell;
    wait = lengths->wait;
  }
  const auto release = release_from(view, q, open, t.clamped_begin + dwell);
  if (!release) return Rejected{ShopClosed{kNever}, kNever};
  t.release_begin = *release;
  t.release_end = *release + d.release;
  t.ready_at = std::max(t.release_end, t.clamped_begin + wait);
  if (t.held().length() > kMaxClaim) return Rejected{ShopClosed{kNever}, kNever};
  if (const auto heat = beside_heat(view, q, t); !heat.empty())
    return Rejected{heat.back(), std::max(heat.back().until - d.stage, s + Seconds{1})};

  const Assignment a{view.gear, view.kinds, d.needs, t.held(), own(q)};
  if (!a.short_need()) return Slot{t, a.held(), {}};

  // Free counts over a window that moves right can only grow when the last of a kind's highest steps leaves it.
  Instant next = kNever;
  for (const GearNeed& need : d.needs) {
    for (const GearKind* k : candidates(view.kinds, need)) {
      const Usage::Peak peak = view.gear.peak(k->id, t.held(), own(q));
      if (peak.level > 0) next = std::min(next, peak.last_end);
    }
  }
  return Rejected{tell == Tell::all ? shortage(view, q, a, t.held()) : GearShort{}, next};
}

}  // namespace

std::vector<BesideHeat> beside_heat(const SlotView& view, const SlotQuery& q, const PhaseTimes& t) {
  std::vector<BesideHeat> all;
  const auto take = [&](GlueUpId with, Instant until) {
    if (with != q.ignoring) all.push_back({with, until});
  };
  if (q.demand.fumes > Seconds{0}) {
    const Span fumes{t.open_begin, t.open_begin + q.demand.fumes};
    for (const GearKind& k : view.kinds) {
      if (!k.hot) continue;
      for (const HeldBy& h : view.gear.holders(k.id, fumes)) {
        if (h.holder.what == Holder::What::glue_up) take(GlueUpId{h.holder.id}, h.span.end);
      }
    }
  }
  const bool hot = std::any_of(q.demand.needs.begin(), q.demand.needs.end(), [&](const auto& need) {
    return std::any_of(view.kinds.begin(), view.kinds.end(),
                       [&](const GearKind& k) { return k.hot && good_enough(k, need); });
  });
  if (hot) {
    for (const auto& [id, span] : view.fumes) {
      if (span.overlaps(t.held())) take(id, span.end);
    }
  }
  std::sort(all.begin(), all.end(), [](const BesideHeat& a, const BesideHeat& b) {
    return std::tie(a.until, a.with) < std::tie(b.until, b.with);
  });
  return all;
}

Result<Demand, TooCold> demand_at(const SlotQuery& query, const PhaseTimes& times) {
  Demand out = query.demand;
  if (!query.curing) return out;
  const auto lengths = query.curing->at(times.open_begin, times.clamped_begin);
  if (!lengths) return Unexpected{lengths.error()};
  out.dwell = lengths->dwell;
  out.wait = lengths->wait;
  out.open_limit = lengths->open_limit;
  return out;
}

void BuilderLedger::put(BuilderId builder, GlueUpId glue_up, std::vector<Span> attended) {
  if (const auto old = by_glue_up_.find(glue_up); old != by_glue_up_.end()) {
    for (const Span& s : old->second.second) lanes_[old->second.first].erase({s, glue_up});
    by_glue_up_.erase(old);
  }
  std::erase_if(attended, [](const Span& s) { return s.empty(); });
  if (attended.empty() || !builder) return;
  for (Span& s : attended) s.begin = std::max(s.begin, s.end - kLongestAttended);
  for (const Span& s : attended) lanes_[builder].insert({s, glue_up});
  by_glue_up_.emplace(glue_up, std::pair{builder, std::move(attended)});
}

std::optional<BusyWith> BuilderLedger::busy(BuilderId builder, Span span, GlueUpId except) const {
  const auto lane = lanes_.find(builder);
  if (lane == lanes_.end()) return std::nullopt;
  std::optional<BusyWith> last;
  // Ordered by begin, and none is longer than a day: look back no further.
  auto it = lane->second.lower_bound({{span.end, Instant::min()}, {}});
  while (it != lane->second.begin()) {
    --it;
    const auto& [s, glue_up] = *it;
    if (s.begin < span.begin - kLongestAttended) break;
    if (glue_up == except || !s.overlaps(span)) continue;
    if (!last || s.end > last->span.end) last = BusyWith{glue_up, s};
  }
  return last;
}

Result<Slot, NoSlot> earliest_slot(const SlotView& view, const SlotQuery& query) {
  std::vector<Hindrance> why;
  Instant s = up_to_minute(query.after);
  const Instant last = query.waits_for ? std::max(s, query.waits_for->until) : s;
  OpenLine open{view, query, s, last};
  const Instant horizon = last + kHorizon;
  for (int i = 0; i < kMaxTries && s < horizon; ++i) {
    auto outcome = attempt(view, query, open, s, why.size() < kMaxWhy ? Tell::all : Tell::little);
    if (auto* slot = std::get_if<Slot>(&outcome)) {
      slot->why_not_earlier = std::move(why);
      return std::move(*slot);
    }
    Rejected& no = std::get<Rejected>(outcome);
    const Instant next =
        no.next == kNever ? horizon : up_to_minute(std::max(no.next, s + Seconds{1}));
    if (why.size() < kMaxWhy) why.push_back({{s, next}, std::move(no.fact)});
    s = next;
  }
  return Unexpected{NoSlot{std::move(why)}};
}

Result<Slot, NoSlot> slot_at(const SlotView& view, const SlotQuery& query, Instant start) {
  OpenLine open{view, query, start, start};
  auto outcome = attempt(view, query, open, start, Tell::all);
  if (auto* slot = std::get_if<Slot>(&outcome)) return std::move(*slot);
  Rejected& no = std::get<Rejected>(outcome);
  return Unexpected{NoSlot{{{{start, no.next}, std::move(no.fact)}}}};
}

std::optional<Instant> release_after(const SlotView& view, const SlotQuery& query, Instant from) {
  OpenLine open{view, query, from, from};
  return release_from(view, query, open, from);
}

std::optional<std::vector<Held>> choose_gear(const SlotView& view, std::span<const GearNeed> needs,
                                             Span span, GlueUpId ignoring) {
  const Assignment a{view.gear, view.kinds, needs, span,
                     ignoring ? Holder::of(ignoring) : Holder{}};
  if (a.short_need()) return std::nullopt;
  return a.held();
}

}  // namespace squeezeout
