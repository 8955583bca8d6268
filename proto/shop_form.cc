#include "proto/shop_form.h"

#include <google/protobuf/util/message_differencer.h>

#include <optional>
#include <string>

#include "common/time/rfc3339.h"
#include "proto/hours_convert.h"
#include "proto/shop_convert.h"
#include "shop.pb.h"

namespace squeezeout {
namespace {

template <class List>
void clear_ids(List* list) {
  for (auto& m : *list) m.clear_id();
}

bool drop_suffix(std::string* text, const std::string& suffix) {
  if (!text->ends_with(suffix) || text->size() == suffix.size()) return false;
  text->resize(text->size() - suffix.size());
  return true;
}

// "deck/A", "Go-bar deck A", tag "A" as "deck", "Go-bar deck", unit "A". nullopt: it does not come of a list of units.
std::optional<v1::Gear> as_unit(const v1::Gear& m) {
  v1::Gear unit = m;
  if (m.tag().empty() || m.has_count() || !drop_suffix(unit.mutable_key(), "/" + m.tag()) ||
      !drop_suffix(unit.mutable_name(), " " + m.tag()))
    return std::nullopt;
  unit.clear_tag();
  unit.add_unit(m.tag());
  return unit;
}

// Whether two gears differ in their units alone.
bool alike(v1::Gear a, v1::Gear b) {
  if (a.unit_size() == 0 || b.unit_size() == 0) return false;
  a.clear_unit();
  b.clear_unit();
  return google::protobuf::util::MessageDifferencer::Equals(a, b);
}

void gather_units(v1::Shop* m) {
  v1::Shop gathered;
  for (const v1::Gear& gear : m->gear()) {
    const v1::Gear next = as_unit(gear).value_or(gear);
    const int last = gathered.gear_size() - 1;
    if (last >= 0 && alike(gathered.gear(last), next))
      gathered.mutable_gear(last)->add_unit(next.unit(0));
    else
      *gathered.add_gear() = next;
  }
  m->mutable_gear()->Swap(gathered.mutable_gear());
}

std::string due_text(Instant due, const Zone& zone) {
  const Date last_day = zone.date(due - Seconds{1});
  return zone.day(last_day).end == due ? date_text(last_day) : rfc3339(due, zone);
}

}  // namespace

v1::Shop to_file_form(const Shop& shop) {
  v1::Shop m = to_wire(shop);
  clear_ids(m.mutable_bench());
  clear_ids(m.mutable_builder());
  clear_ids(m.mutable_gear());
  clear_ids(m.mutable_adhesive());
  clear_ids(m.mutable_recipe());
  clear_ids(m.mutable_build());
  if (shop.climate_celsius == Shop{}.climate_celsius) m.clear_climate_celsius();
  if (shop.climate_humidity == Shop{}.climate_humidity) m.clear_climate_humidity_percent();
  gather_units(&m);
  for (v1::Adhesive& adhesive : *m.mutable_adhesive())
    for (v1::DwellPoint& point : *adhesive.mutable_dwell())
      if (point.seconds() % 60 == 0) {
        point.set_minutes(static_cast<double>(point.seconds()) / 60);
        point.clear_seconds();
      }
  for (v1::Recipe& recipe : *m.mutable_recipe()) {
    if (!recipe.has_joint()) continue;
    if (recipe.joint().least_pressure_mpa() == Joint{}.least_pressure.value)
      recipe.mutable_joint()->clear_least_pressure_mpa();
    if (recipe.joint().spread_g_per_m2() == Joint{}.spread_g_m2)
      recipe.mutable_joint()->clear_spread_g_per_m2();
  }
  if (shop.service.celsius == ServiceAir{}.celsius) m.mutable_service()->clear_celsius();
  if (shop.service.humidity == ServiceAir{}.humidity) m.mutable_service()->clear_humidity_percent();
  if (shop.service == ServiceAir{}) m.clear_service();
  if (m.has_display()) {
    if (shop.display.clock == Display{}.clock) m.mutable_display()->clear_clock();
    if (shop.display.lengths == Display{}.lengths) m.mutable_display()->clear_lengths();
    if (shop.display.degrees == Display{}.degrees) m.mutable_display()->clear_degrees();
  }
  if (shop.room.limits == Room{}.limits && m.has_room()) m.mutable_room()->clear_limits();
  const auto zone = Zone::find(shop.zone);
  for (std::size_t i = 0; i < shop.builds.size(); ++i)
    if (shop.builds[i].due)
      m.mutable_build(static_cast<int>(i))
          ->set_due(due_text(*shop.builds[i].due, zone ? *zone : Zone::utc()));
  return m;
}

}  // namespace squeezeout
