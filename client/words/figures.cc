// Figures of the craft: value, band, what limits it; and where it comes from.

#include <fmt/format.h>

#include <cmath>

#include "client/words/craft.h"
#include "client/words/parts.h"
#include "client/words/say.h"
#include "common/base/check.h"

namespace squeezeout::words {
namespace {

enum class Unit { time, chance, celsius, pieces, megapascal, newton, share, percent, mm, days };

Unit unit_of(FigureOf of) {
  switch (of) {
    case FigureOf::open_time:
    case FigureOf::closed_time:
    case FigureOf::assembly:
    case FigureOf::dwell:
    case FigureOf::wait:
    case FigureOf::full_cure:
    case FigureOf::levelling_wait:
    case FigureOf::safe_to_touch:
      return Unit::time;
    case FigureOf::overrun_chance:
      return Unit::chance;
    case FigureOf::coldest_wood:
      return Unit::celsius;
    case FigureOf::clamps:
    case FigureOf::clamps_by_spread:
    case FigureOf::clamps_by_pressure:
      return Unit::pieces;
    case FigureOf::pressure_wanted:
    case FigureOf::pressure_achieved:
    case FigureOf::crush:
    case FigureOf::rod_bending:
      return Unit::megapascal;
    case FigureOf::clamp_force:
    case FigureOf::rod_force:
      return Unit::newton;
    case FigureOf::crush_share:
      return Unit::share;
    case FigureOf::moisture_now:
    case FigureOf::moisture_service:
    case FigureOf::glue_water:
    case FigureOf::bend_strain:
      return Unit::percent;
    case FigureOf::plate_movement:
      return Unit::mm;
    case FigureOf::lot_age:
      return Unit::days;
  }
  CHECK(!"a figure outside the enumeration");
}

constexpr double kInch = 25.4;  // mm

// As many digits as such a figure is worth.
std::string digits(double v) {
  const double size = std::abs(v);
  const int places = size >= 9.95 || size < 0.005 ? 0 : size >= 0.995 ? 1 : 2;
  return fmt::format("{:.{}f}", v + 0.0, places);
}

Seconds seconds(double v) { return Seconds{std::llround(v)}; }

bool in_inches(const Context& c) {
  return c.floor.shop && c.floor.shop->display.lengths == Display::Lengths::inch;
}

// A temperature carries its unit itself.
const char* unit_words(const Context& c, Unit unit) {
  switch (unit) {
    case Unit::chance:
    case Unit::share:
    case Unit::percent:
      return " %";
    case Unit::megapascal:
      return " MPa";
    case Unit::newton:
      return " N";
    case Unit::mm:
      return in_inches(c) ? " in" : " mm";
    case Unit::celsius:
    case Unit::time:
    case Unit::pieces:
    case Unit::days:
      return "";
  }
  CHECK(!"a unit outside the enumeration");
}

// Without its unit, where that is one and the same for all sizes.
std::string bare(const Context& c, Unit unit, double v) {
  switch (unit) {
    case Unit::time:
      return exact(seconds(v));
    case Unit::celsius:
      return degrees(c, {v});
    case Unit::chance:
    case Unit::share:
      return fmt::format("{:.0f}", v * 100);
    case Unit::pieces:
      return fmt::format("{:.0f}", v);
    case Unit::megapascal:
    case Unit::newton:
    case Unit::percent:
      return digits(v);
    case Unit::mm:
      return in_inches(c) ? fmt::format("{:.3f}", v / kInch) : digits(v);
    case Unit::days:
      return v < 0 ? say("{:.0f} days over", -v) : say("{:.0f} days left", v);
  }
  CHECK(!"a unit outside the enumeration");
}

// " (9 to 25)"; nothing where low and high read alike.
std::string band_words(const Context& c, Unit unit, const Band& band) {
  const std::string low = bare(c, unit, band.low), high = bare(c, unit, band.high);
  if (low == high) return "";
  return " " + say("({} to {}{})", low, high, unit_words(c, unit));
}

std::string pieces(const Context& c, const Figure& f) {
  const GearKind* kind = c.floor.kind(f.kind);
  const int n = static_cast<int>(std::lround(f.band.value));
  return kind ? number(n, kind->name) : say_n(n, "{} clamp", "{} clamps");
}

std::string limit_words(GearCount::Limit limit) {
  switch (limit) {
    case GearCount::Limit::even_line:
      return tr("set by an even line");
    case GearCount::Limit::least_pressure:
      return tr("set by the least pressure");
  }
  CHECK(!"a limit outside the enumeration");
}

// The number, and what it would not say on its own.
std::string value(const Context& c, const Figure& f) {
  const Unit unit = unit_of(f.of);
  if (unit == Unit::pieces) return pieces(c, f);
  const std::string number = bare(c, unit, f.band.value) + unit_words(c, unit);
  if (f.of == FigureOf::crush_share) return say("{} of what crushes the wood", number);
  if (f.of == FigureOf::overrun_chance) return say("{} of your glue-ups", number);
  return number;
}

// A sentence of the core.
std::string said(std::string_view english) { return tr(std::string(english).c_str()); }

bool learned_figure(FigureOf of) {
  return of == FigureOf::assembly || of == FigureOf::overrun_chance;
}

}  // namespace

std::string figure_name(FigureOf of) {
  switch (of) {
    case FigureOf::open_time:
      return tr("open time");
    case FigureOf::closed_time:
      return tr("faces met, until pressure");
    case FigureOf::assembly:
      return tr("time to get the clamps on");
    case FigureOf::overrun_chance:
      return tr("longer than the glue stays open");
    case FigureOf::dwell:
      return tr("clamped");
    case FigureOf::wait:
      return tr("wait before work");
    case FigureOf::full_cure:
      return tr("whole strength after");
    case FigureOf::coldest_wood:
      return tr("coldest that the wood gets");
    case FigureOf::clamps:
      return tr("how many");
    case FigureOf::clamps_by_spread:
      return tr("for an even line");
    case FigureOf::clamps_by_pressure:
      return tr("for the pressure");
    case FigureOf::pressure_wanted:
      return tr("pressure wanted");
    case FigureOf::pressure_achieved:
      return tr("pressure that they give");
    case FigureOf::clamp_force:
      return tr("force of one");
    case FigureOf::crush:
      return tr("what crushes the wood");
    case FigureOf::crush_share:
      return tr("pressure under a pad");
    case FigureOf::rod_force:
      return tr("force of one go-bar");
    case FigureOf::rod_bending:
      return tr("bending stress in the go-bar");
    case FigureOf::moisture_now:
      return tr("moisture of the wood here");
    case FigureOf::moisture_service:
      return tr("moisture where it will live");
    case FigureOf::plate_movement:
      return tr("movement of the plate");
    case FigureOf::glue_water:
      return tr("moisture that the glue adds");
    case FigureOf::levelling_wait:
      return tr("wait before levelling");
    case FigureOf::bend_strain:
      return tr("stretch of the bend");
    case FigureOf::safe_to_touch:
      return tr("form safe to touch after");
    case FigureOf::lot_age:
      return tr("bottle");
  }
  CHECK(!"a figure outside the enumeration");
}

std::string figure(const Context& c, const Figure& f) {
  std::string out = value(c, f) + band_words(c, unit_of(f.of), f.band);
  if (f.limit) out = added(out, limit_words(*f.limit));
  if (f.of == FigureOf::assembly && f.n < kSamplesToLearn) out = added(out, tr("by the recipe"));
  if (learned_figure(f.of)) out = added(out, say("n {}", f.n));
  return f.fixed ? say("{}; the recipe says {}", out, *f.fixed) : out;
}

std::string source(FormulaId id) {
  const Formula& known = formula(id);
  const std::string_view mark = to_string(known.mark);
  std::string from = known.source.empty() ? "" : said(known.source);
  if (known.source.find(mark) == std::string_view::npos) from = added(from, said(mark));
  return said(known.name) + ": " + from + "; " + said(known.uncertainty);
}

std::string input(const Input& in) {
  const auto what = [&] {
    switch (in.of) {
      case InputOf::density:
        return tr("densities");
      case InputOf::water_share:
        return tr("half of the glue as water");
      case InputOf::pad:
        return tr("a pad of 20 mm");
      case InputOf::stated_force:
        return tr("the force as the shop states it");
      case InputOf::friction:
        return tr("the friction of screws");
      case InputOf::rod:
        return tr("the rod's stiffness as the shop states it");
      case InputOf::form_cooling:
        return tr("half an hour for a form to cool");
    }
    CHECK(!"an input outside the enumeration");
  }();
  return what + " (" + said(to_string(in.mark)) + ")";
}

std::string figure_source(const Figure& f) {
  if (f.inputs.empty()) return source(f.by);
  std::vector<std::string> inputs;
  for (const Input& in : f.inputs) inputs.push_back(input(in));
  return say("{}; with {} in it", source(f.by), listed(inputs, Last::with_and));
}

}  // namespace squeezeout::words
