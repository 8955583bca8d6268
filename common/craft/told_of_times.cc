// Open time, assembly, dwell, wait and the bottle's age: what the hour and the shop's own glue-ups say.

#include <cmath>

#include "common/craft/told.h"

namespace squeezeout {
namespace {

constexpr double kOpenTimeOff = 0.30;  // of our model
constexpr double kReactionOff = 0.15;  // 5 kJ/mol over ten degrees

double seconds(Seconds s) { return static_cast<double>(s.count()); }

Figure about(FigureOf of, FormulaId by, double value, double off) {
  return {.of = of, .by = by, .band = {value * (1 - off), value, value * (1 + off)}};
}

Figure open_time(const SheetAsked& asked) {
  const double open = seconds(asked.about.open);
  if (sets(asked.sheet->chemistry) == Sets::by_solvent)
    return about(FigureOf::open_time, FormulaId::sheets, open, 0);
  return about(FigureOf::open_time, FormulaId::open_time, open, kOpenTimeOff);
}

// The chance's standard deviation with so few glue-ups (of the beta distribution behind the rule of succession).
Figure overrun(const OverrunChance& chance) {
  const double p = chance.chance;
  const double off = std::sqrt(p * (1 - p) / (chance.n + 3));
  return {.of = FigureOf::overrun_chance,
          .by = FormulaId::overrun_chance,
          .band = {std::max(0.0, p - off), p, std::min(1.0, p + off)},
          .n = chance.n};
}

// Nothing but the recipe asks for it, or the glue does.
Figure dwell(const Recipe& recipe, const SheetAsked& asked) {
  const double value = seconds(asked.dwell);
  if (recipe.dwell && *recipe.dwell == asked.dwell)
    return about(FigureOf::dwell, FormulaId::sheets, value, 0);
  const bool reacts = asked.sheet->activation_kj > 0;
  return about(FigureOf::dwell, FormulaId::cure, value, reacts ? kReactionOff : 0);
}

Figure wait(const Recipe& recipe, const SheetAsked& asked) {
  const bool by_sheet = asked.wait == recipe.wait.value_or(asked.sheet->wait);
  return about(FigureOf::wait, by_sheet ? FormulaId::sheets : FormulaId::cure, seconds(asked.wait),
               0);
}

Told without_glue(const Recipe& recipe) {
  Told told;
  const Seconds form = recipe.heat ? recipe.heat->hold + recipe.heat->cool : Seconds{0};
  if (const Seconds dwell = recipe.dwell.value_or(form); dwell > Seconds{0})
    told.add(FigureOf::dwell, FormulaId::sheets, seconds(dwell));
  if (recipe.wait) told.add(FigureOf::wait, FormulaId::sheets, seconds(*recipe.wait));
  return told;
}

}  // namespace

Told told_of_times(const JointQuestion& q) {
  Told told;
  const SheetAsked* asked = chosen_sheet(q);
  if (asked && asked->about.open > Seconds{0}) told.add(open_time(*asked));
  told.add({.of = FigureOf::assembly,
            .by = FormulaId::assembly_time,
            .band = {seconds(q.assembly.planned), seconds(q.assembly.planned),
                     seconds(q.assembly.planned)},
            .n = q.assembly.n});
  if (!asked) {
    told.append(without_glue(q.recipe));
    return told;
  }
  if (const auto no = outside("chance to miss the open time", q.chance.chance, 0, 1,
                              "give a part of the whole"))
    told.leave_out(*no);
  else if (q.chance.n >= kSamplesToLearn)  // fewer say nothing
    told.add(overrun(q.chance));
  told.add(dwell(q.recipe, *asked));
  told.add(wait(q.recipe, *asked));
  if (const auto no = outside("temperature of the wood, C", asked->coldest.value, -60, 100,
                              "measure in degrees Celsius"))
    told.leave_out(*no);
  else
    told.add(FigureOf::coldest_wood, FormulaId::wood_lag, asked->coldest.value);
  if (!asked->lot_days_left) return told;
  if (const auto no = outside("days that the bottle is good for", *asked->lot_days_left, -1e5, 1e5,
                              "write down when the bottle was made or opened"))
    told.leave_out(*no);
  else
    told.add(FigureOf::lot_age, FormulaId::lot_age, *asked->lot_days_left);
  return told;
}

}  // namespace squeezeout
