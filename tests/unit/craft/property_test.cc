// Whatever the joint, the shop and the weather: monotone counts, finite figures, and refusals in place of crashes.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "tests/unit/craft/craft_shop.h"

namespace squeezeout {
namespace {

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 1001) / 1000;
}
// What may stand in a shop file by mistake.
double any_number() {
  return *rc::gen::element(0.0, -1.0, 1e-9, 3.0, 1e6, 1e300, -1e300,
                           std::numeric_limits<double>::quiet_NaN(),
                           std::numeric_limits<double>::infinity());
}
std::string any_material() {
  const auto i = *rc::gen::inRange<std::size_t>(0, materials().size() + 1);
  return i == materials().size() ? "" : std::string{materials()[i].key};
}

Joint some_joint() {
  Joint j{.length = {between(5, 2000)},
          .width = {between(1, 300)},
          .a = {"a", any_material()},
          .b = {"b", any_material()},
          .thickness = {between(0.5, 60)},
          .under = {between(0, 60)},
          .gap = {between(0, 1)},
          .plate = {between(0, 500)},
          .radius = {between(0, 200)},
          .least_pressure = {between(0.05, 1)},
          .spread_g_m2 = between(50, 300)};
  for (int t = 0; t < kTraits; ++t) {
    if (*rc::gen::arbitrary<bool>()) j.traits.push_back(static_cast<Trait>(t));
  }
  return j;
}

