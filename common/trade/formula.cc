#include "common/trade/formula.h"

#include <array>

#include "common/base/check.h"

namespace squeezeout {
namespace {

// In the order of FormulaId.
constexpr std::array<Formula, kFormulas> kAll{{
    {"emc", "Equilibrium moisture of wood", "USDA Wood Handbook, FPL-GTR-282, Eq. 4-5",
     Mark::published, "about 1 % moisture between species; no hysteresis"},
    {"movement", "Movement across the grain",
     "USDA Wood Handbook, FPL-GTR-282, Eq. 13-2 and Table 13-5", Mark::published,
     "a board may move a third more or less; 6 to 14 % moisture only"},
    {"glue_water", "Water that the glue brings", "our own mass balance", Mark::our_model,
     "as good as the spread that is measured"},
    {"levelling_wait", "Wait until that water is gone", "our model: first order, by thickness",
     Mark::our_model, "a factor of two; the straight-edge decides"},
    {"vapour_pressure", "Saturation vapour pressure",
     "ASHRAE Fundamentals, ch. 1, Eq. 6 (Hyland and Wexler)", Mark::published, "0.03 %"},
    {"evaporation", "Evaporation of water", "Uno, ACI Materials Journal 95(4), 1998",
     Mark::published, "40 %: fitted to fresh concrete"},
    {"open_time", "Open time at the hour", "our model: the sheet's time by evaporation or reaction",
     Mark::our_model, "30 %; the shop's own trials replace it"},
    {"sheets", "Times of a glue", "", Mark::practice,
     "a third; the label on the bottle and the shop's own trials override it"},
    {"dwell", "Dwell from the sheet's points",
     "our model: straight lines between the shop's own points", Mark::our_model,
     "a third, as the points"},
    {"reaction", "Dwell of a reacting glue",
     "Arrhenius; activation energy 55 to 60 kJ/mol, Thermochimica Acta 447 (2006) 167",
     Mark::published, "15 % for 5 kJ/mol over 20 degrees"},
    {"cure", "Cure adds up over the night",
     "our model: the rate is integrated over the wood's temperature", Mark::our_model,
     "a third for what loses water, 15 % for what reacts; as good as the forecast"},
    {"wood_lag", "Wood follows the air", "our model: first order, time constant by thickness",
     Mark::our_model, "1 C at the coldest; a factor of two in the time constant"},
    {"pressure_wanted", "Pressure a joint wants",
     "USDA Wood Handbook, ch. 10, from memory; the line between is ours", Mark::recalled,
     "small well-fitted joints hold with far less"},
    {"screw_force", "Force of a screw clamp",
     "Shigley, Mechanical Engineering Design, Eq. 8-1 to 8-5", Mark::published,
     "40 %: friction is 0.10 to 0.20"},
    {"count_by_force", "Clamps for the pressure", "pressure times area over force", Mark::our_model,
     "as good as force and pressure"},
    {"count_by_spread", "Clamps for an even line", "", Mark::practice,
     "force spreads at 45 degrees from the pad"},
    {"pad_crush", "Pressure that crushes under a pad", "UFC 3-130, Table 2-2", Mark::published,
     "a quarter between boards"},
    {"go_bar", "Force of a go-bar",
     "Timoshenko and Gere, Theory of Elastic Stability, Table 2-4 (elastica)", Mark::published,
     "20 %: the rod's own stiffness"},
    {"go_bar_bending", "Bending stress in a go-bar",
     "Timoshenko and Gere, Theory of Elastic Stability (elastica)", Mark::published,
     "20 %: the rod's own stiffness"},
    {"materials", "Woods and plastics",
     "USDA Wood Handbook, FPL-GTR-282, Table 13-5; densities from memory", Mark::recalled,
     "a tenth of the density"},
    {"bend_strain", "Strain of a bent side", "thickness over the radius at mid-thickness",
     Mark::our_model, "exact for a plain bend; the limit of 2 % is from memory"},
    {"touch", "Hot to the touch", "ISO 13732-1, from memory", Mark::recalled,
     "bare metal for some seconds; people differ"},
    {"mass_from_ppm", "Vapour by mass", "ppm times molar mass over 24.45 (25 C, 101.3 kPa)",
     Mark::published, "exact at 25 C"},
    {"exposure_twa", "Eight-hour average", "29 CFR 1910.1000(d)(1)", Mark::published,
     "as good as the amounts"},
    {"exposure_mixture", "Several vapours together", "29 CFR 1910.1000(d)(2)", Mark::published,
     "as good as the amounts"},
    {"dilution", "Vapour thins out", "well-mixed room: C2 = C1 exp(-Q t / V)", Mark::our_model,
     "a factor of three: rooms mix badly"},
    {"exposure_limits", "Limits for vapours",
     "29 CFR 1910.1000 and NIOSH; local codes and the data sheet decide", Mark::published,
     "the law where you are decides"},
    {"fitness", "Which glue suits", "", Mark::practice, "a test joint decides"},
    {"assembly_time", "Time to get the clamps on", "the shop's own glue-ups: an order statistic",
     Mark::our_model, "one in five takes longer"},
    {"overrun_chance", "Chance to miss the open time",
     "rule of succession on the shop's own glue-ups", Mark::our_model, "wide for few glue-ups"},
    {"lot_age", "Age of a bottle", "", Mark::practice, "a test joint decides"},
    {"stated_force", "Force of a piece as the shop states it", "", Mark::recalled,
     "20 %, from memory: a spring scale decides"},
}};

}  // namespace

std::string_view to_string(Mark m) {
  static constexpr std::array<std::string_view, 4> kWords{"published", "from memory",
                                                          "common practice", "our model"};
  return kWords.at(static_cast<std::size_t>(m));
}

const Formula& formula(FormulaId id) { return kAll.at(static_cast<std::size_t>(id)); }

}  // namespace squeezeout
