// Open and closed time, assembly, dwell, wait, full cure and the bottle's age: what the hour and the shop's own glue-ups say.

#include <cmath>

#include "common/craft/told.h"

namespace squeezeout {
namespace {

constexpr double kOpenTimeOff = 0.30;  // of our model
constexpr double kReactionOff = 0.15;  // 5 kJ/mol over twenty degrees
constexpr double kSheetOff = 1.0 / 3;  // times of one chemistry, about their middle
constexpr double kColdestOff = 1;      // C, of our model

double seconds(Seconds s) { return static_cast<double>(s.count()); }

Figure about(FigureOf of, FormulaId by, double value, double off) {
  return {.of = of, .by = by, .band = within(value, off)};
}

// Solvent's stands on the sheet; the others' follows the air.
Figure open_for(FigureOf of, const SheetAsked& asked, double value) {
  if (sets(asked.sheet->chemistry) == Sets::by_solvent)
    return about(of, FormulaId::sheets, value, 0);
  return about(of, FormulaId::open_time, value, kOpenTimeOff);
}

// The sheet's closed time becomes longer or shorter as its open time does.
Told open_told(const SheetAsked& asked) {
  Told told;
  const double open = seconds(asked.about.open);
  told.add(open_for(FigureOf::open_time, asked, open));
  const AdhesiveSheet& sheet = *asked.sheet;
  if (sheet.closed > Seconds{0} && sheet.open > Seconds{0})
    told.add(open_for(FigureOf::closed_time, asked,
                      open * (seconds(sheet.closed) / seconds(sheet.open))));
  return told;
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

// What the recipe orders is as it orders it, where the glue asks for no more.
Figure dwell(const Recipe& recipe, const SheetAsked& asked) {
  const double value = seconds(asked.dwell);
  if (recipe.dwell && *recipe.dwell == asked.dwell)
    return about(FigureOf::dwell, FormulaId::sheets, value, 0);
  const bool reacts = asked.sheet->activation_kj > 0;
  return about(FigureOf::dwell, FormulaId::cure, value, reacts ? kReactionOff : kSheetOff);
}

// The wait, and the sheet's full cure, which the cold makes longer in the same measure.
Told wait_told(const Recipe& recipe, const SheetAsked& asked) {
  Told told;
  const Seconds warm = recipe.wait.value_or(asked.sheet->wait);
  const FormulaId by = asked.wait == warm ? FormulaId::sheets : FormulaId::cure;
  const bool ordered = recipe.wait && asked.wait == warm;
  told.add(about(FigureOf::wait, by, seconds(asked.wait), ordered ? 0 : kSheetOff));
  if (asked.sheet->full_cure <= Seconds{0}) return told;
  const double longer = warm > Seconds{0} ? seconds(asked.wait) / seconds(warm) : 1;
  told.add(about(FigureOf::full_cure, by, seconds(asked.sheet->full_cure) * longer, kSheetOff));
  return told;
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
  if (asked && asked->about.open > Seconds{0}) told.append(open_told(*asked));
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
  told.append(wait_told(q.recipe, *asked));
  if (const auto no = outside("temperature of the wood, C", asked->coldest.value, -60, 100,
                              "measure in degrees Celsius"))
    told.leave_out(*no);
  else
    told.add({.of = FigureOf::coldest_wood,
              .by = FormulaId::wood_lag,
              .band = {asked->coldest.value - kColdestOff, asked->coldest.value,
                       asked->coldest.value + kColdestOff}});
  if (!asked->lot_days_left) return told;
  if (const auto no = outside("days that the bottle is good for", *asked->lot_days_left, -1e5, 1e5,
                              "write down when the bottle was made or opened"))
    told.leave_out(*no);
  else
    told.add(FigureOf::lot_age, FormulaId::lot_age, *asked->lot_days_left);
  return told;
}

}  // namespace squeezeout
