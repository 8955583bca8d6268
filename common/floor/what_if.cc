#include "common/floor/what_if.h"

#include <algorithm>
#include <limits>
#include <map>
#include <numeric>

#include "common/floor/ask.h"

namespace squeezeout {
namespace {

using Demands = std::vector<const GlueUp*>;          // in the order in which they were asked for
using Starts = std::vector<std::optional<Instant>>;  // of each; none: it has no place

bool stands_in(const GlueUp& g, Span span) {
  return g.progress != Progress::cancelled && g.times.release_end >= span.begin &&
         g.times.stage_begin < span.end;
}

Demands demands_in(const Floor& f, Span span) {
  Demands out;
  for (const auto& [id, g] : f.glue_ups) {
    if (stands_in(g, span)) out.push_back(&g);
  }
  std::stable_sort(out.begin(), out.end(), [](const GlueUp* a, const GlueUp* b) {
    return a->reserved_at < b->reserved_at;
  });
  return out;
}

// ---- what the replay takes place in, and how a hypothesis changes it ----

struct Setting {
  std::map<GearKindId, int> stock;
  WeekHours hours;  // of the shop
  std::optional<BuilderAway> away;
};

Setting as_it_is(const Floor& f) {
  Setting out;
  for (const GearKind& k : f.shop->gear) out.stock[k.id] = f.gear.stock(k.id);
  out.hours = f.shop->hours;
  return out;
}

Setting without_limit(Setting s) {
  constexpr int kPlenty = 1'000'000;
  for (auto& [kind, count] : s.stock) count = kPlenty;
  return s;
}

int minutes_open(const std::vector<DaySpan>& day) {
  return std::accumulate(day.begin(), day.end(), 0, [](int sum, const DaySpan& s) {
    return sum + s.end_minute - s.begin_minute;
  });
}

void lengthen(std::vector<DaySpan>& day, const LongerHours& by) {
  if (day.empty()) return;
  constexpr int kDay = 24 * 60;
  int& begin = day.front().begin_minute;
  int& end = day.back().end_minute;
  begin = std::clamp(begin - static_cast<int>(by.earlier.count()), 0, kDay);
  end = std::clamp(end + static_cast<int>(by.later.count()), 0, kDay);
  std::erase_if(day, [](const DaySpan& s) { return s.begin_minute >= s.end_minute; });
}

void change(Setting& s, const MoreGear& c) {
  const auto it = s.stock.find(c.kind);
  if (it != s.stock.end()) it->second = std::max(0, it->second + c.more);
}
void change(Setting& s, const LongerHours& c) {
  for (auto& day : s.hours.weekday) lengthen(day, c);
  for (auto& [date, day] : s.hours.exceptions) lengthen(day, c);
}
void change(Setting& s, const OpenOn& c) {
  const auto longest = std::max_element(
      s.hours.weekday.begin(), s.hours.weekday.end(),
      [](const auto& a, const auto& b) { return minutes_open(a) < minutes_open(b); });
  s.hours.weekday.at(static_cast<std::size_t>(c.weekday)) = *longest;
}
void change(Setting& s, const BuilderAway& c) { s.away = c; }

// ---- the replay ----

class Replay {
 public:
  Replay(const Floor& floor, const Setting& setting) : floor_(floor), setting_(setting) {
    for (const auto& [kind, count] : setting.stock) gear_.set_stock(kind, count);
    for (const auto& [id, o] : floor.outages) {
      // The stock of today, or of the hypothesis, may be smaller than what was out of use in its time.
      const int count = std::min(o.count, gear_.free_over(o.kind, o.span));
      gear_.put(Holder::of(o.id), {{o.kind, count, o.span}});
    }
    if (setting.away) keep_away(*setting.away);
  }

  Starts run(const Demands& demands) {
    Starts out;
    for (const GlueUp* g : demands) out.push_back(place(*g));
    return out;
  }

 private:
  // Attended spans are a day long at most (BuilderLedger), so his absence is made of days.
  void keep_away(const BuilderAway& a) {
    constexpr Seconds kDay = std::chrono::hours{24};
    std::vector<Span> days;
    for (Instant t = a.away.begin; t < a.away.end; t += kDay)
      days.push_back({t, std::min(a.away.end, t + kDay)});
    builders_.put(a.builder, GlueUpId{std::numeric_limits<std::uint32_t>::max()}, std::move(days));
  }

  const Hours& hours_for(BuilderId id) {
    const auto known = hours_.find(id);
    if (known != hours_.end()) return known->second;
    const Builder* b = floor_.builder(id);
    return hours_
        .emplace(id, b && b->hours ? Hours{*floor_.zone, setting_.hours, *b->hours}
                                   : Hours{*floor_.zone, setting_.hours})
        .first->second;
  }

  // The step before: as it was replayed, or as it is on record where it is not in the demand. until is kNever when it was
  // replayed and has no place.
  std::optional<NotReadyYet> step_before(const GlueUp& g) const {
    if (!g.build || g.step == 0) return std::nullopt;
    const std::pair before{g.build, g.step - 1};
    if (const auto it = ready_.find(before); it != ready_.end()) return it->second;
    const GlueUp* on_record = floor_.step_of(g.build, g.step - 1);
    if (!on_record) return std::nullopt;
    return NotReadyYet{on_record->id, on_record->times.ready_at};
  }

