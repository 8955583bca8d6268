#include "common/floor/decide.h"

#include <algorithm>

#include "common/floor/decide_parts.h"
#include "common/floor/mend.h"
#include "common/floor/reload.h"
#include "common/floor/weather.h"

namespace squeezeout {
namespace {

using Answer = Decided;

// Decides one command. Members are what every case needs; each `on` is one command's rule.
class Decider {
 public:
  Decider(const Floor& floor, Instant at) : floor_(floor), at_(at) {}

  Answer on(const LoadShop& c) const { return reload(floor_, c.shop, at_); }

  Answer on(const Reserve& c) const {
    if (floor_.live_count >= kMaxLiveGlueUps)
      return no(TooMany{Thing::glue_up, static_cast<int>(kMaxLiveGlueUps)});
    auto quote = earliest(floor_, c, at_);
    if (!quote) return no(quote.error());
    GlueUp g;
    g.id = GlueUpId{floor_.last_glue_up + 1};
    g.recipe = c.recipe;
    g.build = c.build;
    g.step = c.step;
    g.builder = c.builder;
    g.bench = c.bench ? c.bench : floor_.builder(c.builder)->bench;
    g.outside_hours = c.hours == Override::knowingly;
    g.reserved_at = at_;
    g.wanted_from = std::max(c.after, at_);
    g.lot = c.lot;
    g.reason = c.reason;
    take(g, std::move(*quote));
    return done(Change::reserved, std::move(g), Snag::none);
  }

  Answer on(const Move& c) const {
    const auto found = find(c.glue_up, {Progress::reserved, Progress::displaced});
    if (!found) return no(found.error());
    GlueUp g = **found;
    auto query = query_again(floor_, g, at_, at_);
    if (!query) return no(query.error());
    if (c.hours == Override::knowingly) query->attended = SlotQuery::Hours::ignore;
    auto quote = quote_at(floor_, *query, g.sheet, c.start, at_);
    if (!quote) return no(quote.error());
    g.outside_hours = c.hours == Override::knowingly;
    take(g, std::move(*quote));
    return done(Change::moved, std::move(g), Snag::none);
  }

  Answer on(const Cancel& c) const {
    const auto found = find(c.glue_up, {Progress::reserved, Progress::displaced});
    if (!found) return no(found.error());
    GlueUp g = **found;
    g.progress = Progress::cancelled;
    g.ended_at = at_;
    return done(Change::cancelled, std::move(g), Snag::none);
  }

