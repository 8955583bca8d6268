// The domain's Shop as message Shop, in the wire's form.
#include <map>

#include "common/time/rfc3339.h"
#include "proto/craft_convert.h"
#include "proto/hours_convert.h"
#include "proto/shop_convert.h"
#include "shop.pb.h"

namespace squeezeout {
namespace {

double minutes_of(Seconds s) { return static_cast<double>(s.count()) / 60; }
double hours_of(Seconds s) { return static_cast<double>(s.count()) / 3600; }

// Keys by id.
template <class Thing>
std::map<decltype(Thing::id), std::string> keys_of(const std::vector<Thing>& things) {
  std::map<decltype(Thing::id), std::string> keys;
  for (const Thing& t : things) keys.emplace(t.id, t.key);
  return keys;
}
template <class IdType>
std::string key_of(const std::map<IdType, std::string>& keys, IdType id) {
  const auto it = keys.find(id);
  return it == keys.end() ? "" : it->second;
}

template <class M, class Thing>  // Thing: GearKind or GearNeed
void write_size(const Thing& thing, M* m) {
  m->set_opening_mm(thing.opening.value);
  m->set_throat_mm(thing.throat.value);
  m->set_length_mm(thing.length.value);
  m->set_force_newton(thing.force.value);
}

void write_rod(const GearKind& kind, v1::Gear* m) {
  if (kind.rod_width.value == 0 && kind.rod_thickness.value == 0 && kind.rod_stiffness.value == 0 &&
      kind.rod_strength.value == 0)
    return;
  v1::Rod* rod = m->mutable_rod();
  rod->set_width_mm(kind.rod_width.value);
  rod->set_thickness_mm(kind.rod_thickness.value);
  rod->set_stiffness_gpa(kind.rod_stiffness.value);
  rod->set_strength_mpa(kind.rod_strength.value);
}

template <class Wire, class E>
Wire wire_enum(E e) {
  return static_cast<Wire>(1 + static_cast<int>(e));
}

void write_display(const Display& display, v1::Display* m) {
  m->set_clock(wire_enum<v1::Clock>(display.clock));
  m->set_lengths(wire_enum<v1::Lengths>(display.lengths));
  m->set_degrees(wire_enum<v1::Degrees>(display.degrees));
}

}  // namespace

v1::Need to_wire(const GearNeed& need) {
  v1::Need m;
  m.set_class_(wire_enum<v1::GearClass>(need.gear_class));
  m.set_count(need.count);
  write_size(need, &m);
  m.set_style(need.style);
  m.set_outline(need.outline);
  return m;
}

v1::Shop to_wire(const Shop& shop) {
  v1::Shop m;
  m.set_name(shop.name);
  m.set_zone(shop.zone);
  if (shop.display != Display{}) write_display(shop.display, m.mutable_display());
  *m.mutable_hours() = weekdays_to_wire(shop.hours);
  *m.mutable_exception() = exceptions_to_wire(shop.hours);
  m.set_climate_celsius(shop.climate_celsius.value);
  m.set_climate_humidity_percent(shop.climate_humidity.value);
  write_air(shop, &m);
  for (const Bench& bench : shop.benches) {
    v1::Bench* b = m.add_bench();
    b->set_id(bench.id.value);
    b->set_key(bench.key);
    b->set_name(bench.name);
    b->set_one_at_a_time(bench.one_at_a_time);
  }
  const auto benches = keys_of(shop.benches);
  for (const Builder& builder : shop.builders) {
    v1::Builder* b = m.add_builder();
    b->set_id(builder.id.value);
    b->set_key(builder.key);
    b->set_name(builder.name);
    b->set_bench(key_of(benches, builder.bench));
    if (!builder.hours) continue;
    *b->mutable_hours() = weekdays_to_wire(*builder.hours);
    *b->mutable_exception() = exceptions_to_wire(*builder.hours);
  }
  for (const GearKind& kind : shop.gear) {
    v1::Gear* g = m.add_gear();
    g->set_id(kind.id.value);
    g->set_key(kind.key);
    g->set_name(kind.name);
    g->set_class_(wire_enum<v1::GearClass>(kind.gear_class));
    g->set_tag(kind.tag);
    if (kind.tag.empty() || kind.stock != 1) g->set_count(kind.stock);
    g->set_style(kind.style);
    write_size(kind, g);
    g->set_screw(kind.screw);
    g->set_size(kind.size);
    g->set_outline(kind.outline);
    g->set_hot(kind.hot);
    g->set_pad_mm(kind.pad.value);
    g->set_torque_newton_metre(kind.torque.value);
    write_rod(kind, g);
  }
  for (const AdhesiveSheet& sheet : shop.sheets) {
    v1::Adhesive* a = m.add_adhesive();
    a->set_id(sheet.id.value);
    a->set_key(sheet.key);
    a->set_name(sheet.name);
    a->set_chemistry(wire_enum<v1::Chemistry>(sheet.chemistry));
    a->set_open_minutes(minutes_of(sheet.open));
    for (const DwellPoint& point : sheet.dwell) {
      v1::DwellPoint* p = a->add_dwell();
      p->set_celsius(point.wood.value);
      p->set_seconds(point.dwell.count());
    }
    a->set_closed_minutes(minutes_of(sheet.closed));
    a->set_working_life_minutes(minutes_of(sheet.working_life));
    a->set_activation_kj_per_mol(sheet.activation_kj);
    a->set_wait_hours(hours_of(sheet.wait));
    a->set_full_cure_hours(hours_of(sheet.full_cure));
    a->set_shelf_days(sheet.shelf_days);
    if (sheet.solvent != Solvent{}) {
      a->mutable_solvent()->set_name(sheet.solvent.name);
      a->mutable_solvent()->set_grams_per_use(sheet.solvent.grams_per_use);
    }
    a->set_floor_celsius(sheet.floor.value);
    a->set_caution(sheet.caution);
    a->set_source(sheet.source);
  }
  const auto sheets = keys_of(shop.sheets);
  for (const Recipe& recipe : shop.recipes) {
    v1::Recipe* r = m.add_recipe();
    r->set_id(recipe.id.value);
    r->set_key(recipe.key);
    r->set_name(recipe.name);
    for (SheetId glue : recipe.glues) r->add_glue(key_of(sheets, glue));
    r->set_stage_minutes(minutes_of(recipe.stage));
    r->set_assembly_minutes(minutes_of(recipe.assembly));
    r->set_release_minutes(minutes_of(recipe.release));
    if (recipe.dwell) r->set_dwell_minutes(minutes_of(*recipe.dwell));
    if (recipe.wait) r->set_wait_hours(hours_of(*recipe.wait));
    for (const GearNeed& need : recipe.needs) *r->add_need() = to_wire(need);
    if (recipe.joint != Joint{}) *r->mutable_joint() = to_wire(recipe.joint);
    if (recipe.heat) *r->mutable_heat() = to_wire(*recipe.heat);
    r->set_finish(recipe.finish);
    r->set_caution(recipe.caution);
    r->set_usual(recipe.usual);
  }
  const auto builders = keys_of(shop.builders);
  const auto recipes = keys_of(shop.recipes);
  for (const Build& build : shop.builds) {
    v1::Build* b = m.add_build();
    b->set_id(build.id.value);
    b->set_key(build.key);
    b->set_name(build.name);
    b->set_builder(key_of(builders, build.builder));
    for (RecipeId step : build.steps) b->add_step(key_of(recipes, step));
    b->set_done_before(build.done_before);
    if (build.due) b->set_due(rfc3339(*build.due));
    for (const auto& [part, material] : build.woods) {
      v1::Wood* w = b->add_wood();
      w->set_part(part);
      w->set_material(material);
    }
  }
  return m;
}

}  // namespace squeezeout
