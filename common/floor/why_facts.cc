#include "common/floor/why_facts.h"

#include <algorithm>
#include <array>

namespace squeezeout {
namespace {

constexpr Seconds kInstant{1};  // attended work without length still wants its instant

Instant up_to_minute(Instant t) { return std::chrono::ceil<Minutes>(t); }

bool any_need(const GearKind& kind, const std::vector<GearNeed>& needs) {
  return std::any_of(needs.begin(), needs.end(),
                     [&](const GearNeed& need) { return good_enough(kind, need); });
}

Span hull(const std::vector<Claim>& claims) {
  Span out{kNever, Instant::min()};
  for (const Claim& c : claims)
    out = {std::min(out.begin, c.span.begin), std::max(out.end, c.span.end)};
  return out;
}

bool any_overlaps(const std::vector<Claim>& claims, Span span) {
  return std::any_of(claims.begin(), claims.end(),
                     [&](const Claim& c) { return c.span.overlaps(span); });
}

// What is looked at first to rule times out.
enum class Rank { earlier_step, attended, pot, cold, skins, heat, count, holder };
constexpr std::array kRanks{Rank::earlier_step, Rank::attended, Rank::pot,   Rank::cold,
                            Rank::skins,        Rank::heat,     Rank::count, Rank::holder};

struct RankOf {
  Rank operator()(const HeldGear&) const { return Rank::holder; }
  Rank operator()(const OwnsTooFew&) const { return Rank::count; }
  Rank operator()(const ClosedHours&) const { return Rank::attended; }
  Rank operator()(const BuilderBusy&) const { return Rank::attended; }
  Rank operator()(const NotReadyYet&) const { return Rank::earlier_step; }
  Rank operator()(const TooCold&) const { return Rank::cold; }
  Rank operator()(const SkinsFirst&) const { return Rank::skins; }
  Rank operator()(const BesideHeat&) const { return Rank::heat; }
  Rank operator()(const PotGels&) const { return Rank::pot; }
  Rank operator()(const BenchBusy&) const { return Rank::attended; }
};
Rank rank(const Blocker& b) { return std::visit(RankOf{}, b); }

HeldGear held_gear(Holder holder, const std::vector<Claim>& claims) {
  HeldGear out{.pieces = {}, .held = {holder, 0, hull(claims)}};
  for (const Claim& c : claims) {
    out.pieces.push_back({c.kind, c.count});
    out.held.count += c.count;
  }
  return out;
}

// Open over the window but for these stretches (in order), closed around it.
Hours open_but(const std::vector<Span>& closed, Span window) {
  using std::chrono::days;
  WeekHours week;
  auto next = closed.begin();
  for (auto day = std::chrono::floor<days>(window.begin); day < window.end; day += days{1}) {
    std::vector<DaySpan>& open = week.exceptions[Date{day}];
    const auto minute = [&](Instant t) {
      return static_cast<int>(std::chrono::floor<Minutes>(t - day).count());
    };
    const Span whole{day, std::min<Instant>(day + days{1}, window.end)};
    Instant from = whole.begin;
    for (; next != closed.end() && next->begin < whole.end; ++next) {
      if (next->begin > from) open.push_back({minute(from), minute(next->begin)});
      from = std::max(from, next->end);
      if (next->end > whole.end) break;
    }
    if (from < whole.end) open.push_back({minute(from), minute(whole.end)});
  }
  return {Zone::utc(), std::move(week)};
}

}  // namespace

WhyFacts::WhyFacts(const Floor& floor, SlotQuery query, Instant end)
    : asked_(std::move(query)),
      end_(end),
      calendar_end_(end + asked_.demand.dwell + kHorizon),
      kinds_(floor.shop->gear) {
  if (asked_.waits_for) {
    const NotReadyYet& waits = *asked_.waits_for;
    add({.blocker = waits, .span = {asked_.after, waits.until}});
  }
  if (asked_.curing) {
    const SheetId sheet = asked_.curing->sheet().id;
    add({.blocker = TooCold{.sheet = sheet}, .span = {}});
    if (asked_.open_time == SlotQuery::Open::keep)
      add({.blocker = SkinsFirst{.sheet = sheet}, .span = {}});
  }
  if (asked_.pot) {
    const Instant last = asked_.pot->until - asked_.demand.stage - asked_.demand.assembly;
    add({.blocker = *asked_.pot, .span = {std::max(asked_.after, last + kInstant), kNever}});
  }
  add_gear(floor);
  add_counts(floor);
  add_hours(floor);
  add_work(floor);
}

void WhyFacts::add_gear(const Floor& floor) {
  const std::vector<GearNeed>& needs = asked_.demand.needs;
  const Span window{asked_.after, end_ + kMaxClaim};
  const bool fumes = asked_.demand.fumes > Seconds{0};
  std::map<Holder, std::vector<Claim>> held, hot;
  bool takes_hot = false;
  for (const GearKind& kind : kinds_) {
    const bool needed = any_need(kind, needs);
    takes_hot = takes_hot || (needed && kind.hot);
    if (!needed && !(kind.hot && fumes)) continue;
    gear_.set_stock(kind.id, floor.gear.stock(kind.id), floor.gear.stock_since(kind.id));
    for (const HeldBy& h : floor.gear.holders(kind.id, window)) {
      if (asked_.ignoring && h.holder == Holder::of(asked_.ignoring)) continue;
      const bool heat = kind.hot && fumes && h.holder.what == Holder::What::glue_up;
      (heat ? hot : held)[h.holder].push_back({kind.id, h.count, h.span});
    }
  }
  for (auto& [holder, claims] : held) {
    const HeldGear fact = held_gear(holder, claims);
    of_holder_[holder].push_back(entries_.size());
    add({.blocker = fact, .claims = std::move(claims), .span = fact.held.span});
  }
  for (auto& [holder, claims] : hot) {
    const Span span = hull(claims);
    of_holder_[holder].push_back(entries_.size());
    add({.blocker = BesideHeat{GlueUpId{holder.id}, span.end},
         .claims = std::move(claims),
         .span = span});
  }
  if (!takes_hot) return;
  for (const auto& [id, span] : floor.fumes) {
    if (id == asked_.ignoring || !span.overlaps(window)) continue;
    of_holder_[Holder::of(id)].push_back(entries_.size());
    add({.blocker = BesideHeat{id, span.end}, .span = span});
  }
}

// Only where all that the shop owns, with nobody holding any, is too little.
void WhyFacts::add_counts(const Floor& floor) {
  const std::vector<GearNeed>& needs = asked_.demand.needs;
  const Hours hours = floor.hours_for(asked_.builder);
  const SlotView nobody{gear_, builders_, kinds_, hours, fumes_};
  if (choose_gear(nobody, needs, {asked_.after, asked_.after + kInstant}, {})) return;
  for (std::size_t n = 0; n < needs.size(); ++n) {
    OwnsTooFew fact{.need = needs[n], .wanted = needs[n].count};
    for (const GearKind& kind : kinds_)
      if (good_enough(kind, needs[n])) fact.owned += floor.gear.stock(kind.id);
    add({.blocker = fact, .span = {asked_.after, end_}, .need = n});
  }
}

void WhyFacts::add_hours(const Floor& floor) {
  if (asked_.attended == SlotQuery::Hours::ignore) return;
  const Hours shop{*floor.zone, floor.shop->hours};
  const auto closed = [&](Instant begin, Instant end) {
    if (begin >= end) return;
    const bool away = !shop.open_spans({begin, end}).empty();
    add({.blocker = ClosedHours{{begin, end}, away ? asked_.builder : BuilderId{}},
         .span = {begin, end}});
  };
  Instant from = asked_.after;
  for (const Span& open :
       floor.hours_for(asked_.builder).open_spans({asked_.after, calendar_end_})) {
    closed(from, open.begin);
    from = open.end;
  }
  closed(from, calendar_end_);
}

// Of the builder, and of others at the bench.
void WhyFacts::add_work(const Floor& floor) {
  for (const Builder& b : floor.shop->builders) {
    const bool own = b.id == asked_.builder;
    if (!own && !asked_.bench) continue;
    for (const BusyWith& busy : floor.builders.within(b.id, {asked_.after, calendar_end_})) {
      const bool at_bench = floor.glue_ups.at(busy.glue_up).bench == asked_.bench;
      if (busy.glue_up == asked_.ignoring || (!own && !at_bench)) continue;
      const Instant until = busy.span.end;
      const Blocker fact = own ? Blocker{BuilderBusy{b.id, busy.glue_up, until}}
                               : Blocker{BenchBusy{asked_.bench, busy.glue_up, until}};
      of_work_[busy.glue_up].push_back(entries_.size());
      add({.blocker = fact, .span = busy.span, .at_work = b.id});
    }
  }
}

void WhyFacts::put_claims(Holder holder) {
  std::vector<Claim> claims;
  for (const Index i : of_holder_.at(holder)) {
    const Entry& e = entries_[i];
    if (e.kept) claims.insert(claims.end(), e.claims.begin(), e.claims.end());
  }
  gear_.put(holder, std::move(claims));
}

void WhyFacts::set(Index fact, bool kept) {
  Entry& entry = entries_[fact];
  if (entry.kept == kept) return;
  entry.kept = kept;
  if (const auto* held = std::get_if<HeldGear>(&entry.blocker)) {
    put_claims(held->held.holder);
  } else if (const auto* heat = std::get_if<BesideHeat>(&entry.blocker)) {
    if (!entry.claims.empty())
      put_claims(Holder::of(heat->with));
    else if (kept)
      fumes_[heat->with] = entry.span;
    else
      fumes_.erase(heat->with);
  } else if (entry.at_work) {
    const GlueUpId with = glue_up_of(entry.blocker);
    std::vector<Span> attended;
    for (const Index i : of_work_.at(with))
      if (entries_[i].kept) attended.push_back(entries_[i].span);
    builders_.put(entry.at_work, with, std::move(attended));
  } else if (std::holds_alternative<ClosedHours>(entry.blocker)) {
    hours_.reset();
  }
}

void WhyFacts::keep_only(const std::vector<Index>& kept) {
  std::vector<bool> wanted(entries_.size(), false);
  for (const Index i : kept) wanted[i] = true;
  for (Index i = 0; i < entries_.size(); ++i) set(i, wanted[i]);
}

SlotView WhyFacts::view() const {
  if (!hours_) {
    std::vector<Span> closed;
    for (const Entry& e : entries_)
      if (e.kept && std::holds_alternative<ClosedHours>(e.blocker)) closed.push_back(e.span);
    hours_ = open_but(closed, {asked_.after, calendar_end_});
  }
  // Whoever else is known to work here works at that bench.
  return {gear_, builders_, kinds_, *hours_, fumes_, [this](GlueUpId) { return asked_.bench; }};
}

SlotQuery WhyFacts::query() const {
  SlotQuery out = asked_;
  std::vector<bool> met(out.demand.needs.size(), false);
  for (const Entry& e : entries_) {
    if (e.kept) continue;
    if (std::holds_alternative<NotReadyYet>(e.blocker)) out.waits_for.reset();
    if (std::holds_alternative<PotGels>(e.blocker)) out.pot.reset();
    if (std::holds_alternative<SkinsFirst>(e.blocker)) out.open_time = SlotQuery::Open::ignore;
    if (std::holds_alternative<TooCold>(e.blocker))
      out.curing = std::make_shared<const Curing>(out.curing->without_floor());
    if (std::holds_alternative<OwnsTooFew>(e.blocker)) met[e.need] = true;
  }
  std::size_t n = 0;
  std::erase_if(out.demand.needs, [&](const GearNeed&) { return met[n++]; });
  return out;
}

std::optional<PhaseTimes> WhyFacts::earliest(Instant from) {
  SlotQuery asking = query();
  asking.after = from;
  while (asking.after < end_) {
    if (const auto slot = earliest_slot(view(), asking)) {
      const PhaseTimes& times = slot->times;
      return times.stage_begin < end_ ? std::optional{times} : std::nullopt;
    }
    // A search goes as far as its horizon; what is asked about may go further.
    asking.after = up_to_minute(asking.after) + kHorizon;
  }
  return std::nullopt;
}

bool WhyFacts::rules_out(const Entry& e, const PhaseTimes& t) const {
  const Span spreading{t.stage_begin, std::max(t.clamped_begin, t.stage_begin + kInstant)};
  const Span release{t.release_begin, std::max(t.release_end, t.release_begin + kInstant)};
  const Span fumes{t.open_begin, t.open_begin + asked_.demand.fumes};
  switch (rank(e.blocker)) {
    case Rank::earlier_step:
      return t.stage_begin < e.span.end;
    case Rank::attended:
      return e.span.overlaps(spreading) || e.span.overlaps(release);
    case Rank::pot:
      return t.clamped_begin > asked_.pot->until;
    case Rank::cold:
      return !asked_.curing->at(t.open_begin, t.clamped_begin);
    case Rank::skins:
      return asked_.curing->at(t.open_begin, t.clamped_begin)->open_limit < asked_.demand.assembly;
    case Rank::heat:
      return e.claims.empty() ? e.span.overlaps(t.held()) : any_overlaps(e.claims, fumes);
    case Rank::count:
      return true;  // there only where all that is owned is too little
    case Rank::holder:
      return any_overlaps(e.claims, t.held());  // together with others
  }
  CHECK(!"a rank outside the enumeration");
}

std::vector<WhyFacts::Index> WhyFacts::rule_out(const PhaseTimes& times) {
  std::vector<Index> against;
  std::optional<Rank> first;  // each rank is looked at where those before it allow the times
  for (const Rank at : kRanks) {
    for (Index i = 0; i < entries_.size(); ++i) {
      const Entry& e = entries_[i];
      if (!e.kept && rank(e.blocker) == at && rules_out(e, times)) against.push_back(i);
    }
    if (against.empty()) continue;
    first = at;
    break;
  }
  if (first != Rank::holder) {
    for (const Index i : against) set(i, true);
    return against;
  }
  // Holders one by one, who holds longest first, until too little is free.
  std::stable_sort(against.begin(), against.end(),
                   [&](Index a, Index b) { return entries_[a].span.end > entries_[b].span.end; });
  const std::vector<GearNeed> needs = query().demand.needs;
  for (std::size_t n = 0; n < against.size(); ++n) {
    set(against[n], true);
    if (choose_gear(view(), needs, times.held(), {})) continue;
    against.resize(n + 1);
    return against;
  }
  for (const Index i : against) set(i, false);
  return {};
}

std::vector<WhyFacts::Index> WhyFacts::by_preference(std::vector<Index> facts) const {
  const auto covers = [&](Index i) {
    return entries_[i].span.intersect({asked_.after, end_}).length();
  };
  const auto lasting = [&](Index i) {
    const Rank r = rank(entries_[i].blocker);
    return r == Rank::count || r == Rank::earlier_step || r == Rank::pot || r == Rank::cold ||
           r == Rank::skins;
  };
  std::stable_sort(facts.begin(), facts.end(), [&](Index a, Index b) {
    return std::pair{lasting(a), covers(a)} > std::pair{lasting(b), covers(b)};
  });
  return facts;
}

Blocker WhyFacts::told(Index fact, const std::vector<Index>& with) {
  const Blocker& blocker = entries_[fact].blocker;
  const bool cold = rank(blocker) == Rank::cold;
  if (!cold && rank(blocker) != Rank::skins) return blocker;
  std::vector<Index> others = with;
  std::erase(others, fact);
  keep_only(others);
  // Only it stands in the way of these starts: of the cold, the last such stretch; of a glue that skins, the first hour.
  Blocker out = blocker;
  for (auto times = earliest(asked_.after); times;) {
    const auto& curing = cold ? asked_.curing : query().curing;
    const auto lengths = curing->at(times->open_begin, times->clamped_begin);
    if (!cold) {
      CHECK(lengths);
      return SkinsFirst{asked_.curing->sheet().id, asked_.demand.assembly, lengths->open_limit,
                        asked_.curing->weather().air(times->open_begin)};
    }
    CHECK(!lengths);
    const TooCold& it = lengths.error();
    out = it;
    if (!it.until) break;
    times = earliest(std::max(*it.until - asked_.demand.stage, times->stage_begin + kInstant));
  }
  return out;
}

}  // namespace squeezeout