  // The glue is wet from now on. Early or late, the whole chain moves to now. Its gear must be free there, the spreading within
  // hours, the build's earlier step ready, and the builder's hands free of other wet glue; knowingly, only the gear of now counts.
  Answer on(const Start& c) const {
    const auto found = find(c.glue_up, {Progress::reserved, Progress::displaced});
    if (!found) return no(found.error());
    GlueUp g = **found;
    const bool knowingly = c.over == Override::knowingly;
    const Pot* pot = floor_.pot(c.pot);
    if (c.pot && (!pot || pot->sheet != g.sheet)) return no(NoSuch{Thing::pot, c.pot.value});
    if (pot && pot->lot) g.lot = pot->lot;  // its age counts
    auto query = query_again(floor_, g, at_, at_);
    if (!query) return no(query.error());
    if (query->waits_for && query->waits_for->until > at_ && !knowingly) {
      return no(DoesNotFit{{{{at_, query->waits_for->until}, *query->waits_for}}, std::nullopt});
    }
    const Hours hours = floor_.hours_for(g.builder);
    g.demand = query->demand;
    const auto open = hours.open_at(at_);
    const bool in_hours = open && open->end >= at_ + g.demand.assembly;
    if (!in_hours && !knowingly && !g.outside_hours) {
      const Instant next = hours.next_start(g.demand.assembly, at_).value_or(kNever);
      return no(DoesNotFit{{{{at_, next}, ShopClosed{next}}}, std::nullopt});
    }
    if (const GlueUp* wet = wet_now(g.builder); wet && !knowingly) {
      const Instant until = wet->times.clamped_begin;
      return no(DoesNotFit{{{{at_, until}, BuilderBusy{g.builder, wet->id, until}}}, std::nullopt});
    }
    g.outside_hours = g.outside_hours || !in_hours;
    const auto open_time = knowingly ? SlotQuery::Open::ignore : query->open_time;
    if (auto refused = spread_now(g, *query, pot, open_time)) return no(std::move(*refused));

    const bool laid_out = g.progress == Progress::reserved && g.times.stage_begin <= at_;
    if (!laid_out) g.times.stage_begin = at_;
    g.times.open_begin = at_;
    g.times.clamped_begin = at_ + g.demand.assembly;
    plan_release(floor_, g);

    const SlotView view{floor_.gear, floor_.builders, floor_.shop->gear, hours, floor_.fumes};
    if (!laid_out || !still_free(g)) {
      // Other gear is claimed from now on, not from when the first was laid out.
      g.times.stage_begin = at_;
      auto gear = choose_gear(view, g.demand.needs, g.times.held(), g.id);
      if (!gear && knowingly)
        gear = choose_gear(view, g.demand.needs, {at_, at_ + Seconds{1}}, g.id);
      if (!gear) {
        SlotQuery again = *query;
        again.demand.stage = Seconds{0};  // the gear is laid out already
        if (knowingly || g.outside_hours) again.attended = SlotQuery::Hours::ignore;
        auto quote = quote_at(floor_, again, g.sheet, at_, at_);
        if (!quote) return no(quote.error());
        gear = std::move(quote->slot.held);
      }
      g.held = std::move(*gear);
    }
    if (g.progress == Progress::displaced) g.promised = g.times;
    g.progress = Progress::open;
    g.started_at = at_;
    g.snag = Snag::none;
    g.snag_by = {};
    g.overruns = 0;
    return done(Change::started, std::move(g), Snag::started_over);
  }

  Answer on(const ClampsOn& c) const {
    const auto found = find(c.glue_up, {Progress::open});
    if (!found) return no(found.error());
    GlueUp g = **found;
    if (auto bad = bad_time(c.at, *g.started_at)) return no(*bad);
    g.progress = Progress::clamped;
    g.clamped_at = g.times.clamped_begin = c.at;
    g.overruns = 0;
    cure_from(g);
    plan_release(floor_, g);
    if (g.times.release_end <= at_) hold_on(floor_, g, at_);
    return done(Change::clamps_on, std::move(g), Snag::other_overran);
  }

  Answer on(const ClampsOff& c) const {
    const auto found = find(c.glue_up, {Progress::clamped});
    if (!found) return no(found.error());
    GlueUp g = **found;
    if (auto bad = bad_time(c.at, *g.clamped_at)) return no(*bad);
    if (c.at < off_from(g)) {
      if (c.over == Override::no) return no(TooEarly{g.id, off_from(g)});
      g.off_early = true;
    }
    g.off_at = c.at;
    g.times.release_begin = std::clamp(g.times.release_begin, g.times.clamped_begin, c.at);
    g.times.release_end = c.at;
    g.times.ready_at = std::max(c.at, g.times.clamped_begin + g.demand.wait);
    g.progress = Progress::waiting;
    const Recipe* recipe = floor_.recipe(g.recipe);
    if (recipe && recipe->finish.empty() && g.times.ready_at <= at_) {
      g.progress = Progress::done;
      g.ended_at = g.times.ready_at;
    }
    return done(Change::clamps_off, std::move(g), Snag::none);
  }

  Answer on(const Scraped& c) const {
    const auto found = find(c.glue_up, {Progress::waiting});
    if (!found) return no(found.error());
    GlueUp g = **found;
    if (auto bad = bad_time(c.at, *g.off_at)) return no(*bad);
    if (c.at < g.times.ready_at) {
      if (c.over == Override::no) return no(TooEarly{g.id, g.times.ready_at});
      g.off_early = true;
      g.times.ready_at = c.at;
    }
    g.progress = Progress::done;
    g.ended_at = c.at;
    return done(Change::scraped, std::move(g), Snag::none);
  }

