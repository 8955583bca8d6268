// What a client asks, to message Command and back.
#include "proto/codec_parts.h"
#include "proto/shop_convert.h"
#include "wire.pb.h"

namespace squeezeout {
namespace {

Override override_of(bool knowingly) { return knowingly ? Override::knowingly : Override::no; }

// Presses on a glue-up share one message; those that happen at once carry no time.
template <class Press>
v1::OnGlueUp press_to_wire(const Press& press) {
  v1::OnGlueUp m;
  m.set_glue_up(press.glue_up.value);
  if constexpr (requires { press.at; })
    if (press.at != kAtServer) m.set_at(seconds_of(press.at));
  if constexpr (requires { press.over; }) m.set_knowingly(press.over == Override::knowingly);
  if constexpr (requires { press.pot; }) m.set_pot(press.pot.value);
  return m;
}

template <class Press>
Press press_from_wire(const At& at, const v1::OnGlueUp& m) {
  Press press{};
  press.glue_up = {m.glue_up()};
  if constexpr (requires { press.at; })
    press.at = m.has_at() ? instant(at("at"), m.at()) : kAtServer;
  if constexpr (requires { press.over; }) press.over = override_of(m.knowingly());
  if constexpr (requires { press.pot; }) press.pot = {m.pot()};
  return press;
}

struct BodyWriter {
  v1::Command& m;

