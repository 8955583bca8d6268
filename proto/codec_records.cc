// Glue-ups, outages and events, to messages and back.
#include "proto/codec_parts.h"
#include "proto/shop_convert.h"
#include "wire.pb.h"

namespace squeezeout {
namespace {

v1::Demand to_wire(const Demand& demand) {
  v1::Demand m;
  m.set_stage_seconds(demand.stage.count());
  m.set_assembly_seconds(demand.assembly.count());
  m.set_dwell_seconds(demand.dwell.count());
  m.set_release_seconds(demand.release.count());
  m.set_wait_seconds(demand.wait.count());
  m.set_open_limit_seconds(demand.open_limit.count());
  for (const GearNeed& need : demand.needs) *m.add_need() = to_wire(need);
  return m;
}

Demand from_wire(const At& at, const v1::Demand& m) {
  Demand demand{.stage = length(at("stage_seconds"), m.stage_seconds()),
                .assembly = length(at("assembly_seconds"), m.assembly_seconds()),
                .dwell = length(at("dwell_seconds"), m.dwell_seconds()),
                .release = length(at("release_seconds"), m.release_seconds()),
                .wait = length(at("wait_seconds"), m.wait_seconds()),
                .open_limit = length(at("open_limit_seconds"), m.open_limit_seconds()),
                .needs = {}};
  for (int i = 0; i < m.need_size(); ++i)
    demand.needs.push_back(from_wire(at("need", i), m.need(i)));
  return demand;
}

}  // namespace

v1::PhaseTimes to_wire(const PhaseTimes& times) {
  v1::PhaseTimes m;
  m.set_stage_begin(seconds_of(times.stage_begin));
  m.set_open_begin(seconds_of(times.open_begin));
  m.set_clamped_begin(seconds_of(times.clamped_begin));
  m.set_release_begin(seconds_of(times.release_begin));
  m.set_release_end(seconds_of(times.release_end));
  m.set_ready_at(seconds_of(times.ready_at));
  return m;
}

PhaseTimes from_wire(const At& at, const v1::PhaseTimes& m) {
  return {.stage_begin = instant(at("stage_begin"), m.stage_begin()),
          .open_begin = instant(at("open_begin"), m.open_begin()),
          .clamped_begin = instant(at("clamped_begin"), m.clamped_begin()),
          .release_begin = instant(at("release_begin"), m.release_begin()),
          .release_end = instant(at("release_end"), m.release_end()),
          .ready_at = instant(at("ready_at"), m.ready_at())};
}

v1::Held to_wire(const Held& held) {
  v1::Held m;
  m.set_kind(held.kind.value);
  m.set_count(held.count);
  return m;
}

Held from_wire(const At& at, const v1::Held& m) {
  return {.kind = {m.kind()}, .count = number(at("count"), m.count(), 0, kMaxCount)};
}

v1::GlueUp to_wire(const GlueUp& g) {
  v1::GlueUp m;
  m.set_id(g.id.value);
  m.set_recipe(g.recipe.value);
  m.set_build(g.build.value);
  m.set_step(g.step);
  m.set_builder(g.builder.value);
  m.set_bench(g.bench.value);
  m.set_sheet(g.sheet.value);
  m.set_progress(1 + static_cast<std::uint32_t>(g.progress));
  *m.mutable_demand() = to_wire(g.demand);
  for (const Held& held : g.held) *m.add_held() = to_wire(held);
  *m.mutable_times() = to_wire(g.times);
  *m.mutable_promised() = to_wire(g.promised);
  m.set_reserved_at(seconds_of(g.reserved_at));
  m.set_waited_for_gear_seconds(g.waited_for_gear.count());
  if (g.started_at) m.set_started_at(seconds_of(*g.started_at));
  if (g.clamped_at) m.set_clamped_at(seconds_of(*g.clamped_at));
  if (g.off_at) m.set_off_at(seconds_of(*g.off_at));
  if (g.ended_at) m.set_ended_at(seconds_of(*g.ended_at));
  m.set_off_early(g.off_early);
  m.set_outside_hours(g.outside_hours);
  m.set_overruns(g.overruns);
  m.set_snag(static_cast<std::uint32_t>(g.snag));
  m.set_snag_by(g.snag_by.value);
  m.set_pressed_at(seconds_of(g.pressed_at));
  m.set_note(g.note);
  return m;
}

GlueUp from_wire(const At& at, const v1::GlueUp& m) {
  GlueUp g{.id = {m.id()},
           .recipe = {m.recipe()},
           .build = {m.build()},
           .step = number(at("step"), m.step(), 0, kMaxStep),
           .builder = {m.builder()},
           .bench = {m.bench()},
           .sheet = {m.sheet()},
           .progress = one_of<Progress>(at("progress"), m.progress(), kProgresses),
           .demand = from_wire(at("demand"), m.demand()),
           .held = {},
           .times = from_wire(at("times"), m.times()),
           .promised = from_wire(at("promised"), m.promised()),
           .reserved_at = instant(at("reserved_at"), m.reserved_at()),
           .pressed_at = instant(at("pressed_at"), m.pressed_at()),
           .waited_for_gear = length(at("waited_for_gear_seconds"), m.waited_for_gear_seconds()),
           .started_at = {},
           .clamped_at = {},
           .off_at = {},
           .ended_at = {},
           .off_early = m.off_early(),
           .outside_hours = m.outside_hours(),
           .overruns = number(at("overruns"), m.overruns(), 0, std::numeric_limits<int>::max()),
           .snag = one_of<Snag>(at("snag"), std::int64_t{1} + m.snag(), kSnags),
           .snag_by = {m.snag_by()},
           .note = text(at("note"), m.note())};
  if (!g.id) at("id").wrong("is 0", "number glue-ups from 1");
  for (int i = 0; i < m.held_size(); ++i) g.held.push_back(from_wire(at("held", i), m.held(i)));
  if (m.has_started_at()) g.started_at = instant(at("started_at"), m.started_at());
  if (m.has_clamped_at()) g.clamped_at = instant(at("clamped_at"), m.clamped_at());
  if (m.has_off_at()) g.off_at = instant(at("off_at"), m.off_at());
  if (m.has_ended_at()) g.ended_at = instant(at("ended_at"), m.ended_at());
  return g;
}

v1::Outage to_wire(const Outage& outage) {
  v1::Outage m;
  m.set_id(outage.id.value);
  m.set_kind(outage.kind.value);
  m.set_count(outage.count);
  m.set_begin(seconds_of(outage.span.begin));
  m.set_end(seconds_of(outage.span.end));
  m.set_reason(outage.reason);
  return m;
}

Outage from_wire(const At& at, const v1::Outage& m) {
  if (m.id() == 0) at("id").wrong("is 0", "number outages from 1");
  return {.id = {m.id()},
          .kind = {m.kind()},
          .count = number(at("count"), m.count(), 0, kMaxCount),
          .span = {instant(at("begin"), m.begin()), instant(at("end"), m.end())},
          .reason = text(at("reason"), m.reason())};
}

v1::ClimateRead to_wire(const ClimateRead& climate) {
  v1::ClimateRead m;
  m.set_at(seconds_of(climate.at));
  m.set_celsius(climate.air.value);
  m.set_humidity_percent(climate.humidity.value);
  return m;
}

ClimateRead from_wire(const At& at, const v1::ClimateRead& m) {
  return {.at = instant(at("at"), m.at()),
          .air = {measure(at("celsius"), m.celsius(), kColdest.value, kHottest.value)},
          .humidity = {measure(at("humidity_percent"), m.humidity_percent(), 0, 100)}};
}

v1::StockSet to_wire(const StockSet& stock) {
  v1::StockSet m;
  m.set_kind(stock.kind.value);
  m.set_count(stock.count);
  m.set_at(seconds_of(stock.at));
  return m;
}

StockSet from_wire(const At& at, const v1::StockSet& m) {
  return {.kind = {m.kind()},
          .count = number(at("count"), m.count(), 0, kMaxCount),
          .at = instant(at("at"), m.at())};
}

v1::Events to_wire(const std::vector<Event>& events) {
  v1::Events m;
  for (const Event& event : events) {
    v1::Event* e = m.add_event();
    if (const auto* loaded = std::get_if<ShopLoaded>(&event)) {
      *e->mutable_shop_loaded()->mutable_shop() = to_wire(loaded->shop);
    }
    if (const auto* changed = std::get_if<GlueUpChanged>(&event)) {
      e->mutable_glue_up()->set_change(1 + static_cast<std::uint32_t>(changed->what));
      *e->mutable_glue_up()->mutable_after() = to_wire(changed->after);
    }
    if (const auto* outage = std::get_if<OutageChanged>(&event))
      *e->mutable_outage() = to_wire(outage->after);
    if (const auto* stock = std::get_if<StockSet>(&event)) *e->mutable_stock() = to_wire(*stock);
    if (const auto* climate = std::get_if<ClimateRead>(&event))
      *e->mutable_climate() = to_wire(*climate);
  }
  return m;
}

std::vector<Event> from_wire(const At& at, const v1::Events& m) {
  std::vector<Event> events;
  for (int i = 0; i < m.event_size(); ++i) {
    const At here = at("event", i);
    const v1::Event& e = m.event(i);
    switch (e.what_case()) {
      case v1::Event::kShopLoaded: {
        const At loaded = here("shop_loaded");
        events.push_back(
            ShopLoaded{from_wire(loaded("shop"), e.shop_loaded().shop(), Ids::as_given)});
        break;
      }
      case v1::Event::kGlueUp: {
        const At changed = here("glue_up");
        events.push_back(
            GlueUpChanged{one_of<Change>(changed("change"), e.glue_up().change(), kChanges),
                          from_wire(changed("after"), e.glue_up().after())});
        break;
      }
      case v1::Event::kOutage:
        events.push_back(OutageChanged{from_wire(here("outage"), e.outage())});
        break;
      case v1::Event::kStock:
        events.push_back(from_wire(here("stock"), e.stock()));
        break;
      case v1::Event::kClimate:
        events.push_back(from_wire(here("climate"), e.climate()));
        break;
      case v1::Event::WHAT_NOT_SET:
        here.wrong("is an event that this program does not know", "update this program",
                   ErrorCode::unknown);
    }
  }
  return events;
}

}  // namespace squeezeout
