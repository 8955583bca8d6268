// Refusals and the facts in them, to messages and back.
#include "proto/codec_parts.h"
#include "proto/shop_convert.h"
#include "wire.pb.h"

namespace squeezeout {
namespace {

// Facts of a refusal may hold "never" and "always": any second that there is.
Instant any_instant(std::int64_t v) { return Instant{Seconds{v}}; }

v1::HeldBy to_wire(const HeldBy& held) {
  v1::HeldBy m;
  if (held.holder.what == Holder::What::outage)
    m.set_outage(held.holder.id);
  else
    m.set_glue_up(held.holder.id);
  m.set_count(held.count);
  m.set_begin(seconds_of(held.span.begin));
  m.set_end(seconds_of(held.span.end));
  return m;
}

HeldBy from_wire(const v1::HeldBy& m) {
  return {
      .holder = m.outage() ? Holder::of(OutageId{m.outage()}) : Holder::of(GlueUpId{m.glue_up()}),
      .count = m.count(),
      .span = {any_instant(m.begin()), any_instant(m.end())}};
}

v1::GearShort to_wire(const GearShort& fact) {
  v1::GearShort m;
  *m.mutable_need() = to_wire(fact.need);
  for (GearKindId kind : fact.kinds) m.add_kind(kind.value);
  m.set_wanted(fact.wanted);
  m.set_free(fact.free);
  m.set_owned(fact.owned);
  for (const HeldBy& holder : fact.holders) *m.add_holder() = to_wire(holder);
  return m;
}

GearShort from_wire(const At& at, const v1::GearShort& m) {
  GearShort fact{.need = from_wire(at("need"), m.need()),
                 .kinds = {},
                 .wanted = m.wanted(),
                 .free = m.free(),
                 .owned = m.owned(),
                 .holders = {}};
  for (std::uint32_t kind : m.kind()) fact.kinds.push_back({kind});
  for (const v1::HeldBy& holder : m.holder()) fact.holders.push_back(from_wire(holder));
  return fact;
}

Celsius celsius(const At& at, double v) { return {measure(at, v, kColdest.value, kHottest.value)}; }

v1::TooCold to_wire(const TooCold& fact) {
  v1::TooCold m;
  m.set_sheet(fact.sheet.value);
  m.set_wood_celsius(fact.wood.value);
  m.set_floor_celsius(fact.floor.value);
  m.set_at(seconds_of(fact.at));
  if (fact.until) m.set_until(seconds_of(*fact.until));
  return m;
}

TooCold from_wire(const At& at, const v1::TooCold& m) {
  TooCold fact{.sheet = {m.sheet()},
               .wood = celsius(at("wood_celsius"), m.wood_celsius()),
               .floor = celsius(at("floor_celsius"), m.floor_celsius()),
               .at = any_instant(m.at()),
               .until = {}};
  if (m.has_until()) fact.until = any_instant(m.until());
  return fact;
}

SkinsFirst from_wire(const At& at, const v1::SkinsFirst& m) {
  return {.sheet = {m.sheet()},
          .assembly = length(at("assembly_seconds"), m.assembly_seconds()),
          .open = length(at("open_seconds"), m.open_seconds()),
          .air = celsius(at("air_celsius"), m.air_celsius())};
}

v1::Hindrance to_wire(const Hindrance& h) {
  v1::Hindrance m;
  m.set_begin(seconds_of(h.starts.begin));
  m.set_end(seconds_of(h.starts.end));
  if (const auto* gear = std::get_if<GearShort>(&h.fact)) *m.mutable_gear_short() = to_wire(*gear);
  if (const auto* closed = std::get_if<ShopClosed>(&h.fact))
    m.set_closed_until(seconds_of(closed->until));
  if (const auto* busy = std::get_if<BuilderBusy>(&h.fact)) {
    m.mutable_builder_busy()->set_builder(busy->builder.value);
    m.mutable_builder_busy()->set_with(busy->with.value);
    m.mutable_builder_busy()->set_until(seconds_of(busy->until));
  }
  if (const auto* not_ready = std::get_if<NotReadyYet>(&h.fact)) {
    m.mutable_waits_for()->set_glue_up(not_ready->waits_for.value);
    m.mutable_waits_for()->set_until(seconds_of(not_ready->until));
  }
  if (const auto* cold = std::get_if<TooCold>(&h.fact)) *m.mutable_too_cold() = to_wire(*cold);
  if (const auto* skins = std::get_if<SkinsFirst>(&h.fact)) {
    m.mutable_skins_first()->set_sheet(skins->sheet.value);
    m.mutable_skins_first()->set_assembly_seconds(skins->assembly.count());
    m.mutable_skins_first()->set_open_seconds(skins->open.count());
    m.mutable_skins_first()->set_air_celsius(skins->air.value);
  }
  if (const auto* heat = std::get_if<BesideHeat>(&h.fact)) {
    m.mutable_beside_heat()->set_glue_up(heat->with.value);
    m.mutable_beside_heat()->set_until(seconds_of(heat->until));
  }
  if (const auto* pot = std::get_if<PotGels>(&h.fact)) {
    m.mutable_pot_gels()->set_pot(pot->pot.value);
    m.mutable_pot_gels()->set_sheet(pot->sheet.value);
    m.mutable_pot_gels()->set_until(seconds_of(pot->until));
  }
  if (const auto* bench = std::get_if<BenchBusy>(&h.fact)) {
    m.mutable_bench_busy()->set_bench(bench->bench.value);
    m.mutable_bench_busy()->set_with(bench->with.value);
    m.mutable_bench_busy()->set_until(seconds_of(bench->until));
  }
  return m;
}

Fact read_fact(const At& at, const v1::Hindrance& m) {
  switch (m.fact_case()) {
    case v1::Hindrance::kGearShort:
      return from_wire(at("gear_short"), m.gear_short());
    case v1::Hindrance::kClosedUntil:
      return ShopClosed{any_instant(m.closed_until())};
    case v1::Hindrance::kBuilderBusy:
      return BuilderBusy{{m.builder_busy().builder()},
                         {m.builder_busy().with()},
                         any_instant(m.builder_busy().until())};
    case v1::Hindrance::kWaitsFor:
      return NotReadyYet{{m.waits_for().glue_up()}, any_instant(m.waits_for().until())};
    case v1::Hindrance::kTooCold:
      return from_wire(at("too_cold"), m.too_cold());
    case v1::Hindrance::kSkinsFirst:
      return from_wire(at("skins_first"), m.skins_first());
    case v1::Hindrance::kBesideHeat:
      return BesideHeat{{m.beside_heat().glue_up()}, any_instant(m.beside_heat().until())};
    case v1::Hindrance::kPotGels:
      return PotGels{
          {m.pot_gels().pot()}, {m.pot_gels().sheet()}, any_instant(m.pot_gels().until())};
    case v1::Hindrance::kBenchBusy:
      return BenchBusy{
          {m.bench_busy().bench()}, {m.bench_busy().with()}, any_instant(m.bench_busy().until())};
    case v1::Hindrance::FACT_NOT_SET:
      at.wrong("is a fact that this program does not know", "update this program",
               ErrorCode::unknown);
  }
  return ShopClosed{};
}

Hindrance from_wire(const At& at, const v1::Hindrance& m) {
  return {.starts = {any_instant(m.begin()), any_instant(m.end())}, .fact = read_fact(at, m)};
}

template <class List>
std::vector<Hindrance> read_hindrances(const At& at, std::string_view field, const List& list) {
  std::vector<Hindrance> hindrances;
  for (int i = 0; i < list.size(); ++i) hindrances.push_back(from_wire(at(field, i), list[i]));
  return hindrances;
}

v1::Slot to_wire(const Slot& slot) {
  v1::Slot m;
  *m.mutable_times() = to_wire(slot.times);
  for (const Held& held : slot.held) *m.add_held() = to_wire(held);
  for (const Hindrance& h : slot.why_not_earlier) *m.add_why_not_earlier() = to_wire(h);
  return m;
}

Slot from_wire(const At& at, const v1::Slot& m) {
  Slot slot{.times = from_wire(at("times"), m.times()),
            .held = {},
            .why_not_earlier = read_hindrances(at, "why_not_earlier", m.why_not_earlier())};
  for (int i = 0; i < m.held_size(); ++i) slot.held.push_back(from_wire(at("held", i), m.held(i)));
  return slot;
}

v1::NotPossible to_wire(const NotPossible& no) {
  v1::NotPossible m;
  m.set_sheet(std::visit([](const auto& why) { return why.sheet.value; }, no.why));
  if (const auto* cold = std::get_if<BelowFloor>(&no.why)) {
    m.mutable_below_floor()->set_wood_celsius(cold->wood.value);
    m.mutable_below_floor()->set_floor_celsius(cold->floor.value);
  }
  if (const auto* quick = std::get_if<OpenTooShort>(&no.why)) {
    m.mutable_open_too_short()->set_assembly_seconds(quick->assembly.count());
    m.mutable_open_too_short()->set_open_seconds(quick->open.count());
  }
  if (std::holds_alternative<GlueNotInRecipe>(no.why)) m.set_glue_not_in_recipe(true);
  if (const auto* unsuited = std::get_if<Unsuited>(&no.why)) {
    m.mutable_unsuited();
    for (const Reason& reason : unsuited->reasons) {
      v1::Reason* r = m.mutable_unsuited()->add_reason();
      r->set_rule(1 + static_cast<std::uint32_t>(reason.rule));
      r->set_verdict(1 + static_cast<std::uint32_t>(reason.verdict));
    }
  }
  if (const auto* stale = std::get_if<StaleLot>(&no.why)) {
    m.mutable_stale_lot()->set_lot(stale->lot.value);
    m.mutable_stale_lot()->set_since(seconds_of(stale->since));
  }
  return m;
}

Reason from_wire(const At& at, const v1::Reason& m) {
  constexpr int kVerdicts = 4;
  return {.rule = one_of<Rule>(at("rule"), m.rule(), kRules),
          .verdict = one_of<Verdict>(at("verdict"), m.verdict(), kVerdicts)};
}

NotPossible from_wire(const At& at, const v1::NotPossible& m) {
  const SheetId sheet{m.sheet()};
  switch (m.why_case()) {
    case v1::NotPossible::kBelowFloor: {
      const At here = at("below_floor");
      const v1::BelowFloor& cold = m.below_floor();
      return {BelowFloor{sheet, celsius(here("wood_celsius"), cold.wood_celsius()),
                         celsius(here("floor_celsius"), cold.floor_celsius())}};
    }
    case v1::NotPossible::kOpenTooShort: {
      const At here = at("open_too_short");
      return {OpenTooShort{sheet,
                           length(here("assembly_seconds"), m.open_too_short().assembly_seconds()),
                           length(here("open_seconds"), m.open_too_short().open_seconds())}};
    }
    case v1::NotPossible::kGlueNotInRecipe:
      break;
    case v1::NotPossible::kUnsuited: {
      const At here = at("unsuited");
      Unsuited unsuited{sheet, {}};
      for (int i = 0; i < m.unsuited().reason_size(); ++i)
        unsuited.reasons.push_back(from_wire(here("reason", i), m.unsuited().reason(i)));
      return {std::move(unsuited)};
    }
    case v1::NotPossible::kStaleLot:
      return {StaleLot{sheet, {m.stale_lot().lot()}, any_instant(m.stale_lot().since())}};
    case v1::NotPossible::WHY_NOT_SET:
      at.wrong("is a reason that this program does not know", "update this program",
               ErrorCode::unknown);
  }
  return {GlueNotInRecipe{sheet}};
}

struct RefusalWriter {
  v1::Refusal& m;

