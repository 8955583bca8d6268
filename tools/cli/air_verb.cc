// What solvent goes into the shop's air on a day.

#include <fmt/format.h>

#include "client/words/columns.h"
#include "client/words/craft.h"
#include "common/report/solvent.h"
#include "tools/cli/craft_json.h"
#include "tools/cli/times.h"
#include "tools/cli/verbs.h"

namespace squeezeout::cli {
namespace {

using words::Align;
using Rows = std::vector<std::vector<std::string>>;

const char* set_name(LimitSet set) { return set == LimitSet::osha ? "OSHA" : "NIOSH"; }

std::string ppm(Ppm level) { return fmt::format("{:.3g} ppm", level.value); }
std::string share(double part) { return fmt::format("{:.2g} % of the limit", part * 100); }

// Which limit counts: the set's own, or a stricter rule of the EPA.
std::string limit_words(const SolventFacts& s, LimitSet set) {
  const Ppm level = limit(s, set);
  const char* by = level == s.epa                               ? "EPA"
                   : level == s.niosh && set == LimitSet::niosh ? "NIOSH"
                                                                : "OSHA";
  const std::string mark = s.mark == Mark::published ? "" : fmt::format(", {}", to_string(s.mark));
  return fmt::format("{} ({}{})", ppm(level), by, mark);
}

std::string sums_text(const DayOfSolvent& day, LimitSet set) {
  if (!day.greatest) return "";
  const SolventFacts& most = *day.greatest;
  std::string out = fmt::format(
      "peak      {} of {} after the greatest use, {}; limit {}\n", ppm(day.peak), most.name,
      share(day.peak.value / limit(most, set).value), limit_words(most, set));
  out += fmt::format("air it    {}\n",
                     day.airing > Minutes{0}
                         ? words::length(day.airing) + " after it, till it is at the limit"
                         : "not needed for the limit");
  for (const SolventAverage& a : day.averages)
    out += fmt::format("average   {} of {} over 8 h, {}\n", ppm(a.average), a.solvent->name,
                       share(a.average.value / a.limit.value));
  if (day.averages.size() > 1) out += fmt::format("together  {}\n", share(day.mixture));
  return out;
}

Json solvent_json(const SolventFacts* s) { return s ? Json(s->key) : Json(nullptr); }

Json sums_json(const DayOfSolvent& day) {
  Json averages = Json::array();
  for (const SolventAverage& a : day.averages)
    averages.push_back({{"solvent", solvent_json(a.solvent)},
                        {"average_ppm", a.average.value},
                        {"limit_ppm", a.limit.value}});
  return {{"greatest", solvent_json(day.greatest)},
          {"peak_ppm", day.peak.value},
          {"airing_minutes", day.airing.count()},
          {"averages", averages},
          {"share_of_limit", day.mixture}};
}

void say_air(Tool& tool, const std::string& date) {
  const Shop& shop = tool.session().shop();
  const words::Context c = tool.session().context();
  const SolventSheet sheet = solvent_sheet(c.floor, read_date(c, date));
  const Room& room = shop.room;

  Rows rows;
  Json uses = Json::array();
  std::string unknown;
  for (const SolventLine& line : sheet.lines) {
    const GlueUp& g = c.floor.glue_ups.at(line.glue_up);
    const std::string name =
        line.solvent ? std::string(line.solvent->name) : c.floor.sheet(g.sheet)->solvent.name;
    if (!line.solvent) unknown = name;
    rows.push_back({fmt::format("{}", line.glue_up.value), words::title(c, g),
                    words::builder(c, g.builder), words::clock(c, line.spread),
                    g.started_at ? "spread" : "planned", name, fmt::format("{:g} g", line.grams)});
    uses.push_back({{"glue_up", line.glue_up.value},
                    {"spread", time_json(c, line.spread)},
                    {"planned", !g.started_at},
                    {"solvent", name},
                    {"grams", line.grams}});
  }
  std::string text = fmt::format("Solvent in the air, {}\n", words::day(c, sheet.span.begin));
  if (rows.empty()) {
    text += "None is used on this day.\n";
  } else {
    text += words::table({{"no.", Align::right},
                          {"glue-up"},
                          {"builder"},
                          {"glue wet"},
                          {""},
                          {"solvent"},
                          {"grams", Align::right}},
                         rows) +
            "\n";
    if (room.volume_m3 == 0)
      text +=
          "No sums: the shop file does not say how large the room is (room { volume_m3, "
          "air_m3_per_minute }).\n";
    else if (!sheet.sums)
      text += words::left_out(sheet.sums.error()) + "\n";
    else
      text += fmt::format("room      {:g} m3, aired with {:g} m3 a minute; limits of {}\n",
                          room.volume_m3, room.air_m3_per_minute, set_name(room.limits)) +
              sums_text(*sheet.sums, room.limits);
    if (!unknown.empty())
      text += fmt::format("NOT in the sums: {}, which has no limit here.\n", unknown);
  }
  text += words::caution(c, Caution::local_codes_decide) + "\n";
  tool.print(text,
             {{"date_begin", time_json(c, sheet.span.begin)},
              {"uses", uses},
              {"limits", set_name(room.limits)},
              {"sums", sheet.sums ? sums_json(*sheet.sums) : Json(nullptr)},
              {"left_out", sheet.sums ? Json(nullptr) : out_of_range_json(sheet.sums.error())},
              {"says", words::caution(c, Caution::local_codes_decide)}});
}

}  // namespace

void add_air_verb(CLI::App& app, Tool& tool) {
  const auto date = std::make_shared<std::string>("today");
  add_verb(app, tool, "air", "Solvent in the shop's air on a day, against the limits",
           "squeezeout air --date tomorrow", [date](Tool& t) { say_air(t, *date); })
      .add_option("--date", *date, "2026-11-26, today, yesterday or tomorrow")
      ->type_name("DATE")
      ->capture_default_str();
}

}  // namespace squeezeout::cli