  std::optional<Instant> place(const GlueUp& g) {
    NotReadyYet& ready = ready_[{g.build, g.step}];
    SlotQuery query;
    query.demand = g.demand;
    query.builder = g.builder;
    query.after = g.wanted_from;
    query.waits_for = step_before(g);
    query.bench = bench_rule(floor_, g.bench);
    if (g.outside_hours) query.attended = SlotQuery::Hours::ignore;
    ready = {g.id, kNever};
    if (query.waits_for && query.waits_for->until == kNever) return std::nullopt;
    const SlotView view{
        gear_, builders_, floor_.shop->gear, hours_for(g.builder), fumes_, [this](GlueUpId id) {
          const GlueUp* at = floor_.glue_up(id);
          return at ? at->bench : BenchId{};
        }};
    const auto slot = earliest_slot(view, query);
    if (!slot) return std::nullopt;
    const PhaseTimes& t = slot->times;
    std::vector<Claim> claims;
    for (const Held& h : slot->held) claims.push_back({h.kind, h.count, t.held()});
    gear_.put(Holder::of(g.id), std::move(claims));
    builders_.put(g.builder, g.id,
                  {{t.stage_begin, t.clamped_begin}, {t.release_begin, t.release_end}});
    if (g.demand.fumes > Seconds{0}) fumes_[g.id] = {t.open_begin, t.open_begin + g.demand.fumes};
    ready.until = t.ready_at;
    return t.stage_begin;
  }

  const Floor& floor_;
  const Setting& setting_;
  GearLedger gear_;
  BuilderLedger builders_;
  std::map<GlueUpId, Span> fumes_;
  std::map<BuilderId, Hours> hours_;
  std::map<std::pair<BuildId, int>, NotReadyYet> ready_;
};

// The demand that has a place as things are, and where it starts.
struct Yardstick {
  Demands demands;
  Starts starts;
};
Yardstick yardstick(const Floor& f, const Setting& today, Span span) {
  const Demands all = demands_in(f, span);
  const Starts starts = Replay{f, today}.run(all);
  Yardstick out;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!starts[i]) continue;
    out.demands.push_back(all[i]);
    out.starts.push_back(starts[i]);
  }
  return out;
}

WhatIf compare(const Hypothesis& change, const Starts& unlimited, const Starts& now,
               const Starts& changed) {
  WhatIf out{.change = change, .glue_ups = static_cast<int>(now.size())};
  for (std::size_t i = 0; i < now.size(); ++i) {
    if (!changed[i]) {
      ++out.no_place;
      continue;
    }
    out.waited += *now[i] - *unlimited[i];
    out.would_wait += *changed[i] - *unlimited[i];
    out.sooner += *changed[i] < *now[i];
    out.later += *changed[i] > *now[i];
  }
  return out;
}

}  // namespace

Span demand_span(Instant now, Instant whole_since) {
  return {std::max(now - kLookBack, whole_since), now + kLookAhead};
}

std::map<GlueUpId, Instant> replayed(const Floor& f, Span demand) {
  std::map<GlueUpId, Instant> out;
  if (!f.shop) return out;
  const Yardstick now = yardstick(f, as_it_is(f), demand);
  for (std::size_t i = 0; i < now.demands.size(); ++i) out[now.demands[i]->id] = *now.starts[i];
  return out;
}

std::vector<Hypothesis> usual_hypotheses(const Floor& f) {
  std::vector<Hypothesis> out;
  if (!f.shop) return out;
  for (const GearKind& k : f.shop->gear) out.push_back(MoreGear{k.id, 1});
  constexpr Minutes kHour{60};
  out.push_back(LongerHours{kHour, {}});
  out.push_back(LongerHours{{}, kHour});
  for (int i = 1; i <= 7; ++i) {  // a week begins on Monday
    const int weekday = i % 7;
    if (f.shop->hours.weekday.at(static_cast<std::size_t>(weekday)).empty())
      out.push_back(OpenOn{weekday});
  }
  return out;
}

std::vector<WhatIf> what_if(const Floor& f, Span demand, const std::vector<Hypothesis>& changes,
                            const std::function<bool()>& stop) {
  std::vector<WhatIf> out;
  const auto stopped = [&] { return stop && stop(); };
  if (!f.shop || stopped()) return out;
  const Setting today = as_it_is(f);
  const Setting plenty = without_limit(today);
  const Yardstick now = yardstick(f, today, demand);
  if (stopped()) return out;
  const Starts unlimited = Replay{f, plenty}.run(now.demands);
  for (const Hypothesis& h : changes) {
    if (stopped()) break;
    Setting setting = today;
    std::visit([&](const auto& c) { change(setting, c); }, h);
    out.push_back(compare(h, unlimited, now.starts, Replay{f, setting}.run(now.demands)));
  }
  std::stable_sort(out.begin(), out.end(), [](const WhatIf& a, const WhatIf& b) {
    if (a.no_place != b.no_place) return a.no_place < b.no_place;
    return a.saved() > b.saved();
  });
  return out;
}

}  // namespace squeezeout
