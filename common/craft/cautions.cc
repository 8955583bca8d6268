// Cautions: what can hurt somebody or spoil the joint. By common practice; limits from memory where they are not a formula's.

#include <algorithm>

#include "common/craft/faces.h"
#include "common/craft/told.h"
#include "common/trade/bend.h"

namespace squeezeout {
namespace {

// Each has its word in trade/SOURCES.md.
constexpr Percent kBracingDriest{40}, kBracingDampest{55};
constexpr double kMoistureOff = 1;        // % against the service's
constexpr double kRodNearBreaking = 0.8;  // its stiffness may be a fifth more
constexpr Celsius kFloorNear{2};

using Cautions = std::vector<Caution>;

std::optional<double> value_of(const JointAnswer& answer, FigureOf of) {
  for (const Figure& f : answer.figures) {
    if (f.of == of) return f.band.value;
  }
  return std::nullopt;
}

void add(Cautions& to, std::initializer_list<Caution> more) { to.insert(to.end(), more); }

bool wants_wipe(const SheetAsked* asked, const Faces& faces) {
  return asked && faces.oily() && !is_epoxy(asked->sheet->chemistry) &&
         sets(asked->sheet->chemistry) != Sets::by_solvent;
}

Cautions of_vapour(const SheetAsked* asked, const Faces& faces) {
  const bool cement = asked && (sets(asked->sheet->chemistry) == Sets::by_solvent ||
                                !asked->sheet->solvent.name.empty());
  const bool wipe = wants_wipe(asked, faces);
  Cautions out;
  if (cement || wipe) add(out, {Caution::solvent_vapour, Caution::fire, Caution::beside_hot_form});
  if (wipe) add(out, {Caution::oily_wipe});
  return out;
}

Cautions of_glue(const SheetAsked* asked) {
  if (!asked) return {};
  if (is_epoxy(asked->sheet->chemistry))
    return {Caution::sensitises_skin, Caution::no_sanding_uncured};
  if (asked->sheet->chemistry == Chemistry::polyurethane) return {Caution::isocyanates};
  if (asked->sheet->chemistry == Chemistry::cyanoacrylate) return {Caution::bonds_skin};
  return {};
}

Cautions of_form(const JointQuestion& q, const JointAnswer& so_far) {
  Cautions out;
  if (q.recipe.heat) add(out, {Caution::hot_form});
  const auto strain = value_of(so_far, FigureOf::bend_strain);
  if (strain && *strain > kStrainNeedsStrap.value) add(out, {Caution::strap_for_bend});
  return out;
}

Cautions of_moisture(const JointQuestion& q, const JointAnswer& so_far) {
  Cautions out;
  if (!q.joint.has(Trait::bracing) && q.joint.plate.value == 0) return out;
  const auto now = value_of(so_far, FigureOf::moisture_now);
  const auto service = value_of(so_far, FigureOf::moisture_service);
  if (q.joint.has(Trait::bracing) && now) {
    if (q.humidity < kBracingDriest) add(out, {Caution::bracing_too_dry});
    if (q.humidity > kBracingDampest) add(out, {Caution::bracing_too_damp});
  }
  if (now && service && std::abs(*now - *service) > kMoistureOff)
    add(out, {Caution::plate_will_move});
  return out;
}

// A caul in the recipe spreads what a bare pad would crush; what the whole line presses with, it does not make less.
Cautions of_gear(const JointQuestion& q, const JointAnswer& so_far) {
  Cautions out;
  const auto& needs = q.recipe.needs;
  const bool caul = std::any_of(needs.begin(), needs.end(),
                                [](const GearNeed& n) { return n.gear_class == GearClass::caul; });
  const auto any = [&](auto holds) {
    return std::any_of(so_far.gear.begin(), so_far.gear.end(), holds);
  };
  if (any([&](const GearCount& c) {
        return (!caul && c.crush_share > 1) || c.achieved.low > c.crush.value;
      }))
    add(out, {Caution::pad_crushes});
  if (any([](const GearCount& c) { return c.bending_share.value_or(0) > kRodNearBreaking; }))
    add(out, {Caution::rod_near_breaking});
  return out;
}

bool can_hurt(Caution c) {
  switch (c) {
    case Caution::solvent_vapour:
    case Caution::fire:
    case Caution::beside_hot_form:
    case Caution::hot_form:
    case Caution::sensitises_skin:
    case Caution::no_sanding_uncured:
    case Caution::isocyanates:
    case Caution::bonds_skin:
    case Caution::rod_near_breaking:
      return true;
    default:
      return false;
  }
}

}  // namespace

std::vector<Caution> cautions_of(const JointQuestion& q, const JointAnswer& so_far) {
  const SheetAsked* asked = chosen_sheet(q);
  const auto known = faces_of(q.joint);
  const Faces faces = known ? *known : Faces{};
  Cautions out;
  for (const Cautions& some : {of_vapour(asked, faces), of_form(q, so_far), of_glue(asked),
                               of_moisture(q, so_far), of_gear(q, so_far)})
    out.insert(out.end(), some.begin(), some.end());
  if (asked && asked->coldest < asked->sheet->floor + kFloorNear)
    out.push_back(Caution::forecast_cold);
  if (asked) out.push_back(Caution::dry_run_first);
  if (std::any_of(out.begin(), out.end(), can_hurt)) out.push_back(Caution::local_codes_decide);
  return out;
}

}  // namespace squeezeout