  void operator()(const NoSuch& no) {
    m.mutable_no_such()->set_thing(1 + static_cast<std::uint32_t>(no.what));
    m.mutable_no_such()->set_id(no.id);
  }
  void operator()(const DoesNotFit& no) {
    v1::DoesNotFit* d = m.mutable_does_not_fit();
    for (const Hindrance& h : no.why) *d->add_why() = to_wire(h);
    if (no.next) *d->mutable_next() = to_wire(*no.next);
  }
  void operator()(const NotPossible& no) { *m.mutable_not_possible() = to_wire(no); }
  void operator()(const WrongProgress& no) {
    m.mutable_wrong_progress()->set_glue_up(no.glue_up.value);
    m.mutable_wrong_progress()->set_progress(1 + static_cast<std::uint32_t>(no.is));
  }
  void operator()(const TooEarly& no) {
    m.mutable_too_early()->set_glue_up(no.glue_up.value);
    m.mutable_too_early()->set_from(seconds_of(no.from));
  }
  void operator()(const BadTime& no) {
    m.mutable_bad_time()->set_given(seconds_of(no.given));
    m.mutable_bad_time()->set_least(seconds_of(no.least));
    m.mutable_bad_time()->set_most(seconds_of(no.most));
  }
  void operator()(const BadCount& no) {
    m.mutable_bad_count()->set_given(no.given);
    m.mutable_bad_count()->set_least(no.least);
    m.mutable_bad_count()->set_most(no.most);
  }
  void operator()(const AlreadyReserved& no) { m.set_already_reserved(no.glue_up.value); }
  void operator()(const StepMissing& no) {
    m.mutable_step_missing()->set_build(no.build.value);
    m.mutable_step_missing()->set_step(no.step);
  }
  void operator()(const BelowClaims& no) {
    m.mutable_below_claims()->set_kind(no.kind.value);
    m.mutable_below_claims()->set_wanted(no.wanted);
    for (const HeldBy& clash : no.clashes) *m.mutable_below_claims()->add_clash() = to_wire(clash);
  }
  void operator()(const NothingToUndo& no) { m.set_nothing_to_undo(no.glue_up.value); }
  void operator()(const BadShop& no) {
    m.mutable_bad_shop();
    for (const Mistake& mistake : no.mistakes) {
      v1::ShopMistake* w = m.mutable_bad_shop()->add_mistake();
      w->set_where(mistake.where);
      w->set_what(mistake.what);
      w->set_mend(mistake.mend);
    }
  }
  void operator()(const TooMany& no) {
    m.mutable_too_many()->set_thing(1 + static_cast<std::uint32_t>(no.what));
    m.mutable_too_many()->set_most(no.most);
  }
  void operator()(const PotSpent& no) {
    m.mutable_pot_spent()->set_pot(no.pot.value);
    m.mutable_pot_spent()->set_until(seconds_of(no.until));
  }
  void operator()(const PlanStale& no) {
    m.mutable_plan_stale()->set_glue_up(no.glue_up.value);
    for (const Hindrance& h : no.why) *m.mutable_plan_stale()->add_why() = to_wire(h);
  }
  void operator()(const BadAir& no) {
    v1::BadAir* air = m.mutable_bad_air();
    air->set_what(1 + static_cast<std::uint32_t>(no.what));
    air->set_at(seconds_of(no.at));
    air->set_given(no.given);
    air->set_least(no.least);
    air->set_most(no.most);
    air->set_from(seconds_of(no.from));
    air->set_to(seconds_of(no.to));
  }
};

}  // namespace

v1::Refusal to_wire(const Refusal& refusal) {
  v1::Refusal m;
  std::visit(RefusalWriter{m}, refusal);
  return m;
}

Refusal from_wire(const At& at, const v1::Refusal& m) {
  switch (m.what_case()) {
    case v1::Refusal::kNoSuch: {
      const At here = at("no_such");
      return NoSuch{one_of<Thing>(here("thing"), m.no_such().thing(), kThings), m.no_such().id()};
    }
    case v1::Refusal::kDoesNotFit: {
      const At here = at("does_not_fit");
      DoesNotFit no{read_hindrances(here, "why", m.does_not_fit().why()), {}};
      if (m.does_not_fit().has_next()) no.next = from_wire(here("next"), m.does_not_fit().next());
      return no;
    }
    case v1::Refusal::kNotPossible:
      return from_wire(at("not_possible"), m.not_possible());
    case v1::Refusal::kWrongProgress: {
      const At here = at("wrong_progress");
      return WrongProgress{
          {m.wrong_progress().glue_up()},
          one_of<Progress>(here("progress"), m.wrong_progress().progress(), kProgresses)};
    }
    case v1::Refusal::kTooEarly:
      return TooEarly{{m.too_early().glue_up()}, any_instant(m.too_early().from())};
    case v1::Refusal::kBadTime:
      return BadTime{any_instant(m.bad_time().given()), any_instant(m.bad_time().least()),
                     any_instant(m.bad_time().most())};
    case v1::Refusal::kBadCount:
      return BadCount{m.bad_count().given(), m.bad_count().least(), m.bad_count().most()};
    case v1::Refusal::kAlreadyReserved:
      return AlreadyReserved{{m.already_reserved()}};
    case v1::Refusal::kStepMissing:
      return StepMissing{{m.step_missing().build()}, m.step_missing().step()};
    case v1::Refusal::kBelowClaims: {
      BelowClaims no{{m.below_claims().kind()}, m.below_claims().wanted(), {}};
      for (const v1::HeldBy& clash : m.below_claims().clash())
        no.clashes.push_back(from_wire(clash));
      return no;
    }
    case v1::Refusal::kNothingToUndo:
      return NothingToUndo{{m.nothing_to_undo()}};
    case v1::Refusal::kBadShop: {
      BadShop no;
      for (const v1::ShopMistake& mistake : m.bad_shop().mistake())
        no.mistakes.push_back({mistake.where(), mistake.what(), mistake.mend()});
      return no;
    }
    case v1::Refusal::kTooMany: {
      const At here = at("too_many");
      return TooMany{one_of<Thing>(here("thing"), m.too_many().thing(), kThings),
                     m.too_many().most()};
    }
    case v1::Refusal::kPotSpent:
      return PotSpent{{m.pot_spent().pot()}, any_instant(m.pot_spent().until())};
    case v1::Refusal::kBadAir: {
      const At here = at("bad_air");
      constexpr int kWhats = 3;
      const v1::BadAir& air = m.bad_air();
      return BadAir{one_of<BadAir::What>(here("what"), air.what(), kWhats),
                    any_instant(air.at()),
                    air.given(),
                    air.least(),
                    air.most(),
                    any_instant(air.from()),
                    any_instant(air.to())};
    }
    case v1::Refusal::kPlanStale: {
      const At here = at("plan_stale");
      return PlanStale{{m.plan_stale().glue_up()},
                       read_hindrances(here, "why", m.plan_stale().why())};
    }
    case v1::Refusal::WHAT_NOT_SET:
      at.wrong("is a refusal that this program does not know", "update this program",
               ErrorCode::unknown);
  }
  return NoSuch{};
}

}  // namespace squeezeout
