// Sides in a heated form: strain of the bend, and when the form may be touched.

#include "common/craft/told.h"
#include "common/trade/bend.h"

namespace squeezeout {
namespace {

// A form loses two thirds of its warmth in half an hour: our assumption, half as fast to half as fast again.
constexpr Seconds kFormCools = Minutes{30};
constexpr double kFormCoolsOff = 0.5;

}  // namespace

Told told_of_bend(const JointQuestion& q) {
  Told told;
  if (q.joint.radius.value != 0) {
    const auto strain = bend_strain(q.joint.thickness, q.joint.radius);
    if (strain)
      told.add(FigureOf::bend_strain, FormulaId::bend_strain, strain->value);
    else
      told.leave_out(strain.error());
  }
  if (q.recipe.heat && q.recipe.heat->form.value != 0) {
    const auto safe = safe_to_touch_in(q.recipe.heat->form, q.air, kFormCools);
    if (safe) {
      const auto s = static_cast<double>(safe->count());
      told.add({.of = FigureOf::safe_to_touch,
                .by = FormulaId::touch,
                .band = within(s, kFormCoolsOff),
                .inputs = {{InputOf::form_cooling, Mark::our_model}}});
    } else {
      told.leave_out(safe.error());
    }
  }
  return told;
}

}  // namespace squeezeout
