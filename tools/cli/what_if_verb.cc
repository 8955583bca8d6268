// What if the shop had more: the demand on record and ahead, placed again with one change at a time. It changes nothing.

#include <fmt/format.h>

#include <array>
#include <charconv>

#include "client/sync/overload.h"
#include "client/words/columns.h"
#include "client/words/plan.h"
#include "tools/cli/names.h"
#include "tools/cli/times.h"
#include "tools/cli/verbs.h"

namespace squeezeout::cli {
namespace {

using words::Align;
using Rows = std::vector<std::vector<std::string>>;

constexpr std::array kWeekdays{"sunday",   "monday", "tuesday", "wednesday",
                               "thursday", "friday", "saturday"};

struct WhatIfArgs {
  std::vector<std::string> more, days, away;
  std::vector<int> close_later, open_earlier;  // minutes
};

// ---- what is asked ----

// "cam=2", "cam=-1"; "cam" is one more.
MoreGear read_more(const Shop& shop, const std::string& text) {
  const std::size_t equals = text.rfind('=');
  MoreGear out{find_gear(shop, text.substr(0, equals)), 1};
  if (equals == std::string::npos) return out;
  const char* const end = text.data() + text.size();
  const auto [at, error] = std::from_chars(text.data() + equals + 1, end, out.more);
  constexpr int kMost = 999;
  if (error != std::errc{} || at != end || out.more == 0 || out.more < -kMost || out.more > kMost)
    wrong_use(fmt::format("\"{}\" is no change of gear.", text),
              fmt::format("After = stands how many more, up to {}.", kMost),
              "Write it as cam=2, or as cam=-1 for one fewer.");
  return out;
}

OpenOn read_day(const std::string& text) {
  for (std::size_t i = 0; i < kWeekdays.size(); ++i) {
    const std::string_view day = kWeekdays[i];
    if (text.size() >= 3 && day.starts_with(text)) return {static_cast<int>(i)};
  }
  wrong_use(fmt::format("\"{}\" is no day of the week.", text), "It does not read as one.",
            "Write it as sunday.");
}

bool is_date(const std::string& text) { return text.find(':') == std::string::npos; }

// "ida=2026-11-30..2026-12-04": whole days; with clock times, from then till then.
BuilderAway read_away(const words::Context& c, const std::string& text) {
  const std::size_t equals = text.find('=');
  const std::size_t dots = text.find("..", equals == std::string::npos ? 0 : equals);
  if (equals == std::string::npos || dots == std::string::npos)
    wrong_use(fmt::format("\"{}\" does not say who is away when.", text),
              "It is not BUILDER=FROM..TO.", "Write it as ida=2026-11-30..2026-12-04.");
  const std::string from = text.substr(equals + 1, dots - equals - 1);
  const std::string to = text.substr(dots + 2);
  const Span away{
      is_date(from) ? c.floor.zone->day(read_date(c, from)).begin
                    : read_time(c, from, Tense::coming),
      is_date(to) ? c.floor.zone->day(read_date(c, to)).end : read_time(c, to, Tense::coming)};
  if (away.empty())
    wrong_use(fmt::format("\"{}\" is no time away.", text), "It ends before it begins.",
              "Write the earlier one first.");
  return {find_builder(*c.floor.shop, text.substr(0, equals)), away};
}

std::vector<Hypothesis> read_changes(const words::Context& c, const WhatIfArgs& args) {
  std::vector<Hypothesis> out;
  for (const std::string& text : args.more) out.push_back(read_more(*c.floor.shop, text));
  for (int minutes : args.close_later) out.push_back(LongerHours{.later = Minutes{minutes}});
  for (int minutes : args.open_earlier) out.push_back(LongerHours{.earlier = Minutes{minutes}});
  for (const std::string& text : args.days) out.push_back(read_day(text));
  for (const std::string& text : args.away) out.push_back(read_away(c, text));
  return out;
}

// ---- what is told ----

Json change_json(const words::Context& c, const Hypothesis& h) {
  return std::visit(Overload{[&](const MoreGear& m) {
                               const GearKind* kind = c.floor.kind(m.kind);
                               return Json{{"kind", "more_gear"},
                                           {"gear", kind ? Json(kind->key) : Json(nullptr)},
                                           {"more", m.more}};
                             },
                             [](const LongerHours& l) {
                               return Json{{"kind", "longer_hours"},
                                           {"earlier_minutes", l.earlier.count()},
                                           {"later_minutes", l.later.count()}};
                             },
                             [](const OpenOn& o) {
                               return Json{
                                   {"kind", "open_on"},
                                   {"weekday", kWeekdays.at(static_cast<std::size_t>(o.weekday))}};
                             },
                             [&](const BuilderAway& b) {
                               const Builder* who = c.floor.builder(b.builder);
                               return Json{{"kind", "builder_away"},
                                           {"builder", who ? Json(who->key) : Json(nullptr)},
                                           {"from", time_json(c, b.away.begin)},
                                           {"until", time_json(c, b.away.end)}};
                             }},
                    h);
}

bool matters(const WhatIf& w) { return w.sooner > 0 || w.later > 0 || w.no_place > 0; }

// What was looked at, what it is worth, and how much there is to save.
std::string basis(const words::Context& c, Span demand, const WhatIf& any, Seconds waited) {
  std::string out =
      fmt::format("{} from {} to {}, placed again with one thing changed at a time{}\n",
                  words::number(any.glue_ups, "glue-up"), words::day(c, demand.begin),
                  words::day(c, demand.end),
                  any.glue_ups < kLittleDemand ? ": few, so this says little." : ".");
  out += waited > Seconds{0} ? fmt::format(
                                   "As things are, they wait {} in all for gear; what is saved may "
                                   "be waiting for the shop to open, too.\n",
                                   words::length(waited))
                             : "As things are, they do not wait for gear.\n";
  return out;
}

std::string ranking(const words::Context& c, const std::vector<WhatIf>& answers) {
  std::vector<words::Column> columns{
      {"what if"}, {"in all"}, {"sooner", Align::right}, {"later", Align::right}};
  const bool lost =
      std::any_of(answers.begin(), answers.end(), [](const WhatIf& w) { return w.no_place > 0; });
  if (lost) columns.push_back({"no place left", Align::right});
  Rows rows;
  std::string idle;
  for (const WhatIf& w : answers) {
    if (!matters(w)) {
      idle += (idle.empty() ? "" : ", ") + words::small(words::change(c, w.change));
      continue;
    }
    rows.push_back({words::change(c, w.change), words::saving(w), fmt::format("{}", w.sooner),
                    fmt::format("{}", w.later)});
    if (lost) rows.back().push_back(fmt::format("{}", w.no_place));
  }
  if (rows.empty()) return "No difference from any of these: " + idle + ".\n";
  std::string out = "\n" + words::table(columns, rows);
  if (answers.front().saved() <= Seconds{0}) out += "\nNothing of this would save waiting.\n";
  if (!idle.empty()) out += "\nNo difference: " + idle + ".\n";
  return out;
}

void say_what_if(Tool& tool, const WhatIfArgs& args) {
  const Session& session = tool.session();
  (void)session.shop();
  const words::Context c = session.context();
  std::vector<Hypothesis> changes = read_changes(c, args);
  if (changes.empty()) changes = usual_hypotheses(c.floor);
  const Span demand = demand_span(c.now, session.replica().since());
  const std::vector<WhatIf> answers = what_if(c.floor, demand, changes);

  Json list = Json::array();
  for (const WhatIf& w : answers)
    list.push_back({{"change", change_json(c, w.change)},
                    {"says", words::change(c, w.change)},
                    {"saved_seconds", w.saved().count()},
                    {"waited_seconds", w.waited.count()},
                    {"would_wait_seconds", w.would_wait.count()},
                    {"sooner", w.sooner},
                    {"later", w.later},
                    {"no_place", w.no_place}});
  const WhatIf& any = answers.front();
  const auto whole =
      std::find_if(answers.begin(), answers.end(), [](const WhatIf& w) { return w.no_place == 0; });
  const std::string text =
      any.glue_ups == 0
          ? "Nothing is on record yet to be placed again. Ask when the shop has glued for a few "
            "days.\n"
          : basis(c, demand, any, whole == answers.end() ? any.waited : whole->waited) +
                ranking(c, answers);
  tool.print(text, {{"from", time_json(c, demand.begin)},
                    {"until", time_json(c, demand.end)},
                    {"glue_ups", any.glue_ups},
                    {"answers", list}});
}

}  // namespace

void add_what_if_verb(CLI::App& app, Tool& tool) {
  const auto args = std::make_shared<WhatIfArgs>();
  CLI::App& verb = add_verb(
      app, tool, "what-if", "What more gear, longer hours or somebody away would do to waiting",
      "squeezeout what-if\n  squeezeout what-if --more cam=6 --close-later 60 --open-on sunday\n  "
      "squeezeout what-if --away ida=2026-11-30..2026-12-04\n"
      "Each change is tried alone, on what is on record and what is planned, each glue-up placed "
      "at its earliest.\nWaiting is counted against unlimited gear, nights included. Builders "
      "with hours of their own keep them.",
      [args](Tool& t) { say_what_if(t, *args); });
  const CLI::Range minutes{1, 12 * 60};
  verb.add_option("--more", args->more, "So many more of a kind (fewer: cam=-1)")
      ->type_name("KIND=N");
  verb.add_option("--close-later", args->close_later, "The shop stays open longer")
      ->type_name("MINUTES")
      ->check(minutes);
  verb.add_option("--open-earlier", args->open_earlier, "The shop opens earlier")
      ->type_name("MINUTES")
      ->check(minutes);
  verb.add_option("--open-on", args->days, "This day too, as long as on the longest")
      ->type_name("DAY");
  verb.add_option("--away", args->away, "A builder is not there from a day or time to another")
      ->type_name("BUILDER=FROM..TO");
}

}  // namespace squeezeout::cli
