// What the craft works with: joints, heated forms, and the air of the shop.
#include "proto/craft_convert.h"

#include <fmt/format.h>

#include <algorithm>

#include "proto/hours_convert.h"
#include "proto/measures.h"
#include "shop.pb.h"

namespace squeezeout {
namespace {

constexpr double kLeastPressure = 0.01, kMostPressure = 5;  // MPa
constexpr double kLeastSpread = 1, kMostSpread = 2'000;     // g/m2
constexpr double kMostRoom = 1'000'000;                     // m3
constexpr double kMostAiring = 100'000;                     // m3 a minute
constexpr double kHottestForm = 300;
constexpr int kLastMinute = 24 * 60 - 1;

Face read_face(const At& at, const v1::Face& m) {
  return {.part = text(at("part"), m.part()), .material = text(at("material"), m.material())};
}

void write_face(const Face& face, v1::Face* m) {
  m->set_part(face.part);
  m->set_material(face.material);
}

Celsius read_celsius(const At& at, double v) {
  return {measure(at("celsius"), v, kColdest.value, kHottest.value)};
}
Percent read_humidity(const At& at, double v) {
  return {measure(at("humidity_percent"), v, 0, 100)};
}

void read_daily(const At& at, const v1::DailyAir& m, std::vector<DailyAir>& day) {
  if (!m.has_celsius()) at("celsius").wrong("is missing", "say how warm it is: celsius: 18");
  if (!m.has_humidity_percent())
    at("humidity_percent").wrong("is missing", "say how humid it is: humidity_percent: 45");
  const Celsius air = read_celsius(at, m.celsius());
  const Percent humidity = read_humidity(at, m.humidity_percent());
  const auto minute = time_of_day(at("at"), m.at(), kLastMinute);
  if (!minute) return;
  if (!day.empty() && *minute <= day.back().minute)
    at("at").wrong(fmt::format("is \"{}\", not after \"{}\" before it", time_text(*minute),
                               time_text(day.back().minute)),
                   "put the times of the day in order, each once");
  day.push_back({*minute, air, humidity});
}

Room read_room(const At& at, const v1::Room& m) {
  Room room{
      .volume_m3 = measure(at("volume_m3"), m.volume_m3(), 0, kMostRoom),
      .air_m3_per_minute = measure(at("air_m3_per_minute"), m.air_m3_per_minute(), 0, kMostAiring)};
  constexpr int kLimitSets = 2;
  if (m.limits() != v1::LIMITS_UNSPECIFIED)
    room.limits = one_of<LimitSet>(at("limits"), m.limits(), kLimitSets);
  return room;
}

}  // namespace

Joint from_wire(const At& at, const v1::Joint& m) {
  const auto size = [&](const char* field, double v) {
    return Millimetre{measure(at(field), v, 0, kMostMillimetres)};
  };
  Joint joint{.length = size("length_mm", m.length_mm()),
              .width = size("width_mm", m.width_mm()),
              .a = read_face(at("a"), m.a()),
              .b = read_face(at("b"), m.b()),
              .thickness = size("thickness_mm", m.thickness_mm()),
              .under = size("under_mm", m.under_mm()),
              .gap = size("gap_mm", m.gap_mm()),
              .plate = size("plate_mm", m.plate_mm()),
              .radius = size("radius_mm", m.radius_mm())};
  if (m.has_least_pressure_mpa())
    joint.least_pressure = {
        measure(at("least_pressure_mpa"), m.least_pressure_mpa(), kLeastPressure, kMostPressure)};
  if (m.has_spread_g_per_m2())
    joint.spread_g_m2 =
        measure(at("spread_g_per_m2"), m.spread_g_per_m2(), kLeastSpread, kMostSpread);
  if (!few_enough(at("trait"), m.trait_size())) return joint;
  for (int i = 0; i < m.trait_size(); ++i) {
    const Trait trait = one_of<Trait>(at("trait", i), m.trait(i), kTraits);
    if (std::count(m.trait().begin(), m.trait().begin() + i, m.trait(i)) > 0)
      at("trait", i).wrong("comes twice", "keep one of them");
    joint.traits.push_back(trait);
  }
  return joint;
}

v1::Joint to_wire(const Joint& joint) {
  v1::Joint m;
  m.set_length_mm(joint.length.value);
  m.set_width_mm(joint.width.value);
  if (joint.a != Face{}) write_face(joint.a, m.mutable_a());
  if (joint.b != Face{}) write_face(joint.b, m.mutable_b());
  m.set_thickness_mm(joint.thickness.value);
  m.set_under_mm(joint.under.value);
  m.set_gap_mm(joint.gap.value);
  m.set_plate_mm(joint.plate.value);
  m.set_radius_mm(joint.radius.value);
  m.set_least_pressure_mpa(joint.least_pressure.value);
  m.set_spread_g_per_m2(joint.spread_g_m2);
  for (const Trait trait : joint.traits)
    m.add_trait(static_cast<v1::Trait>(1 + static_cast<int>(trait)));
  return m;
}

Heat from_wire(const At& at, const v1::Heat& m) {
  return {.hold = minutes(at("hold_minutes"), m.hold_minutes()),
          .cool = minutes(at("cool_minutes"), m.cool_minutes()),
          .form = {measure(at("form_celsius"), m.form_celsius(), 0, kHottestForm)}};
}

v1::Heat to_wire(const Heat& heat) {
  v1::Heat m;
  m.set_hold_minutes(static_cast<double>(heat.hold.count()) / 60);
  m.set_cool_minutes(static_cast<double>(heat.cool.count()) / 60);
  m.set_form_celsius(heat.form.value);
  return m;
}

void write_air(const Shop& shop, v1::Shop* m) {
  for (const DailyAir& air : shop.daily) {
    v1::DailyAir* d = m->add_daily();
    d->set_at(time_text(air.minute));
    d->set_celsius(air.air.value);
    d->set_humidity_percent(air.humidity.value);
  }
  if (shop.service != ServiceAir{}) {
    m->mutable_service()->set_celsius(shop.service.celsius.value);
    m->mutable_service()->set_humidity_percent(shop.service.humidity.value);
  }
  if (shop.room != Room{}) {
    m->mutable_room()->set_volume_m3(shop.room.volume_m3);
    m->mutable_room()->set_air_m3_per_minute(shop.room.air_m3_per_minute);
    m->mutable_room()->set_limits(static_cast<v1::Limits>(1 + static_cast<int>(shop.room.limits)));
  }
}

void read_air(const At& at, const v1::Shop& m, Shop& shop) {
  if (few_enough(at("daily"), m.daily_size()))
    for (int i = 0; i < m.daily_size(); ++i) read_daily(at("daily", i), m.daily(i), shop.daily);
  const At service = at("service");
  if (m.service().has_celsius())
    shop.service.celsius = read_celsius(service, m.service().celsius());
  if (m.service().has_humidity_percent())
    shop.service.humidity = read_humidity(service, m.service().humidity_percent());
  if (m.has_room()) shop.room = read_room(at("room"), m.room());
}

}  // namespace squeezeout