  Answer on(const Late& c) const {
    constexpr Seconds kMost = std::chrono::hours{24};
    if (c.by <= Seconds{0} || c.by > kMost) {
      return no(
          BadCount{static_cast<int>(c.by.count() / 60), 1, static_cast<int>(kMost.count() / 60)});
    }
    const auto found = find(c.glue_up, {Progress::reserved, Progress::open, Progress::clamped});
    if (!found) return no(found.error());
    GlueUp g = **found;
    if (g.progress == Progress::reserved) {
      return on(Move{g.id, std::max(g.times.stage_begin, at_) + c.by,
                     g.outside_hours ? Override::knowingly : Override::no});
    }
    if (g.progress == Progress::open) {
      g.times.clamped_begin = std::max(g.times.clamped_begin, at_) + c.by;
      plan_release(floor_, g);
    } else {
      plan_release(floor_, g, std::max(g.times.release_begin, at_) + c.by);
      g.overruns = 0;
    }
    const Instant longest = g.times.stage_begin + kMaxClaim;
    if (g.times.release_end >= longest) return no(BadTime{at_ + c.by, at_, longest});
    return done(Change::late, std::move(g), Snag::other_overran);
  }

  Answer on(const Spoiled& c) const {
    const auto found = find(c.glue_up, {Progress::open, Progress::clamped, Progress::waiting});
    if (!found) return no(found.error());
    GlueUp g = **found;
    if (auto bad = bad_time(c.at, *g.started_at)) return no(*bad);
    if (g.clamped_at && c.at < *g.clamped_at) return no(BadTime{c.at, *g.clamped_at, at_});
    g.progress = Progress::spoiled;
    g.ended_at = c.at;
    g.note = c.note;
    g.times.clamped_begin = std::min(g.times.clamped_begin, c.at);
    if (!g.off_at) g.times.release_end = g.times.release_begin = g.times.ready_at = c.at;
    return done(Change::spoiled, std::move(g), Snag::none);
  }

  // A record of before that a plan had made is no longer that plan's: taking the plan back would bring the undone press.
  Answer on(const Undo& c) const {
    const GlueUp* now = floor_.glue_up(c.glue_up);
    if (!now) return no(NoSuch{Thing::glue_up, c.glue_up.value});
    const auto before = floor_.before.find(c.glue_up);
    if (at_ - now->pressed_at > kUndoWindow) return no(NothingToUndo{c.glue_up});
    if (before == floor_.before.end()) {
      if (now->progress != Progress::reserved) return no(NothingToUndo{c.glue_up});
      GlueUp g = *now;  // the only press on it was Reserve
      g.progress = Progress::cancelled;
      g.ended_at = at_;
      return done(Change::undone, std::move(g), Snag::none);
    }
    GlueUp g = before->second;
    g.pressed_at = at_;
    g.plan = {};
    if (in_chain_of_another(g)) return no(AlreadyReserved{floor_.chain.at(g.build).at(g.step)});
    for (const Held& h : g.held) {
      if (!floor_.kind(h.kind)) return no(NoSuch{Thing::gear_kind, h.kind.value});
    }
    // A reserved place may have passed or been lost since. (Taking a Start back brings one of just now.)
    if (g.progress == Progress::reserved && now->progress != Progress::open) {
      if (g.times.open_begin + kStartGrace <= at_)
        return no(BadTime{g.times.open_begin, at_ - kStartGrace, kNever});
      const auto query = query_again(floor_, g, at_, at_);
      if (!query) return no(query.error());
      if (query->waits_for && query->waits_for->until > g.times.stage_begin) {
        return no(DoesNotFit{{{g.times.held(), *query->waits_for}}, std::nullopt});
      }
    }
    if (running(g) && g.times.release_end <= at_) hold_on(floor_, g, at_);
    auto events = change(floor_, Change::undone, g, Snag::other_overran);
    // Bringing it back may take gear that somebody has taken since: nobody's promise is broken for an undo.
    if (!events) return no(taken_since(floor_, g));
    if (events->size() > 1) return no(would_displace(g, *events));
    return std::move(*events);
  }

