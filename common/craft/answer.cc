#include "common/craft/answer.h"

#include <algorithm>
#include <string_view>

#include "common/craft/faces.h"
#include "common/craft/told.h"

namespace squeezeout {
namespace {

bool presses(const GearNeed& need) {
  return need.gear_class == GearClass::clamp || need.gear_class == GearClass::go_bar;
}

struct GearTold {
  std::vector<GearCount> gear;
  Told told;
};

GearTold gear_of(const JointQuestion& q) {
  GearTold out;
  if (q.joint.length.value == 0) return out;  // not described
  const Millimetre gap = deck_gap_of(q.recipe, q.gear);
  for (const GearNeed& need : q.recipe.needs) {
    if (!presses(need)) continue;
    const GearKind* kind = plainest(need, q.gear);
    if (!kind) {
      out.told.leave_out({"kinds of gear that would do", 0, 1, 1000,
                          "own such gear, or ask less of it in the recipe"});
      continue;
    }
    const std::optional<int> fixed = need.count > 0 ? std::optional{need.count} : std::nullopt;
    const auto counted = gear_count(q.joint, *kind, fixed, gap);
    if (counted)
      out.gear.push_back(*counted);
    else if (const auto* why = std::get_if<OutOfRange>(&counted.error()))
      out.told.leave_out(*why);
  }
  out.told.append(told_of_gear(out.gear));
  return out;
}

std::vector<Fitness> glues_of(const JointQuestion& q) {
  std::vector<Fitness> all;
  for (const SheetAsked& asked : q.sheets) {
    if (const auto fit = fitness_of(q.joint, *asked.sheet, asked.about)) all.push_back(*fit);
  }
  return ranked(std::move(all));
}

}  // namespace

void Told::leave_out(const OutOfRange& why) {
  const bool said = std::any_of(left_out.begin(), left_out.end(), [&](const OutOfRange& o) {
    return std::string_view{o.what} == why.what;
  });
  if (!said) left_out.push_back(why);
}

void Told::append(const Told& more) {
  figures.insert(figures.end(), more.figures.begin(), more.figures.end());
  for (const OutOfRange& why : more.left_out) leave_out(why);
  unpublished.insert(unpublished.end(), more.unpublished.begin(), more.unpublished.end());
}

const SheetAsked* chosen_sheet(const JointQuestion& q) {
  for (const SheetAsked& asked : q.sheets) {
    CHECK(asked.sheet);
    if (q.chosen && asked.sheet->id == q.chosen) return &asked;
  }
  return nullptr;
}

JointAnswer answer(const JointQuestion& q) {
  JointAnswer out;
  const auto faces = faces_of(q.joint);
  if (!faces) out.unknown = faces.error();
  Told told = told_of_times(q);
  if (faces) {
    out.glues = glues_of(q);
    GearTold gear = gear_of(q);
    out.gear = std::move(gear.gear);
    told.append(gear.told);
  }
  told.append(told_of_wood(q, faces ? *faces : Faces{}));
  told.append(told_of_bend(q));
  out.figures = std::move(told.figures);
  out.left_out = std::move(told.left_out);
  out.unpublished = std::move(told.unpublished);
  out.cautions = cautions_of(q, out);
  return out;
}

}  // namespace squeezeout
