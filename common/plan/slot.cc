#include "common/plan/slot.h"

#include <algorithm>

#include "common/plan/gear_choice.h"
#include "common/plan/open_line.h"

namespace squeezeout {
namespace {

Instant up_to_minute(Instant t) {
  const auto floor = std::chrono::floor<Minutes>(t);
  return floor == t ? t : floor + Minutes{1};
}

constexpr std::size_t kMostHolders = 16;

struct Rejected {
  Fact fact;
  Instant next;  // no start before this one can do
};
enum class Tell {
  all,
  little  // enough reasons are known: who holds what need not be looked up, and closed hours are passed in silence
};

// One question on its way: from start to start, to the right only.
class Search {
 public:
  // Starts are searched from `from` up to a horizon behind `last`; their releases as far again behind the dwell.
  Search(const SlotView& view, const SlotQuery& query, Instant from, Instant last)
      : view_(view),
        q_(query),
        horizon_(last + kHorizon),
        open_(query.attended == SlotQuery::Hours::keep ? &view.hours : nullptr, from,
              last + 2 * kHorizon + kMaxClaim),
        gear_(view.gear, view.kinds, query.demand.needs,
              query.ignoring ? Holder::of(query.ignoring) : Holder{}),
        attended_(query.demand.stage + query.demand.assembly),
        dwell_least_(query.curing ? query.curing->dwell_least() : query.demand.dwell) {}

  std::variant<Slot, Rejected> attempt(Instant s, Tell tell);
  std::optional<Instant> release_from(Instant from);
  Instant horizon() const { return horizon_; }

 private:
  // Who keeps the builder, or the bench, from being at it over the whole span.
  std::optional<Rejected> kept_from(Span attended) const;
  Instant end_least(Instant s);
  Rejected gear_short(GearChoice::Short is, Span span, Tell tell);
  Instant pass(GearChoice::Short is, Span span, Tell tell);
  GearShort told(const GearChoice::Short& is, Span span) const;