Asked& with_any_hour(Asked& asked) {
  asked.air = {between(-1, 40)};
  asked.humidity = {between(5, 95)};
  const auto c = static_cast<Chemistry>(*rc::gen::inRange(0, kChemistries));
  if (asked.recipe.glues.empty()) return asked;
  asked.chosen = sheet_of(c);
  SheetAsked& one = asked.of(c);
  one.coldest = {between(-1, 40)};
  one.about.too_cold = *rc::gen::arbitrary<bool>();
  one.about.open = Seconds{*rc::gen::inRange(0, 10'000)};
  one.dwell = Seconds{*rc::gen::inRange(1, 400'000)};
  if (*rc::gen::arbitrary<bool>()) one.lot_days_left = between(-500, 500);
  const int n = *rc::gen::inRange(0, 200);
  asked.chance = {(between(0, n) + 1) / (n + 2), n};
  asked.assembly = {Minutes{*rc::gen::inRange(1, 60)}, n, n >= kSamplesToLearn};
  return asked;
}

Recipe any_recipe() {
  const auto all = craft_recipes();
  return all[*rc::gen::inRange<std::size_t>(0, all.size())];
}

bool in_order(const Band& b) {
  return std::isfinite(b.low) && std::isfinite(b.high) && b.low <= b.value && b.value <= b.high;
}

void hold_to_account(const JointAnswer& a) {
  for (const Figure& f : a.figures) {
    RC_LOG() << static_cast<int>(f.of) << ": " << f.band.low << ' ' << f.band.value << '\n';
    RC_ASSERT(in_order(f.band));
    RC_ASSERT(!formula(f.by).name.empty());
  }
  for (const GearCount& c : a.gear) {
    RC_ASSERT(in_order(c.wanted));
    RC_ASSERT(in_order(c.achieved));
    RC_ASSERT(in_order(c.force));
    RC_ASSERT(std::isfinite(c.crush.value));
    RC_ASSERT(std::isfinite(c.crush_share));
    RC_ASSERT(1 <= c.low);
    RC_ASSERT(c.low <= c.count);
    RC_ASSERT(c.count <= c.high);
    if (c.bending_share) RC_ASSERT(std::isfinite(*c.bending_share));
  }
  for (const OutOfRange& o : a.left_out) {
    RC_ASSERT(!(o.value >= o.least && o.value <= o.most));
    RC_ASSERT(o.least < o.most);
    RC_ASSERT(*o.what != '\0');
    RC_ASSERT(*o.mend != '\0');
  }
  const auto last = std::find(a.cautions.begin(), a.cautions.end(), Caution::local_codes_decide);
  if (last != a.cautions.end()) RC_ASSERT(last + 1 == a.cautions.end());
}

RC_GTEST_PROP(GearCount, MoreAreaNeverNeedsFewer, ()) {
  const auto gear = craft_gear();
  const GearKind& kind = gear[*rc::gen::inRange<std::size_t>(0, 6)];
  Joint joint = some_joint();
  joint.b.material = "mahogany";
  if (joint.a.material == "bone") joint.a.material = "";
  Joint larger = joint;
  larger.length = {joint.length.value * between(1, 3)};
  larger.width = {joint.width.value * between(1, 3)};
  const auto few = gear_count(joint, kind, {}, {665}), many = gear_count(larger, kind, {}, {665});
  RC_ASSERT(few.has_value());
  RC_ASSERT(many.has_value());
  RC_ASSERT(many->count >= few->count);
  RC_ASSERT(many->low >= few->low);
  RC_ASSERT(many->high >= few->high);
  RC_ASSERT(many->by_handbook >= few->by_handbook);
}

RC_GTEST_PROP(GearCount, AchievesTheLeastPressureAndAnEvenLine, ()) {
  const auto gear = craft_gear();
  const GearKind& kind = gear[*rc::gen::inRange<std::size_t>(0, 5)];
  Joint joint = some_joint();
  joint.a.material = joint.b.material = "koa";
  const GearCount c = gear_count(joint, kind, {}, {}).value();
  RC_ASSERT(c.achieved.value >= joint.least_pressure.value * (1 - 1e-9));
  const double pad = kind.pad.value > 0 ? kind.pad.value : kUsualPad.value;
  RC_ASSERT(c.count * (pad + 2 * joint.under.value) >= joint.length.value * (1 - 1e-9));
  // One fewer would miss one of the two.
  const double fewer = c.count - 1;
  if (fewer == 0) return;
  const double area = joint.length.value * joint.width.value;
  const bool weak = fewer * c.force.value < joint.least_pressure.value * area;
  const bool bare = fewer * (pad + 2 * joint.under.value) < joint.length.value;
  RC_ASSERT((weak || bare));
}

RC_GTEST_PROP(NeedsOf, IsWhatTheAnswerAsksFor, ()) {
  Asked asked{any_recipe()};
  if (asked.recipe.joint.length.value == 0) return;
  for (GearNeed& n : asked.recipe.needs) n.count = 0;
  const auto needs = needs_of(asked.recipe, asked.recipe.joint, asked.gear);
  const JointAnswer a = answer(asked.question());
  std::size_t i = 0;
  for (const GearNeed& n : needs) {
    if (n.gear_class != GearClass::clamp && n.gear_class != GearClass::go_bar) continue;
    RC_ASSERT(n.count == a.gear.at(i++).count);
  }
  RC_ASSERT(i == a.gear.size());
}

RC_GTEST_PROP(Answer, IsFiniteForEveryLegalJoint, ()) {
  Asked asked{any_recipe()};
  asked.recipe.joint = some_joint();
  const JointAnswer a = answer(with_any_hour(asked).question());
  RC_ASSERT(!a.unknown);
  RC_ASSERT(a.glues.size() == asked.sheets.size());
  hold_to_account(a);
}

RC_GTEST_PROP(Answer, LeavesOutWhatIsNoJoint, ()) {
  Asked asked{any_recipe()};
  Joint& j = asked.recipe.joint = some_joint();
  for (double* number :
       {&j.length.value, &j.width.value, &j.thickness.value, &j.under.value, &j.gap.value,
        &j.plate.value, &j.radius.value, &j.least_pressure.value, &j.spread_g_m2, &asked.air.value,
        &asked.humidity.value, &asked.chance.chance}) {
    if (*rc::gen::inRange(0, 3) == 0) *number = any_number();
  }
  for (SheetAsked& s : asked.sheets) {
    if (*rc::gen::arbitrary<bool>()) s.coldest = {any_number()};
    if (*rc::gen::arbitrary<bool>()) s.lot_days_left = any_number();
  }
  const JointAnswer a = answer(asked.question());
  hold_to_account(a);
  const double area = j.length.value * j.width.value;
  if (!(area > 0)) RC_ASSERT(a.gear.empty());
}

RC_GTEST_PROP(Answer, LeavesOutWhatIsNoGear, ()) {
  Asked asked{any_recipe()};
  asked.recipe.joint = some_joint();
  for (GearKind& k : asked.gear) {
    for (double* number :
         {&k.force.value, &k.pad.value, &k.torque.value, &k.rod_width.value, &k.rod_thickness.value,
          &k.rod_stiffness.value, &k.length.value, &k.opening.value}) {
      if (*rc::gen::inRange(0, 3) == 0) *number = any_number();
    }
    k.screw = *rc::gen::element<std::string>("", "Tr12x3", "M6", "coarse");
  }
  for (GearNeed& n : asked.recipe.needs) n.opening = n.length = {};
  hold_to_account(answer(asked.question()));
}

RC_GTEST_PROP(Answer, NamesAnUnknownWood, ()) {
  Asked asked{any_recipe()};
  asked.recipe.joint = some_joint();
  Face& face = *rc::gen::arbitrary<bool>() ? asked.recipe.joint.a : asked.recipe.joint.b;
  face.material = *rc::gen::element<std::string>("moon-cheese", "Sitka spruce", " ", "SITKA");
  const JointAnswer a = answer(with_any_hour(asked).question());
  RC_ASSERT(a.unknown.has_value());
  RC_ASSERT(a.unknown->key == face.material);
  RC_ASSERT(a.gear.empty());
  RC_ASSERT(a.glues.empty());
  hold_to_account(a);
}

}  // namespace
}  // namespace squeezeout