  Answer on(const GearBroken& c) const { return answer_to(floor_, c, at_); }
  Answer on(const GearMended& c) const { return answer_to(floor_, c, at_); }
  Answer on(const SetStock& c) const { return answer_to(floor_, c, at_); }
  Answer on(const ClimateReading& c) const { return answer_to(floor_, c, at_); }
  Answer on(const ReadClimate& c) const { return answer_to(floor_, c, at_); }
  Answer on(const SetForecast& c) const { return answer_to(floor_, c, at_); }
  Answer on(const PutLot& c) const { return answer_to(floor_, c, at_); }
  Answer on(const MixPot& c) const { return answer_to(floor_, c, at_); }
  Answer on(const AdoptPlan& c) const { return answer_to(floor_, c, at_); }
  Answer on(const UndoPlan& c) const { return answer_to(floor_, c, at_); }
  Answer on(const Tick&) const { return std::vector<Event>{}; }

 private:
  Result<const GlueUp*, Refusal> find(GlueUpId id, std::initializer_list<Progress> wanted) const {
    const GlueUp* g = floor_.glue_up(id);
    if (!g) return no(NoSuch{Thing::glue_up, id.value});
    if (std::find(wanted.begin(), wanted.end(), g->progress) == wanted.end())
      return no(WrongProgress{id, g->progress});
    return g;
  }

  std::optional<Refusal> bad_time(Instant given, Instant least) const {
    least = std::max(least, at_ - kFactBack);
    if (given >= least && given <= at_) return std::nullopt;
    return BadTime{given, least, at_};
  }

  // The lengths of this hour, and what stands in the way of spreading now: too cold, a glue that skins first, a pot that sets,
  // a hot form beside solvent.
  std::optional<Refusal> spread_now(GlueUp& g, const SlotQuery& query, const Pot* pot,
                                    SlotQuery::Open open_time) const {
    PhaseTimes t;
    t.stage_begin = t.open_begin = at_;
    t.clamped_begin = at_ + g.demand.assembly;
    auto demand = demand_at(query, t);
    if (!demand) {
      const TooCold& cold = demand.error();
      return DoesNotFit{{{{at_, cold.until.value_or(kNever)}, cold}}, std::nullopt};
    }
    g.demand = std::move(*demand);
    const bool no_limit = g.demand.open_limit == Seconds{0};
    if (!no_limit && g.demand.assembly > g.demand.open_limit && open_time == SlotQuery::Open::keep)
      return NotPossible{OpenTooShort{g.sheet, g.demand.assembly, g.demand.open_limit}};
    if (pot) {
      if (pot->until < t.clamped_begin) return PotSpent{pot->id, pot->until};
      g.demand.open_limit = std::min(g.demand.open_limit, pot->until - at_);
    }
    g.pot = pot ? pot->id : PotId{};
    t.release_begin = t.clamped_begin + g.demand.dwell;
    t.release_end = t.release_begin + g.demand.release;
    const Hours hours = floor_.hours_for(g.builder);
    const SlotView view{floor_.gear, floor_.builders, floor_.shop->gear, hours, floor_.fumes};
    for (const BesideHeat& heat : beside_heat(view, query, t)) {
      // Only what runs stands in the way: what is planned is refused in its turn.
      if (running(floor_.glue_ups.at(heat.with)))
        return DoesNotFit{{{{at_, heat.until}, heat}}, std::nullopt};
    }
    return std::nullopt;
  }

