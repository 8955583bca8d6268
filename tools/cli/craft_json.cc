#include "tools/cli/craft_json.h"

#include <array>

#include "client/words/craft.h"

namespace squeezeout::cli {
namespace {

// Keys for scripts, in the order of the enumerations: they stay when a screen's words change.
struct FigureKey {
  const char* name;
  const char* unit;
};
constexpr std::array<FigureKey, kFigures> kFigureKeys{{{"open_time", "s"},
                                                       {"closed_time", "s"},
                                                       {"assembly", "s"},
                                                       {"overrun_chance", "1"},
                                                       {"dwell", "s"},
                                                       {"wait", "s"},
                                                       {"full_cure", "s"},
                                                       {"coldest_wood", "C"},
                                                       {"clamps", "pieces"},
                                                       {"clamps_by_spread", "pieces"},
                                                       {"clamps_by_pressure", "pieces"},
                                                       {"pressure_wanted", "MPa"},
                                                       {"pressure_achieved", "MPa"},
                                                       {"clamp_force", "N"},
                                                       {"crush", "MPa"},
                                                       {"crush_share", "1"},
                                                       {"rod_force", "N"},
                                                       {"rod_bending", "MPa"},
                                                       {"moisture_now", "%"},
                                                       {"moisture_service", "%"},
                                                       {"plate_movement", "mm"},
                                                       {"glue_water", "%"},
                                                       {"levelling_wait", "s"},
                                                       {"bend_strain", "%"},
                                                       {"safe_to_touch", "s"},
                                                       {"lot_age", "days"}}};
constexpr std::array<const char*, kRules> kRuleKeys{
    "usual",          "in_recipe",         "holds_oily",       "no_water",        "for_plastic",
    "comes_apart",    "not_in_recipe",     "oily_wood",        "not_for_plastic", "cement_on_wood",
    "stains_pale",    "water_beside_neck", "softens_when_hot", "gap_too_wide",    "not_reversible",
    "wants_practice", "below_floor",       "skins_first",      "may_skin",        "stale_lot",
    "old_lot",        "banned_solvent",    "sensitises"};
constexpr std::array<const char*, kCautions> kCautionKeys{"solvent_vapour",   "fire",
                                                          "beside_hot_form",  "hot_form",
                                                          "sensitises_skin",  "no_sanding_uncured",
                                                          "isocyanates",      "bonds_skin",
                                                          "oily_wipe",        "bracing_too_dry",
                                                          "bracing_too_damp", "plate_will_move",
                                                          "pad_crushes",      "rod_near_breaking",
                                                          "strap_for_bend",   "forecast_cold",
                                                          "dry_run_first",    "local_codes_decide"};
static_assert(kFigureKeys.back().name && kRuleKeys.back() && kCautionKeys.back());

constexpr std::array<const char*, kInputs> kInputKeys{
    "density", "water_share", "pad", "stated_force", "friction", "rod", "form_cooling"};
static_assert(kInputKeys.back());

Json inputs_json(const std::vector<Input>& inputs) {
  Json out = Json::array();
  for (const Input& i : inputs)
    out.push_back({{"input", kInputKeys.at(static_cast<std::size_t>(i.of))},
                   {"mark", to_string(i.mark)},
                   {"words", words::input(i)}});
  return out;
}

const char* verdict_key(Verdict v) {
  switch (v) {
    case Verdict::fits:
      return "fits";
    case Verdict::warn:
      return "warn";
    case Verdict::unfit:
      return "unfit";
    case Verdict::blocked:
      return "blocked";
  }
  CHECK(!"a verdict outside the enumeration");
}

}  // namespace

Json figure_json(const words::Context& c, const Figure& f) {
  const FigureKey& key = kFigureKeys.at(static_cast<std::size_t>(f.of));
  const GearKind* kind = c.floor.kind(f.kind);
  Json out{{"figure", key.name},
           {"unit", key.unit},
           {"low", f.band.low},
           {"value", f.band.value},
           {"high", f.band.high},
           {"gear", kind ? Json(kind->key) : Json(nullptr)},
           {"fixed", f.fixed ? Json(*f.fixed) : Json(nullptr)},
           {"n", f.n},
           {"words", words::figure(c, f)},
           {"formula", formula_json(f.by)},
           {"inputs", inputs_json(f.inputs)}};
  if (f.limit)
    out["limit"] = *f.limit == GearCount::Limit::even_line ? "even_line" : "least_pressure";
  return out;
}

Json formula_json(FormulaId id) {
  const Formula& f = formula(id);
  return {{"formula", f.anchor},
          {"name", f.name},
          {"source", f.source},
          {"mark", to_string(f.mark)},
          {"uncertainty", f.uncertainty}};
}

Json reasons_json(const std::vector<Reason>& reasons) {
  Json out = Json::array();
  for (const Reason& r : reasons)
    out.push_back({{"rule", kRuleKeys.at(static_cast<std::size_t>(r.rule))},
                   {"verdict", verdict_key(r.verdict)},
                   {"words", words::rule(r.rule)}});
  return out;
}

Json fitness_json(const words::Context& c, const Fitness& f) {
  const AdhesiveSheet* sheet = c.floor.sheet(f.sheet);
  return {{"glue", sheet ? Json(sheet->key) : Json(nullptr)},
          {"verdict", verdict_key(f.verdict)},
          {"reasons", reasons_json(f.reasons)},
          {"words", words::fitness_line(c, f)}};
}

Json caution_json(const words::Context& c, Caution caution) {
  return {{"caution", kCautionKeys.at(static_cast<std::size_t>(caution))},
          {"words", words::caution(c, caution)}};
}

Json out_of_range_json(const OutOfRange& why) {
  return {{"what", why.what}, {"value", why.value}, {"least", why.least},
          {"most", why.most}, {"mend", why.mend},   {"words", words::left_out(why)}};
}

}  // namespace squeezeout::cli