  const SlotView& view_;
  const SlotQuery& q_;
  const Instant horizon_;
  OpenLine open_;
  GearChoice gear_;
  const Seconds attended_;
  Seconds dwell_least_;  // of every start that is still to come
};

std::optional<Rejected> Search::kept_from(Span attended) const {
  if (const auto busy = view_.builders.busy(q_.builder, attended, q_.ignoring))
    return Rejected{BuilderBusy{q_.builder, busy->glue_up, busy->span.end}, busy->span.end};
  if (!q_.bench || !view_.bench_of) return std::nullopt;
  const auto there = [&](GlueUpId g) { return g != q_.ignoring && view_.bench_of(g) == q_.bench; };
  if (const auto busy = view_.builders.others_busy(q_.builder, attended, there))
    return Rejected{BenchBusy{q_.bench, busy->glue_up, busy->span.end}, busy->span.end};
  return std::nullopt;
}

std::optional<Instant> Search::release_from(Instant from) {
  const Seconds length = q_.demand.release;
  for (int i = 0; i < 1000; ++i) {
    const auto r = open_.next(length, from);
    if (!r) return std::nullopt;
    const auto kept = kept_from({*r, *r + std::max(length, Seconds{1})});
    if (!kept) return r;
    from = kept->next;
  }
  return std::nullopt;
}

// A start at `s` or later does not end before; far cheaper than its true end.
Instant Search::end_least(Instant s) {
  const Instant off = s + attended_ + dwell_least_;
  return open_.next(q_.demand.release, off).value_or(off) + q_.demand.release;
}

GearShort Search::told(const GearChoice::Short& is, Span span) const {
  const GearNeed& need = q_.demand.needs[is.need];
  GearShort out{.need = need,
                .kinds = gear_.kinds_of(is.need),
                .wanted = need.count,
                .free = is.got,
                .owned = gear_.owned(is.need)};
  for (const GearKindId kind : out.kinds) {
    for (const HeldBy& h : view_.gear.holders(kind, span, kMostHolders + 1)) {
      if (q_.ignoring && h.holder == Holder::of(q_.ignoring)) continue;
      out.holders.push_back(h);
    }
  }
  std::sort(out.holders.begin(), out.holders.end(), [](const HeldBy& x, const HeldBy& y) {
    return std::tie(x.span.end, x.span.begin, x.holder) <
           std::tie(y.span.end, y.span.begin, y.holder);
  });
  if (out.holders.size() > kMostHolders) out.holders.resize(kMostHolders);
  return out;
}

// Gear is short over `span`, which a start at its begin would hold: the first start that this does not rule out. All starts of
// [a, b] hold [b, end of a), so what is short over that rules all of them out at once, and those as well that come before the last
// highest level leaves. b leaps ahead, twice as far after each success and half as far after each failure. Every turn of the loop
// passes a minute at least, or halves the leap; after kMaxTries turns what was passed until then is said.
Instant Search::pass(GearChoice::Short is, Span span, Tell tell) {
  if (is.alone && gear_.owned(is.need) < q_.demand.needs[is.need].count) return kNever;
  constexpr Minutes kOne{1};
  const auto behind = [&](Instant least, const GearChoice::Short& now) {
    return now.until == kNever ? horizon_ : std::max(least, up_to_minute(now.until));
  };
  Instant a = behind(up_to_minute(span.begin + Seconds{1}), is);
  Minutes leap{0};
  for (int i = 0; i < kMaxTries && a < horizon_; ++i) {
    const auto opens = open_.next(attended_, a);
    if (!opens) return kNever;
    if (*opens != a) {
      if (tell == Tell::all) return a;  // a fact of its own
      a = up_to_minute(*opens);
    }
    const Instant end = std::max(span.end, end_least(a));
    leap = std::clamp(std::chrono::floor<Minutes>(end - a) - kOne, Minutes{0}, leap);
    const Span all_hold{a + leap, end};
    const auto now = tell == Tell::all ? gear_.still(is, all_hold) : gear_.over(all_hold, is.need);
    if (now) {
      if (tell == Tell::little) is = *now;
      a = behind(a + leap + kOne, *now);
      leap = 2 * leap + kOne;
    } else if (leap > Minutes{0}) {
      leap /= 2;
    } else {
      return a;
    }
  }
  return a < horizon_ ? a : kNever;
}

Rejected Search::gear_short(GearChoice::Short is, Span span, Tell tell) {
  const Instant next = pass(is, span, tell);
  if (tell == Tell::little) return {GearShort{}, next};
  return {told(is, span), next};
}

std::variant<Slot, Rejected> Search::attempt(Instant s, Tell tell) {
  if (q_.waits_for && s < q_.waits_for->until) return Rejected{*q_.waits_for, q_.waits_for->until};

  const Demand& d = q_.demand;
  const auto opens = open_.next(attended_, s);
  if (!opens) return Rejected{ShopClosed{kNever}, kNever};
  if (*opens > s) return Rejected{ShopClosed{*opens}, *opens};

  if (auto kept = kept_from({s, s + std::max(attended_, Seconds{1})})) return std::move(*kept);

  PhaseTimes t;
  t.stage_begin = s;
  t.open_begin = s + d.stage;
  t.clamped_begin = t.open_begin + d.assembly;
  if (q_.pot && t.clamped_begin > q_.pot->until) return Rejected{*q_.pot, kNever};
  Seconds dwell = d.dwell, wait = d.wait;
  if (q_.curing) {
    const bool steady = t.open_begin >= q_.curing->steady_from();
    if (!steady) {  // to add up the cure costs more than a look at the gear
      const Span least{s, end_least(s)};
      if (const auto is = gear_.over(least)) return gear_short(*is, least, tell);
    }
    const auto lengths = q_.curing->at(t.open_begin, t.clamped_begin);
    if (!lengths) {
      // Whatever is spread before it is warm again either sees that cold or has been tried already.
      const TooCold& cold = lengths.error();
      // It is told to the minute, and may be warm a little sooner.
      const Seconds sooner = d.stage + Seconds{59};
      return Rejected{cold, cold.until ? up_to_minute(*cold.until - sooner) : kNever};
    }
    if (lengths->open_limit < d.assembly && q_.open_time == SlotQuery::Open::keep) {
      const auto open_again = q_.curing->stays_open(d.assembly, t.open_begin);
      return Rejected{SkinsFirst{q_.curing->sheet().id, d.assembly, lengths->open_limit,
                                 q_.curing->weather().air(t.open_begin)},
                      open_again ? *open_again - d.stage : kNever};
    }
    dwell = lengths->dwell;
    wait = lengths->wait;
    if (steady) dwell_least_ = dwell;
  }
  const auto release = release_from(t.clamped_begin + dwell);
  if (!release) return Rejected{ShopClosed{kNever}, kNever};
  t.release_begin = *release;
  t.release_end = *release + d.release;
  t.ready_at = std::max(t.release_end, t.clamped_begin + wait);
  if (t.held().length() > kMaxClaim) return Rejected{ShopClosed{kNever}, kNever};
  if (const auto heat = beside_heat(view_, q_, t); !heat.empty())
    return Rejected{heat.back(), std::max(heat.back().until - d.stage, s + Seconds{1})};

  if (const auto is = gear_.over(t.held())) return gear_short(*is, t.held(), tell);
  return Slot{t, gear_.held(), {}};
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

Result<Slot, NoSlot> earliest_slot(const SlotView& view, const SlotQuery& query) {
  std::vector<Hindrance> why;
  Instant s = up_to_minute(query.after);
  const Instant last = query.waits_for ? std::max(s, query.waits_for->until) : s;
  Search search{view, query, s, last};
  const Instant horizon = search.horizon();
  for (int i = 0; i < kMaxTries && s < horizon; ++i) {
    auto outcome = search.attempt(s, why.size() < kMaxWhy ? Tell::all : Tell::little);
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
  auto outcome = Search{view, query, start, start}.attempt(start, Tell::all);
  if (auto* slot = std::get_if<Slot>(&outcome)) return std::move(*slot);
  Rejected& no = std::get<Rejected>(outcome);
  return Unexpected{NoSlot{{{{start, no.next}, std::move(no.fact)}}}};
}

std::optional<Instant> release_after(const SlotView& view, const SlotQuery& query, Instant from) {
  return Search{view, query, from, from}.release_from(from);
}

std::optional<std::vector<Held>> choose_gear(const SlotView& view, std::span<const GearNeed> needs,
                                             Span span, GlueUpId ignoring) {
  GearChoice gear{view.gear, view.kinds, needs, ignoring ? Holder::of(ignoring) : Holder{}};
  if (gear.over(span)) return std::nullopt;
  return gear.held();
}

}  // namespace squeezeout
