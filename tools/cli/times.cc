#include "tools/cli/times.h"

#include <fmt/format.h>

#include <optional>
#include <regex>

#include "common/time/rfc3339.h"
#include "tools/cli/stop.h"

namespace squeezeout::cli {
namespace {

constexpr Seconds kSlack = Minutes{2};  // people look at a clock, then type

[[noreturn]] void no_time(const std::string& text, const std::string& why) {
  wrong_use(
      fmt::format("\"{}\" is no time.", text), why,
      "Write it as 15:40 or 3:40 pm, as \"2026-11-27 9:30\", or as 2026-11-27T09:30:00+01:00.");
}

Zone zone_of(const words::Context& c) { return c.floor.zone ? *c.floor.zone : Zone::utc(); }

std::optional<Date> date_of(const std::string& text) {
  static const std::regex kDate(R"((\d{4})-(\d{1,2})-(\d{1,2}))");
  std::smatch part;
  if (!std::regex_match(text, part, kDate)) return std::nullopt;
  const Date d{std::chrono::year{std::stoi(part[1])},
               std::chrono::month{static_cast<unsigned>(std::stoul(part[2]))},
               std::chrono::day{static_cast<unsigned>(std::stoul(part[3]))}};
  return d.ok() ? std::optional{d} : std::nullopt;
}

std::vector<Instant> occurrences(const Zone& zone, LocalTime t, const std::string& which) {
  if (zone.in_gap(t)) return {};
  if (!zone.repeats(t)) return {zone.instant(t)};
  if (which == "1st") return {zone.instant(t, Zone::Repeat::first)};
  if (which == "2nd") return {zone.instant(t, Zone::Repeat::second)};
  return {zone.instant(t, Zone::Repeat::first), zone.instant(t, Zone::Repeat::second)};
}

LocalTime local(Date d, Minutes of_day) { return std::chrono::local_days{d} + of_day; }

// Of several instants, in order: the last that has been, or the first that is to come.
std::optional<Instant> pick(const std::vector<Instant>& in_order, Instant now, Tense tense) {
  std::optional<Instant> last;
  for (Instant t : in_order) {
    if (tense == Tense::coming && t >= now - kSlack) return t;
    if (tense == Tense::past && t <= now + kSlack) last = std::min(t, now);
  }
  return last;
}

// Of the day, 0 to 23; "am", "pm", or neither. nullopt: the clock has no such hour.
std::optional<int> hour_of(int given, const std::string& half) {
  if (half.empty()) return given <= 23 ? std::optional{given} : std::nullopt;
  if (given < 1 || given > 12) return std::nullopt;
  return given % 12 + (half == "pm" ? 12 : 0);
}

}  // namespace

Instant read_time(const words::Context& c, const std::string& text, Tense tense) {
  if (const auto t = parse_rfc3339(text)) return *t;
  static const std::regex kTime(
      R"((?:(\d{4}-\d{1,2}-\d{1,2})[ T])?(\d{1,2}):(\d{2})(?: ?(am|pm))?(?: ?\(?(1st|2nd)\)?)?)");
  std::smatch part;
  if (!std::regex_match(text, part, kTime)) no_time(text, "It does not read as one.");
  const auto hour = hour_of(std::stoi(part[2]), part[4]);
  if (!hour || std::stoi(part[3]) > 59)
    no_time(text, part[4].matched ? "The clock goes from 12:00 am to 11:59 pm."
                                  : "The clock goes from 0:00 to 23:59.");
  const Minutes of_day{*hour * 60 + std::stoi(part[3])};

  const Zone zone = zone_of(c);
  if (part[1].matched) {
    const auto date = date_of(part[1]);
    if (!date) no_time(text, "There is no such day.");
    const auto found = occurrences(zone, local(*date, of_day), part[5]);
    if (found.empty()) no_time(text, "The clock skips it that night.");
    return pick(found, c.now, tense).value_or(found.front());
  }
  const std::chrono::local_days today{zone.date(c.now)};
  std::vector<Instant> near;
  for (int ahead = -1; ahead <= 1; ++ahead)
    for (Instant t : occurrences(zone, today + std::chrono::days{ahead} + of_day, part[5]))
      near.push_back(t);
  const auto picked = pick(near, c.now, tense);
  if (!picked) no_time(text, "The clock skips it tonight.");
  return *picked;
}

Date read_date(const words::Context& c, const std::string& text) {
  const std::chrono::local_days today{zone_of(c).date(c.now)};
  if (text == "today") return Date{today};
  if (text == "yesterday") return Date{today - std::chrono::days{1}};
  if (text == "tomorrow") return Date{today + std::chrono::days{1}};
  if (const auto date = date_of(text)) return *date;
  wrong_use(fmt::format("\"{}\" is no date.", text), "It does not read as one.",
            "Write it as 2026-11-27, or today, yesterday, tomorrow.");
}

}  // namespace squeezeout::cli
