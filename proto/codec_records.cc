// Glue-ups, outages, air, lots, pots and plans, to messages and back.
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
  m.set_fumes_seconds(demand.fumes.count());
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
                .fumes = length(at("fumes_seconds"), m.fumes_seconds()),
                .needs = {}};
  for (int i = 0; i < m.need_size(); ++i)
    demand.needs.push_back(from_wire(at("need", i), m.need(i)));
  return demand;
}

v1::WeatherNote to_wire(const WeatherNote& note) {
  v1::WeatherNote m;
  m.set_dwell_before_seconds(note.dwell_before.count());
  m.set_dwell_seconds(note.dwell.count());
  m.set_coldest_celsius(note.coldest.value);
  if (note.moved_from) m.set_moved_from(seconds_of(*note.moved_from));
  m.set_because(note.because.value);
  return m;
}

WeatherNote from_wire(const At& at, const v1::WeatherNote& m) {
  WeatherNote note{.dwell_before = length(at("dwell_before_seconds"), m.dwell_before_seconds()),
                   .dwell = length(at("dwell_seconds"), m.dwell_seconds()),
                   .coldest = {measure(at("coldest_celsius"), m.coldest_celsius(), kColdest.value,
                                       kHottest.value)},
                   .moved_from = {},
                   .because = {m.because()}};
  if (m.has_moved_from()) note.moved_from = instant(at("moved_from"), m.moved_from());
  return note;
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
  m.set_lot(g.lot.value);
  m.set_pot(g.pot.value);
  m.set_reason(g.reason);
  if (g.weather) *m.mutable_weather() = to_wire(*g.weather);
  m.set_plan(g.plan.value);
  m.set_wanted_from(seconds_of(g.wanted_from));
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
           .lot = {m.lot()},
           .pot = {m.pot()},
           .plan = {m.plan()},
           .progress = one_of<Progress>(at("progress"), m.progress(), kProgresses),
           .demand = from_wire(at("demand"), m.demand()),
           .held = {},
           .times = from_wire(at("times"), m.times()),
           .promised = from_wire(at("promised"), m.promised()),
           .reserved_at = instant(at("reserved_at"), m.reserved_at()),
           .wanted_from = m.has_wanted_from() ? instant(at("wanted_from"), m.wanted_from())
                                              : instant(at("reserved_at"), m.reserved_at()),
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
           .note = text(at("note"), m.note()),
           .reason = text(at("reason"), m.reason()),
           .weather = {}};
  if (!g.id) at("id").wrong("is 0", "number glue-ups from 1");
  for (int i = 0; i < m.held_size(); ++i) g.held.push_back(from_wire(at("held", i), m.held(i)));
  if (m.has_started_at()) g.started_at = instant(at("started_at"), m.started_at());
  if (m.has_clamped_at()) g.clamped_at = instant(at("clamped_at"), m.clamped_at());
  if (m.has_off_at()) g.off_at = instant(at("off_at"), m.off_at());
  if (m.has_ended_at()) g.ended_at = instant(at("ended_at"), m.ended_at());
  if (m.has_weather()) g.weather = from_wire(at("weather"), m.weather());
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

AirPointList to_wire(const std::vector<AirPoint>& points) {
  AirPointList list;
  for (const AirPoint& point : points)
    *list.Add() = to_wire(ClimateRead{point.at, point.air, point.humidity});
  return list;
}

std::vector<AirPoint> from_wire(const At& message, std::string_view field,
                                const AirPointList& list) {
  std::vector<AirPoint> points;
  if (!few_enough(message(field), list.size(), static_cast<int>(kMaxAirPoints))) return points;
  for (int i = 0; i < list.size(); ++i) {
    const At at = message(field, i);
    const ClimateRead read = from_wire(at, list[i]);
    if (!points.empty() && read.at <= points.back().at)
      at("at").wrong("is not later than the point before", "let instants rise");
    points.push_back({read.at, read.air, read.humidity});
  }
  return points;
}

v1::Lot to_wire(const Lot& lot) {
  v1::Lot m;
  m.set_id(lot.id.value);
  m.set_sheet(lot.sheet.value);
  m.set_label(lot.label);
  if (lot.made) m.set_made(seconds_of(*lot.made));
  if (lot.opened) m.set_opened(seconds_of(*lot.opened));
  if (lot.expires) m.set_expires(seconds_of(*lot.expires));
  m.set_stored(1 + static_cast<std::uint32_t>(lot.stored));
  m.set_used_up(lot.used_up);
  return m;
}

Lot from_wire(const At& at, const v1::Lot& m) {
  constexpr int kStored = 2;
  Lot lot{.id = {m.id()},
          .sheet = {m.sheet()},
          .label = text(at("label"), m.label()),
          .made = {},
          .opened = {},
          .expires = {},
          .stored = one_of<Stored>(at("stored"), m.stored(), kStored),
          .used_up = m.used_up()};
  if (m.has_made()) lot.made = instant(at("made"), m.made());
  if (m.has_opened()) lot.opened = instant(at("opened"), m.opened());
  if (m.has_expires()) lot.expires = instant(at("expires"), m.expires());
  return lot;
}

v1::Pot to_wire(const Pot& pot) {
  v1::Pot m;
  m.set_id(pot.id.value);
  m.set_sheet(pot.sheet.value);
  m.set_lot(pot.lot.value);
  m.set_bench(pot.bench.value);
  m.set_mixed_at(seconds_of(pot.mixed_at));
  m.set_until(seconds_of(pot.until));
  return m;
}

Pot from_wire(const At& at, const v1::Pot& m) {
  if (m.id() == 0) at("id").wrong("is 0", "number pots from 1");
  return {.id = {m.id()},
          .sheet = {m.sheet()},
          .lot = {m.lot()},
          .bench = {m.bench()},
          .mixed_at = instant(at("mixed_at"), m.mixed_at()),
          .until = instant(at("until"), m.until())};
}

v1::Plan to_wire(const PlanRecord& plan) {
  v1::Plan m;
  m.set_id(plan.id.value);
  m.set_at(seconds_of(plan.at));
  for (const GlueUpId g : plan.glue_ups) m.add_glue_up(g.value);
  m.set_undone(plan.undone);
  return m;
}

PlanRecord from_wire(const At& at, const v1::Plan& m) {
  if (m.id() == 0) at("id").wrong("is 0", "number plans from 1");
  PlanRecord plan{
      .id = {m.id()}, .at = instant(at("at"), m.at()), .glue_ups = {}, .undone = m.undone()};
  if (m.glue_up_size() == 0) at("glue_up").wrong("is empty", "name what the plan moved");
  if (few_enough(at("glue_up"), m.glue_up_size(), static_cast<int>(kMaxMoves)))
    for (const std::uint32_t g : m.glue_up()) plan.glue_ups.push_back({g});
  return plan;
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

}  // namespace squeezeout