  void operator()(const LoadShop& b) { *m.mutable_load_shop() = to_wire(b.shop); }
  void operator()(const Reserve& b) {
    v1::Reserve* r = m.mutable_reserve();
    r->set_recipe(b.recipe.value);
    r->set_build(b.build.value);
    r->set_step(b.step);
    r->set_builder(b.builder.value);
    r->set_bench(b.bench.value);
    r->set_sheet(b.sheet.value);
    r->set_after(seconds_of(b.after));
    if (b.start) r->set_start(seconds_of(*b.start));
    r->set_outside_hours(b.hours == Override::knowingly);
    r->set_lot(b.lot.value);
    r->set_reason(b.reason);
    r->set_pot(b.pot.value);
  }
  void operator()(const Move& b) {
    m.mutable_move()->set_glue_up(b.glue_up.value);
    m.mutable_move()->set_start(seconds_of(b.start));
    m.mutable_move()->set_outside_hours(b.hours == Override::knowingly);
  }
  void operator()(const Cancel& b) { *m.mutable_cancel() = press_to_wire(b); }
  void operator()(const Start& b) { *m.mutable_start() = press_to_wire(b); }
  void operator()(const ClampsOn& b) { *m.mutable_clamps_on() = press_to_wire(b); }
  void operator()(const ClampsOff& b) { *m.mutable_clamps_off() = press_to_wire(b); }
  void operator()(const Scraped& b) { *m.mutable_scraped() = press_to_wire(b); }
  void operator()(const Undo& b) { *m.mutable_undo() = press_to_wire(b); }
  void operator()(const Late& b) {
    m.mutable_late()->set_glue_up(b.glue_up.value);
    m.mutable_late()->set_by_seconds(b.by.count());
  }
  void operator()(const Spoiled& b) {
    m.mutable_spoiled()->set_glue_up(b.glue_up.value);
    if (b.at != kAtServer) m.mutable_spoiled()->set_at(seconds_of(b.at));
    m.mutable_spoiled()->set_note(b.note);
  }
  void operator()(const GearBroken& b) {
    m.mutable_gear_broken()->set_kind(b.kind.value);
    m.mutable_gear_broken()->set_count(b.count);
    m.mutable_gear_broken()->set_reason(b.reason);
  }
  void operator()(const GearMended& b) {
    m.mutable_gear_mended()->set_kind(b.kind.value);
    m.mutable_gear_mended()->set_count(b.count);
  }
  void operator()(const SetStock& b) {
    *m.mutable_set_stock() = to_wire(StockSet{b.kind, b.count, {}});
  }
  void operator()(const ClimateReading& b) {
    *m.mutable_climate() = to_wire(ClimateRead{{}, b.air, b.humidity});
  }
  void operator()(const ReadClimate& b) {
    *m.mutable_read_climate()->mutable_point() = to_wire(b.readings);
  }
  void operator()(const SetForecast& b) {
    *m.mutable_set_forecast()->mutable_point() = to_wire(b.points);
  }
  void operator()(const PutLot& b) { *m.mutable_put_lot() = to_wire(b.lot); }
  void operator()(const MixPot& b) {
    m.mutable_mix_pot()->set_sheet(b.sheet.value);
    m.mutable_mix_pot()->set_lot(b.lot.value);
    m.mutable_mix_pot()->set_bench(b.bench.value);
  }
  void operator()(const AdoptPlan& b) {
    m.mutable_adopt_plan();
    for (const Adopted& move : b.moves) {
      v1::Adopted* a = m.mutable_adopt_plan()->add_move();
      a->set_glue_up(move.glue_up.value);
      a->set_start(seconds_of(move.start));
      a->set_sheet(move.sheet.value);
    }
  }
  void operator()(const UndoPlan& b) { m.mutable_undo_plan()->set_plan(b.plan.value); }
  void operator()(const Tick&) { CHECK(!"a client has no timer"); }
};

Reserve from_wire(const At& at, const v1::Reserve& m) {
  Reserve r{.recipe = {m.recipe()},
            .build = {m.build()},
            .step = number(at("step"), m.step(), 0, kMaxStep),
            .builder = {m.builder()},
            .bench = {m.bench()},
            .sheet = {m.sheet()},
            .after = instant(at("after"), m.after()),
            .start = {},
            .hours = override_of(m.outside_hours()),
            .lot = {m.lot()},
            .reason = text(at("reason"), m.reason()),
            .pot = {m.pot()}};
  if (m.has_start()) r.start = instant(at("start"), m.start());
  return r;
}

AdoptPlan from_wire(const At& at, const v1::AdoptPlan& m) {
  AdoptPlan plan;
  if (!few_enough(at("move"), m.move_size(), static_cast<int>(kMaxMoves))) return plan;
  for (int i = 0; i < m.move_size(); ++i) {
    const At here = at("move", i);
    const v1::Adopted& a = m.move(i);
    plan.moves.push_back({{a.glue_up()}, instant(here("start"), a.start()), {a.sheet()}});
  }
  return plan;
}

Body read_body(const At& at, const v1::Command& m) {
  switch (m.body_case()) {
    case v1::Command::kLoadShop:
      return LoadShop{from_wire(at("load_shop"), m.load_shop(), Ids::by_order)};
    case v1::Command::kReserve:
      return from_wire(at("reserve"), m.reserve());
    case v1::Command::kMove: {
      const At here = at("move");
      return Move{{m.move().glue_up()},
                  instant(here("start"), m.move().start()),
                  override_of(m.move().outside_hours())};
    }
    case v1::Command::kCancel:
      return press_from_wire<Cancel>(at("cancel"), m.cancel());
    case v1::Command::kStart:
      return press_from_wire<Start>(at("start"), m.start());
    case v1::Command::kClampsOn:
      return press_from_wire<ClampsOn>(at("clamps_on"), m.clamps_on());
    case v1::Command::kClampsOff:
      return press_from_wire<ClampsOff>(at("clamps_off"), m.clamps_off());
    case v1::Command::kScraped:
      return press_from_wire<Scraped>(at("scraped"), m.scraped());
    case v1::Command::kLate: {
      const At here = at("late");
      return Late{{m.late().glue_up()}, length(here("by_seconds"), m.late().by_seconds())};
    }
    case v1::Command::kSpoiled: {
      const At here = at("spoiled");
      return Spoiled{{m.spoiled().glue_up()},
                     m.spoiled().has_at() ? instant(here("at"), m.spoiled().at()) : kAtServer,
                     text(here("note"), m.spoiled().note())};
    }
    case v1::Command::kUndo:
      return press_from_wire<Undo>(at("undo"), m.undo());
    case v1::Command::kGearBroken: {
      const At here = at("gear_broken");
      return GearBroken{{m.gear_broken().kind()},
                        number(here("count"), m.gear_broken().count(), 1, kMaxCount),
                        text(here("reason"), m.gear_broken().reason())};
    }
    case v1::Command::kGearMended: {
      const At here = at("gear_mended");
      return GearMended{{m.gear_mended().kind()},
                        number(here("count"), m.gear_mended().count(), 1, kMaxCount)};
    }
    case v1::Command::kSetStock: {
      const StockSet stock = from_wire(at("set_stock"), m.set_stock());
      return SetStock{stock.kind, stock.count};
    }
    case v1::Command::kClimate: {
      const ClimateRead climate = from_wire(at("climate"), m.climate());
      return ClimateReading{climate.air, climate.humidity};
    }
    case v1::Command::kReadClimate:
      return ReadClimate{from_wire(at("read_climate"), "point", m.read_climate().point())};
    case v1::Command::kSetForecast:
      return SetForecast{from_wire(at("set_forecast"), "point", m.set_forecast().point())};
    case v1::Command::kPutLot:
      return PutLot{from_wire(at("put_lot"), m.put_lot())};
    case v1::Command::kMixPot:
      return MixPot{{m.mix_pot().sheet()}, {m.mix_pot().lot()}, {m.mix_pot().bench()}};
    case v1::Command::kAdoptPlan:
      return from_wire(at("adopt_plan"), m.adopt_plan());
    case v1::Command::kUndoPlan:
      return UndoPlan{{m.undo_plan().plan()}};
    case v1::Command::BODY_NOT_SET:
      at.wrong("has a body that this server does not know",
               "update the server, or ask for something else", ErrorCode::unknown);
  }
  return Tick{};
}

}  // namespace

v1::Command to_wire(const Asked& asked) {
  v1::Command m;
  m.set_id(std::string(asked.id.bytes.begin(), asked.id.bytes.end()));
  std::visit(BodyWriter{m}, asked.body);
  return m;
}

Asked from_wire(const At& at, const v1::Command& m) {
  return {id128<CommandTag>(at("id"), m.id()), read_body(at, m)};
}

}  // namespace squeezeout
