// What the weather did to a plan.

#include <fmt/format.h>

#include "client/words/parts.h"
#include "client/words/say.h"

namespace squeezeout::words {
namespace {

// "30 -> 60 min", "1 h 30 -> 2 h 10"
std::string change(Seconds before, Seconds after) {
  constexpr Seconds kInMinutes{2 * 3600};
  if (after > kInMinutes || before > kInMinutes) return length(before) + " -> " + length(after);
  return fmt::format("{} -> {} min", std::chrono::ceil<Minutes>(before).count(),
                     std::chrono::ceil<Minutes>(after).count());
}

bool longer(const WeatherNote& note) {
  return note.dwell > note.dwell_before && length(note.dwell) != length(note.dwell_before);
}

// Whose fault it is that a start moved.
std::string because(const Context& c, const GlueUp& g, const WeatherNote& note) {
  const GlueUp* by = c.floor.glue_up(note.because);
  if (by) {
    const std::string whose = of_owner(builder(c, by->builder)), what = recipe(c, by->recipe);
    return by->weather && longer(*by->weather)
               ? say("{} glue-up stays clamped longer ({})", whose, what)
               : say("{} glue-up is later ({})", whose, what);
  }
  const AdhesiveSheet* sheet = c.floor.sheet(g.sheet);
  if (!sheet) return tr("the weather");
  return note.coldest < sheet->floor ? say("too cold before for {}", glue(c, g))
                                     : say("{} would skin too soon before", glue(c, g));
}

// The clamps are on, or were: no plan can help it any more.
bool glued_below_floor(const Context& c, const GlueUp& g) {
  const AdhesiveSheet* sheet = c.floor.sheet(g.sheet);
  const bool glued = running(g) || g.progress == Progress::waiting;
  return glued && sheet && g.weather && g.weather->coldest < sheet->floor;
}

std::string how_cold(const Context& c, const GlueUp& g) {
  if (!glued_below_floor(c, g)) return degrees_whole(c, g.weather->coldest);
  const AdhesiveSheet& sheet = *c.floor.sheet(g.sheet);
  const std::string cold = degrees_below(c, g.weather->coldest), floor = degrees(c, sheet.floor);
  return sets(sheet.chemistry) == Sets::by_water
             ? say("{}, below its floor of {}: the film may not form, test it before you trust it",
                   cold, floor)
             : say("{}, below its floor of {}: it may not set, test it before you trust it", cold,
                   floor);
}

}  // namespace

std::string weather_short(const Context& c, const GlueUp& g) {
  if (!g.weather) return "";
  const WeatherNote& note = *g.weather;
  std::string out;
  if (note.moved_from) {
    const Instant to = g.times.stage_begin;
    const bool same_day = date(c, *note.moved_from) == date(c, to);
    out = say("moved {} -> {}", clock(c, *note.moved_from),
              same_day ? clock_only(c, to) : clock(c, to));
  }
  if (longer(note)) out = added(out, say("dwell {}", change(note.dwell_before, note.dwell)));
  return out;
}

std::string weather(const Context& c, const GlueUp& g) {
  const std::string what = weather_short(c, g);
  if (what.empty()) {
    if (glued_below_floor(c, g)) return how_cold(c, g);
    return g.progress == Progress::displaced ? snag(c, g) : "";
  }
  if (!g.weather->moved_from) return what + ": " + how_cold(c, g);
  return fmt::format("{}: {}, {}", what, because(c, g, *g.weather), how_cold(c, g));
}

}  // namespace squeezeout::words
