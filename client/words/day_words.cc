#include "client/words/day_words.h"

#include <fmt/format.h>

#include "client/words/columns.h"
#include "client/words/parts.h"
#include "client/words/say.h"
#include "common/time/rfc3339.h"

namespace squeezeout::words {
namespace {

// A sheet is read on its own, so that its lines say "today" from the day's point of view.
Context on_the_day(const Context& c, const DaySheet& sheet) {
  return {c.floor, sheet.span.contains(c.now) ? c.now : sheet.span.begin};
}

std::string length_or_dash(const std::optional<Seconds>& s) { return s ? length(*s) : "-"; }

// "5 min > 4 min": planned, then what it was.
std::string planned_and_actual(const std::optional<Seconds>& planned,
                               const std::optional<Seconds>& actual) {
  if (!planned && !actual) return tr("-");
  return length_or_dash(planned) + " > " + length_or_dash(actual);
}

std::string late_words(const std::optional<Seconds>& late) {
  if (!late) return tr("-");
  if (*late > Seconds{0}) return "+" + length(*late);
  return *late == Seconds{0} ? tr("on time") : length(*late);
}

std::string heading(const Context& c, const DaySheet& sheet) {
  const std::string shop = c.floor.shop ? c.floor.shop->name : tr("no shop");
  std::string out =
      say("Day sheet  {} {}  {}", day(c, sheet.span.begin), int{sheet.date.year()}, shop);
  if (sheet.span.contains(c.now)) out += "  " + say("as of {}", clock_only(c, c.now));
  return cut(out, kDayColumns) + "\n";
}

std::string open_words(const Context& c, const DaySheet& sheet) {
  const bool today = sheet.span.contains(c.now);
  if (sheet.open_time == Seconds{0}) return today ? tr("Closed so far") : tr("Closed");
  const std::string open = length(sheet.open_time);
  return today ? say("Open {} so far", open) : say("Open {}", open);
}

std::string figures(const Context& c, const DaySheet& sheet) {
  return open_words(c, sheet) + "\n" +
         say("Started {}, finished {}, spoiled {}, lost their place {}, cancelled {}",
             sheet.started, sheet.finished, sheet.spoiled, sheet.displaced, sheet.cancelled) +
         "\n" + say("Waited for gear: {}", length(sheet.waited_for_gear)) + "\n";
}

std::string glue_ups(const Context& c, const DaySheet& sheet) {
  if (sheet.lines.empty()) return "\n" + tr("Nothing was glued.") + "\n";
  std::vector<std::vector<std::string>> rows;
  for (const DayLine& line : sheet.lines) {
    const GlueUp* g = c.floor.glue_up(line.glue_up);
    if (!g) continue;
    rows.push_back({fmt::format("{}", g->id.value), title(c, *g), builder(c, g->builder),
                    planned_and_actual(line.open_planned, line.open_actual),
                    planned_and_actual(line.dwell_planned, line.dwell_actual),
                    late_words(line.release_late)});
  }
  return "\n" + table({{tr("no."), Align::right, 6},
                       {tr("glue-up"), Align::left, 28},
                       {tr("builder"), Align::left, 12},
                       {tr("open plan > was"), Align::left, 17},
                       {tr("clamped plan > was"), Align::left, 18},
                       {tr("off late"), Align::left, 9}},
                      rows);
}

std::string kinds(const Context& c, const DaySheet& sheet) {
  std::string idle;
  std::vector<std::vector<std::string>> rows;
  for (const KindLine& line : sheet.kinds) {
    const GearKind* kind = c.floor.kind(line.kind);
    if (!kind) continue;
    if (line.held == Seconds{0} && line.waited == Seconds{0} && line.out_of_use == Seconds{0}) {
      idle = added(idle, small(kind->name));
      continue;
    }
    rows.push_back({kind->name, length(line.held), fmt::format("{:.0f} %", 100 * line.utilisation),
                    say("{} of {}", line.peak, c.floor.gear.stock(line.kind)), length(line.waited),
                    length(line.out_of_use)});
  }
  idle = idle.empty() ? "" : cut(say("not used: {}", idle), kDayColumns) + "\n";
  if (rows.empty()) return "\n" + idle;
  return "\n" +
         table({{tr("gear"), Align::left, 32},
                {tr("gear-time held"), Align::right},
                {tr("of open time"), Align::right},
                {tr("at most"), Align::right},
                {tr("waited for"), Align::right},
                {tr("out of use"), Align::right}},
               rows) +
         idle;
}

std::string overnight(const Context& c, const DaySheet& sheet) {
  if (sheet.curing_overnight.empty()) return "\n" + tr("Curing overnight: nothing.") + "\n";
  std::vector<std::vector<std::string>> rows;
  for (GlueUpId id : sheet.curing_overnight)
    if (const GlueUp* g = c.floor.glue_up(id))
      rows.push_back({title(c, *g), builder(c, g->builder), clock(c, g->times.release_begin),
                      clock(c, g->times.ready_at)});
  return "\n" + table({{tr("curing overnight"), Align::left, 40},
                       {tr("builder"), Align::left, 16},
                       {tr("off"), Align::left, 18},
                       {tr("ready"), Align::left, 18}},
                      rows);
}

// The next thing to be done on it.
std::string next_work(const Context& c, const GlueUp& g) {
  if (g.progress == Progress::reserved) return say("start, {}", gear(c, g.held));
  if (g.progress == Progress::clamped) return tr("clamps off");
  const Recipe* r = c.floor.recipe(g.recipe);
  return r && !r->finish.empty() ? r->finish : tr("ready");
}

std::string tomorrow(const Context& c, const DaySheet& sheet) {
  if (sheet.first_tomorrow.empty()) return "\n" + tr("First tomorrow: nothing.") + "\n";
  std::vector<std::vector<std::string>> rows;
  for (const NextCall& call : sheet.first_tomorrow) {
    const GlueUp* g = c.floor.glue_up(call.glue_up);
    if (!g) continue;
    rows.push_back({clock(c, call.at), title(c, *g), builder(c, g->builder), next_work(c, *g)});
  }
  return "\n" + table({{tr("first tomorrow"), Align::left, 18},
                       {tr("glue-up"), Align::left, 30},
                       {tr("builder"), Align::left, 12},
                       {tr("what"), Align::left, 34}},
                      rows);
}

std::string time_cell(const Context& c, const std::optional<Instant>& t) {
  if (!t) return "";
  return c.floor.zone ? rfc3339(*t, *c.floor.zone) : rfc3339(*t);
}

std::string seconds_cell(const std::optional<Seconds>& s) {
  return s ? fmt::format("{}", s->count()) : "";
}

std::string date_cell(const DaySheet& sheet) {
  return fmt::format("{:04}-{:02}-{:02}", int{sheet.date.year()}, unsigned{sheet.date.month()},
                     unsigned{sheet.date.day()});
}

}  // namespace

std::string day_text(const Context& live, const DaySheet& sheet) {
  const Context c = on_the_day(live, sheet);
  return heading(live, sheet) + figures(live, sheet) + glue_ups(c, sheet) + kinds(c, sheet) +
         overnight(c, sheet) + tomorrow(c, sheet);
}

Cells day_cells(const Context& c, const DaySheet& sheet) {
  Cells cells{{"date", "glue_up", "build", "recipe", "builder", "bench", "glue", "progress",
               "started_at", "clamped_at", "off_at", "ended_at", "open_planned_seconds",
               "open_actual_seconds", "dwell_planned_seconds", "dwell_actual_seconds",
               "release_late_seconds", "waited_for_gear_seconds"}};
  for (const DayLine& line : sheet.lines) {
    const GlueUp* g = c.floor.glue_up(line.glue_up);
    if (!g) continue;
    const Build* build = c.floor.build(g->build);
    cells.push_back({date_cell(sheet), fmt::format("{}", g->id.value), build ? build->name : "",
                     recipe(c, g->recipe), g->builder ? builder(c, g->builder) : "",
                     g->bench ? bench(c, g->bench) : "", g->sheet ? glue(c, *g) : "",
                     std::string(progress_word(g->progress)), time_cell(c, g->started_at),
                     time_cell(c, g->clamped_at), time_cell(c, g->off_at),
                     time_cell(c, g->ended_at), seconds_cell(line.open_planned),
                     seconds_cell(line.open_actual), seconds_cell(line.dwell_planned),
                     seconds_cell(line.dwell_actual), seconds_cell(line.release_late),
                     seconds_cell(g->waited_for_gear)});
  }
  return cells;
}

Cells day_gear_cells(const Context& c, const DaySheet& sheet) {
  Cells cells{{"date", "gear", "name", "stock", "held_seconds", "out_of_use_seconds", "utilisation",
               "peak", "waited_seconds"}};
  for (const KindLine& line : sheet.kinds) {
    const GearKind* kind = c.floor.kind(line.kind);
    if (!kind) continue;
    cells.push_back({date_cell(sheet), kind->key, kind->name,
                     fmt::format("{}", c.floor.gear.stock(line.kind)), seconds_cell(line.held),
                     seconds_cell(line.out_of_use), fmt::format("{:.4f}", line.utilisation),
                     fmt::format("{}", line.peak), seconds_cell(line.waited)});
  }
  return cells;
}

}  // namespace squeezeout::words
