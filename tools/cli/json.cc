#include "tools/cli/json.h"

#include "client/sync/overload.h"
#include "common/time/rfc3339.h"
#include "tools/cli/craft_json.h"
#include "tools/cli/fact_json.h"

namespace squeezeout::cli {
namespace {

Json seconds_json(Seconds s) { return s.count(); }

Json span_json(const words::Context& c, Span s) {
  return {{"begin", time_json(c, s.begin)}, {"end", time_json(c, s.end)}};
}

const char* bad_air_word(BadAir::What what) {
  switch (what) {
    case BadAir::What::celsius:
      return "celsius";
    case BadAir::What::humidity:
      return "humidity_percent";
    case BadAir::What::instant:
      return "at";
  }
  CHECK(!"bad air outside the enumeration");
}

Json weather_json(const words::Context& c, const GlueUp& g) {
  if (!g.weather) return nullptr;
  return {{"dwell_before_seconds", seconds_json(g.weather->dwell_before)},
          {"dwell_seconds", seconds_json(g.weather->dwell)},
          {"coldest_celsius", g.weather->coldest.value},
          {"moved_from", time_json(c, g.weather->moved_from)},
          {"because", g.weather->because ? Json(g.weather->because.value) : Json(nullptr)},
          {"says", words::weather(c, g)}};
}

Json unfit_json(const words::Context& c, const Unfit& u) {
  return std::visit(
      Overload{
          [&](const BelowFloor& b) {
            return Json{{"kind", "below_floor"},
                        {"glue", key_json(c.floor.sheet(b.sheet))},
                        {"wood_celsius", b.wood.value},
                        {"floor_celsius", b.floor.value}};
          },
          [&](const OpenTooShort& b) {
            return Json{{"kind", "open_too_short"},
                        {"glue", key_json(c.floor.sheet(b.sheet))},
                        {"assembly_seconds", seconds_json(b.assembly)},
                        {"open_seconds", seconds_json(b.open)}};
          },
          [&](const GlueNotInRecipe& b) {
            return Json{{"kind", "glue_not_in_recipe"}, {"glue", key_json(c.floor.sheet(b.sheet))}};
          },
          [&](const Unsuited& b) {
            return Json{{"kind", "unsuited"},
                        {"glue", key_json(c.floor.sheet(b.sheet))},
                        {"reasons", reasons_json(b.reasons)}};
          },
          [&](const StaleLot& b) {
            return Json{{"kind", "stale_lot"},
                        {"glue", key_json(c.floor.sheet(b.sheet))},
                        {"lot", b.lot.value},
                        {"since", time_json(c, b.since)}};
          }},
      u);
}

}  // namespace

Json time_json(const words::Context& c, Instant t) {
  if (t == kNever) return nullptr;
  return c.floor.zone ? rfc3339(t, *c.floor.zone) : rfc3339(t);
}

Json time_json(const words::Context& c, const std::optional<Instant>& t) {
  return t ? time_json(c, *t) : Json(nullptr);
}

Json times_json(const words::Context& c, const PhaseTimes& t) {
  return {{"stage_begin", time_json(c, t.stage_begin)},
          {"open_begin", time_json(c, t.open_begin)},
          {"clamped_begin", time_json(c, t.clamped_begin)},
          {"release_begin", time_json(c, t.release_begin)},
          {"release_end", time_json(c, t.release_end)},
          {"ready_at", time_json(c, t.ready_at)}};
}

Json held_json(const words::Context& c, const std::vector<Held>& held) {
  Json out = Json::array();
  for (const Held& h : held)
    out.push_back({{"gear", key_json(c.floor.kind(h.kind))}, {"count", h.count}});
  return out;
}

Json glue_up_json(const words::Context& c, const GlueUp& g) {
  return {{"glue_up", g.id.value},
          {"title", words::title(c, g)},
          {"progress", words::progress_word(g.progress)},
          {"phase", to_string(phase_at(g, c.now))},
          {"stands", words::phase(c, g)},
          {"recipe", key_json(c.floor.recipe(g.recipe))},
          {"build", key_json(c.floor.build(g.build))},
          {"step", g.step},
          {"builder", key_json(c.floor.builder(g.builder))},
          {"bench", key_json(c.floor.bench(g.bench))},
          {"glue", key_json(c.floor.sheet(g.sheet))},
          {"held", held_json(c, g.held)},
          {"times", times_json(c, g.times)},
          {"promised", times_json(c, g.promised)},
          {"clamps_on_by", time_json(c, clamps_on_by(g))},
          {"off_from", time_json(c, off_from(g))},
          {"ready_at", time_json(c, g.times.ready_at)},
          {"reserved_at", time_json(c, g.reserved_at)},
          {"started_at", time_json(c, g.started_at)},
          {"clamped_at", time_json(c, g.clamped_at)},
          {"off_at", time_json(c, g.off_at)},
          {"ended_at", time_json(c, g.ended_at)},
          {"stage_seconds", seconds_json(g.demand.stage)},
          {"assembly_seconds", seconds_json(g.demand.assembly)},
          {"open_limit_seconds", seconds_json(g.demand.open_limit)},
          {"dwell_seconds", seconds_json(g.demand.dwell)},
          {"release_seconds", seconds_json(g.demand.release)},
          {"wait_seconds", seconds_json(g.demand.wait)},
          {"waited_for_gear_seconds", seconds_json(g.waited_for_gear)},
          {"over_time", over_time(g, c.now)},
          {"off_early", g.off_early},
          {"outside_hours", g.outside_hours},
          {"note", g.note},
          {"lot", g.lot ? Json(g.lot.value) : Json(nullptr)},
          {"pot", g.pot ? Json(g.pot.value) : Json(nullptr)},
          {"reason", g.reason},
          {"weather", weather_json(c, g)},
          {"snag", g.snag == Snag::none ? Json(nullptr) : Json(words::snag(c, g))}};
}

Json quote_json(const words::Context& c, const Quote& q) {
  return {{"start", time_json(c, q.slot.times.stage_begin)},
          {"off_about", time_json(c, q.slot.times.release_begin)},
          {"ready_at", time_json(c, q.slot.times.ready_at)},
          {"glue", key_json(c.floor.sheet(q.sheet))},
          {"held", held_json(c, q.slot.held)},
          {"times", times_json(c, q.slot.times)},
          {"dwell_seconds", seconds_json(q.demand.dwell)},
          {"waited_for_gear_seconds", seconds_json(q.waited_for_gear)},
          {"hindrances", why_json(c, q.slot.why_not_earlier)}};
}

Json why_json(const words::Context& c, const std::vector<Hindrance>& why) {
  Json out = Json::array();
  for (const Hindrance& h : why) {
    Json one = fact_json(c, h.fact);
    one["starts"] = span_json(c, h.starts);
    one["words"] = words::fact(c, h.fact);
    out.push_back(std::move(one));
  }
  return out;
}

Json holder_json(const words::Context& c, const HeldBy& h) {
  const bool out_of_use = h.holder.what == Holder::What::outage;
  return {{out_of_use ? "outage" : "by", h.holder.id},
          {"count", h.count},
          {"from", time_json(c, h.span.begin)},
          {"until", out_of_use ? Json(nullptr) : time_json(c, h.span.end)},
          {"words", words::holder(c, h)}};
}

Json gear_json(const words::Context& c, const GearNow& g) {
  const GearKind* kind = c.floor.kind(g.kind);
  Json holders = Json::array();
  for (const HeldBy& h : g.holders) holders.push_back(holder_json(c, h));
  return {{"gear", key_json(kind)},
          {"name", kind ? kind->name : ""},
          {"class", kind ? to_string(kind->gear_class) : ""},
          {"stock", g.stock},
          {"free", g.free},
          {"held", g.held},
          {"broken", g.broken},
          {"more_at", time_json(c, g.more_at)},
          {"holders", holders}};
}

Json told_json(const words::Told& told) {
  return {{"what", told.what}, {"why", told.why}, {"next", told.next}};
}

Json refusal_json(const words::Context& c, const Refusal& refused) {
  return std::visit(
      Overload{
          [&](const NoSuch& r) {
            return Json{{"kind", "no_such"}, {"id", r.id}};
          },
          [&](const DoesNotFit& r) {
            Json next = nullptr;
            if (r.next) next = times_json(c, r.next->times);
            return Json{
                {"kind", "does_not_fit"}, {"hindrances", why_json(c, r.why)}, {"next_slot", next}};
          },
          [&](const NotPossible& r) { return unfit_json(c, r.why); },
          [&](const WrongProgress& r) {
            return Json{{"kind", "wrong_progress"}, {"progress", words::progress_word(r.is)}};
          },
          [&](const TooEarly& r) {
            return Json{{"kind", "too_early"}, {"from", time_json(c, r.from)}};
          },
          [&](const BadTime& r) {
            return Json{{"kind", "bad_time"},
                        {"given", time_json(c, r.given)},
                        {"least", time_json(c, r.least)},
                        {"most", time_json(c, r.most)}};
          },
          [&](const BadCount& r) {
            return Json{
                {"kind", "bad_count"}, {"given", r.given}, {"least", r.least}, {"most", r.most}};
          },
          [&](const AlreadyReserved& r) {
            return Json{{"kind", "already_reserved"}, {"by", r.glue_up.value}};
          },
          [&](const StepMissing& r) {
            return Json{{"kind", "step_missing"},
                        {"build", key_json(c.floor.build(r.build))},
                        {"step", r.step}};
          },
          [&](const BelowClaims& r) {
            Json holders = Json::array();
            for (const HeldBy& h : r.clashes) holders.push_back(holder_json(c, h));
            return Json{{"kind", "below_claims"},
                        {"gear", key_json(c.floor.kind(r.kind))},
                        {"holders", holders}};
          },
          [&](const NothingToUndo&) {
            return Json{{"kind", "nothing_to_undo"}};
          },
          [&](const BadShop& r) {
            Json mistakes = Json::array();
            for (const Mistake& m : r.mistakes)
              mistakes.push_back({{"where", m.where}, {"what", m.what}, {"mend", m.mend}});
            return Json{{"kind", "bad_shop"}, {"mistakes", mistakes}};
          },
          [&](const TooMany& r) {
            return Json{{"kind", "too_many"}, {"most", r.most}};
          },
          [&](const PotSpent& r) {
            return Json{
                {"kind", "pot_spent"}, {"pot", r.pot.value}, {"until", time_json(c, r.until)}};
          },
          [&](const PlanStale& r) {
            return Json{{"kind", "plan_stale"},
                        {"glue_up", r.glue_up.value},
                        {"hindrances", why_json(c, r.why)}};
          },
          [&](const BadAir& r) {
            Json out{
                {"kind", "bad_air"}, {"what", bad_air_word(r.what)}, {"at", time_json(c, r.at)}};
            const bool time = r.what == BadAir::What::instant;
            if (!time) out["given"] = r.given;
            out["least"] = time ? time_json(c, r.from) : Json(r.least);
            out["most"] = time ? time_json(c, r.to) : Json(r.most);
            return out;
          }},
      refused);
}

}  // namespace squeezeout::cli