  // Clamps are on: dwell and wait over the temperature that the joint will see.
  void cure_from(GlueUp& g) const {
    const Recipe* recipe = floor_.recipe(g.recipe);
    const AdhesiveSheet* sheet = floor_.sheet(g.sheet);
    if (!recipe || !sheet) return;
    const Curing curing{*recipe, *sheet, std::make_shared<Climate>(weather_of(floor_, at_))};
    const Curing::Lengths lengths = curing.running(g.times.open_begin, g.times.clamped_begin);
    g.demand.dwell = lengths.dwell;
    g.demand.wait = lengths.wait;
  }

  // The gear that is promised to it is free for it over the times as they are now.
  bool still_free(const GlueUp& g) const {
    return std::all_of(g.held.begin(), g.held.end(), [&](const Held& h) {
      return floor_.gear.free_over(h.kind, g.times.held(), Holder::of(g.id)) >= h.count;
    });
  }

  bool in_chain_of_another(const GlueUp& g) const {
    if (g.progress == Progress::cancelled || g.progress == Progress::spoiled) return false;
    const GlueUp* in_chain = floor_.step_of(g.build, g.step);
    return in_chain && in_chain->id != g.id;
  }

  // The builder's own glue-up whose glue is wet at this moment.
  const GlueUp* wet_now(BuilderId builder) const {
    for (const auto& [when, id] : floor_.due) {
      const GlueUp& g = floor_.glue_ups.at(id);
      if (g.builder == builder && g.progress == Progress::open) return &g;
    }
    return nullptr;
  }

  // What an undo would take away from others: gear, or the place of a later step.
  Refusal would_displace(const GlueUp& g, const std::vector<Event>& events) const {
    DoesNotFit out = taken_since(floor_, g);
    for (const Event& e : events) {
      const auto* c = std::get_if<GlueUpChanged>(&e);
      if (c && c->after.id != g.id && c->after.snag == Snag::earlier_step) {
        out.why.push_back({c->after.times.held(), NotReadyYet{g.id, g.times.ready_at}});
      }
    }
    return out;
  }

  Answer done(Change what, GlueUp g, Snag snag_of_others) const {
    g.pressed_at = at_;
    g.weather.reset();  // who presses has read it
    g.plan = {};
    auto events = change(floor_, what, g, snag_of_others);
    if (!events) return no(taken_since(floor_, g));
    return std::move(*events);
  }

  const Floor& floor_;
  const Instant at_;
};

}  // namespace

void take(GlueUp& g, Quote quote) {
  g.progress = Progress::reserved;
  g.sheet = quote.sheet;
  g.pot = quote.pot;
  g.demand = std::move(quote.demand);
  g.held = std::move(quote.slot.held);
  g.times = g.promised = quote.slot.times;
  g.waited_for_gear = quote.waited_for_gear;
  g.snag = Snag::none;
  g.snag_by = {};
}

DoesNotFit taken_since(const Floor& floor, const GlueUp& g) {
  DoesNotFit out;
  for (const Claim& c : claims_of(g)) {
    const int free = floor.gear.free_over(c.kind, c.span, Holder::of(g.id));
    if (free >= c.count) continue;
    GearShort s{
        .kinds = {c.kind}, .wanted = c.count, .free = free, .owned = floor.gear.stock(c.kind)};
    if (const GearKind* k = floor.kind(c.kind)) s.need.gear_class = k->gear_class;
    s.need.count = c.count;
    constexpr std::size_t kTold = 16;
    for (const HeldBy& h : floor.gear.holders(c.kind, c.span, kTold)) {
      if (h.holder != Holder::of(g.id)) s.holders.push_back(h);
    }
    out.why.push_back({c.span, std::move(s)});
  }
  return out;
}

Result<std::vector<Event>, Refusal> decide(const Floor& floor, const Stamped& command) {
  const Decider decider{floor, command.at};
  if (!floor.shop && !std::holds_alternative<LoadShop>(command.body) &&
      !std::holds_alternative<Tick>(command.body)) {
    return no(NoSuch{Thing::shop, 0});
  }
  return std::visit([&](const auto& body) { return decider.on(body); }, command.body);
}

}  // namespace squeezeout
