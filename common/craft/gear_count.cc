#include "common/craft/gear_count.h"

#include <algorithm>
#include <cmath>

#include "common/craft/faces.h"
#include "common/trade/screw.h"

namespace squeezeout {
namespace {

constexpr double kStatedForceOff = 0.2;  // from memory
constexpr double kRodForceOff = 0.2;     // the rod's own stiffness

struct Force {
  Band newton;
  FormulaId by;
  std::optional<Sprung> sprung;
};

bool section_known(const GearKind& kind) {
  return kind.rod_width.value != 0 && kind.rod_thickness.value != 0;
}

Result<Force, OutOfRange> sprung_force(const GearKind& kind, Millimetre gap) {
  const auto rod =
      sprung({kind.length, kind.rod_width, kind.rod_thickness, kind.rod_stiffness}, gap);
  if (!rod) return Unexpected{rod.error()};
  return Force{within(rod->force.value, kRodForceOff), FormulaId::go_bar, *rod};
}

Result<Force, OutOfRange> screw_force(const Screw& screw, NewtonMetre torque) {
  const auto force = force_of(screw, torque);
  if (!force) return Unexpected{force.error()};
  return Force{force_band(screw, torque), FormulaId::screw_force, std::nullopt};
}

Result<Force, OutOfRange> force_of_piece(const GearKind& kind, Millimetre deck_gap) {
  if (kind.gear_class == GearClass::go_bar && section_known(kind) && deck_gap.value != 0)
    return sprung_force(kind, deck_gap);
  const auto screw = screw_of(kind.screw);
  if (screw && kind.torque.value != 0) return screw_force(*screw, kind.torque);
  return Force{within(kind.force.value, kStatedForceOff), FormulaId::stated_force, std::nullopt};
}

// Of what bears on the joint: along its line, and across.
struct Pad {
  Millimetre along, across;
};
std::optional<Pad> told_pad(const GearKind& kind) {
  if (kind.pad.value != 0) return Pad{kind.pad, kind.pad};
  if (kind.gear_class == GearClass::go_bar && section_known(kind))
    return Pad{kind.rod_width, kind.rod_thickness};
  return std::nullopt;
}
Pad pad_of(const GearKind& kind) { return told_pad(kind).value_or(Pad{kUsualPad, kUsualPad}); }

SquareMillimetre area_of(const Joint& joint) { return {joint.length.value * joint.width.value}; }

// What the craft asks for, whatever the wood.
struct Count {
  Force force;
  int by_spread = 0, by_close_line = 0, by_least_pressure = 0;
  int count() const { return std::max(by_spread, by_least_pressure); }
};

Result<Count, OutOfRange> count(const Joint& joint, const GearKind& kind, Millimetre deck_gap) {
  const auto force = force_of_piece(kind, deck_gap);
  if (!force) return Unexpected{force.error()};
  const auto by_spread = clamps_by_spread(joint.length, pad_of(kind).along, joint.under);
  if (!by_spread) return Unexpected{by_spread.error()};
  const auto by_close_line = clamps_by_spread(joint.length, pad_of(kind).along, joint.under * 0.5);
  if (!by_close_line) return Unexpected{by_close_line.error()};
  const auto by_pressure =
      clamps_by_force(joint.least_pressure, area_of(joint), {force->newton.value});
  if (!by_pressure) return Unexpected{by_pressure.error()};
  return Count{*force, *by_spread, *by_close_line, *by_pressure};
}

Result<const Material*, NoCount> softer_wood(const Joint& joint) {
  const auto faces = faces_of(joint);
  if (!faces) return Unexpected{NoCount{faces.error()}};
  if (const Material* wood = faces->softer()) return wood;
  return Unexpected{NoCount{OutOfRange{"specific gravity of the wood", 0, 0.1, 1.3,
                                       "name the wood of one face at least"}}};
}

Band achieved_by(int n, const Band& newton, SquareMillimetre area) {
  return {pressure_achieved(n, {newton.low}, area).value,
          pressure_achieved(n, {newton.value}, area).value,
          pressure_achieved(n, {newton.high}, area).value};
}

// Beyond the glue line a pad presses on nothing.
double pad_area(const Pad& pad, const Joint& joint) {
  return pad.along.value * std::min(pad.across.value, joint.width.value);
}

Unexpected<NoCount> no(OutOfRange why) { return Unexpected{NoCount{why}}; }

}  // namespace

Result<GearCount, NoCount> gear_count(const Joint& joint, const GearKind& kind,
                                      std::optional<int> fixed, Millimetre deck_gap) {
  const auto asked = count(joint, kind, deck_gap);
  if (!asked) return no(asked.error());
  const auto wood = softer_wood(joint);
  if (!wood) return Unexpected{wood.error()};
  const SquareMillimetre area = area_of(joint);
  const Band newton = asked->force.newton;
  const double gravity = (*wood)->specific_gravity;
  const double handbook = pressure_wanted(gravity).value;
  const auto by_handbook = clamps_by_force({handbook}, area, {newton.value});
  if (!by_handbook) return no(by_handbook.error());
  const auto crush = pad_crush(gravity);
  if (!crush) return no(crush.error());
  const Pad pad = pad_of(kind);
  if (const auto why = outside("breadth of the pad, mm", pad.across.value, 0.5, 1000,
                               "measure what bears on the joint"))
    return no(*why);

  GearCount out{.kind = kind.id,
                .count = asked->count(),
                .low = asked->by_spread,
                .high = std::max(asked->count(), std::min(*by_handbook, asked->by_close_line)),
                .by_spread = asked->by_spread,
                .by_close_line = asked->by_close_line,
                .by_least_pressure = asked->by_least_pressure,
                .by_handbook = *by_handbook,
                .fixed = fixed,
                .wanted = {std::min(joint.least_pressure.value, handbook), handbook, handbook},
                .force = newton,
                .force_by = asked->force.by,
                .usual_pad = !told_pad(kind),
                .crush = *crush,
                .density_mark = (*wood)->density_mark,
                .crush_share = newton.high / pad_area(pad, joint) / crush->value,
                .sprung = asked->force.sprung};
  if (out.by_least_pressure > out.by_spread) out.limit = GearCount::Limit::least_pressure;
  out.achieved = achieved_by(fixed.value_or(out.count), newton, area);
  if (out.sprung && kind.rod_strength.value > 0)
    out.bending_share = out.sprung->bending.value / kind.rod_strength.value;
  return out;
}

const GearKind* plainest(const GearNeed& need, std::span<const GearKind> gear) {
  const GearKind* out = nullptr;
  for (const GearKind& kind : gear) {
    if (kind.stock <= 0 || !good_enough(kind, need)) continue;
    if (!out || less_capable(kind, *out)) out = &kind;
  }
  return out;
}

Millimetre deck_gap_of(const Recipe& recipe, std::span<const GearKind> gear) {
  for (const GearNeed& need : recipe.needs) {
    if (need.gear_class != GearClass::deck) continue;
    if (const GearKind* deck = plainest(need, gear)) return deck->opening;
  }
  return {};
}

std::vector<GearNeed> needs_of(const Recipe& recipe, const Joint& joint,
                               std::span<const GearKind> gear) {
  std::vector<GearNeed> out = recipe.needs;
  for (GearNeed& need : out) {
    const bool presses =
        need.gear_class == GearClass::clamp || need.gear_class == GearClass::go_bar;
    if (!presses || need.count != 0) continue;
    need.count = 1;
    const GearKind* kind = plainest(need, gear);
    if (!kind) continue;
    if (const auto asked = count(joint, *kind, deck_gap_of(recipe, gear)))
      need.count = asked->count();
  }
  return out;
}

}  // namespace squeezeout
