#include "proto/hours_convert.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>

#include "shop.pb.h"

namespace squeezeout {
namespace {

// As people write a week: Monday first. The index in WeekHours is (i + 1) % 7.
constexpr std::array<std::string_view, 7> kDays = {"mon", "tue", "wed", "thu", "fri", "sat", "sun"};
const std::vector<DaySpan>& of_day(const WeekHours& hours, std::size_t day) {
  return hours.weekday[(day + 1) % 7];
}

std::optional<std::size_t> day_index(std::string_view name) {
  const auto it = std::find(kDays.begin(), kDays.end(), name);
  if (it == kDays.end()) return std::nullopt;
  return static_cast<std::size_t>(it - kDays.begin());
}

// Digits only, all of them.
std::optional<int> digits(std::string_view s) {
  int v = 0;
  if (s.empty() || !std::all_of(s.begin(), s.end(), [](char c) { return '0' <= c && c <= '9'; }))
    return std::nullopt;
  if (std::from_chars(s.data(), s.data() + s.size(), v).ec != std::errc{}) return std::nullopt;
  return v;
}

std::optional<DaySpan> read_span(const At& at, const v1::OpenHours& m) {
  const auto from = time_of_day(at("from"), m.from()), to = time_of_day(at("to"), m.to());
  if (!from || !to) return std::nullopt;
  if (*from < *to) return DaySpan{*from, *to};
  at("to").wrong(fmt::format("is \"{}\", not after from \"{}\"", time_text(*to), time_text(*from)),
                 "let `to` be later than `from`; hours past midnight are two entries");
  return std::nullopt;
}

void add_span(const At& at, std::vector<DaySpan>& day, DaySpan span) {
  for (const DaySpan& other : day)
    if (span.begin_minute < other.end_minute && other.begin_minute < span.end_minute)
      return at.wrong(fmt::format("overlaps {} to {} of the same day",
                                  time_text(other.begin_minute), time_text(other.end_minute)),
                      "make one entry of them, or keep them apart");
  day.insert(std::upper_bound(day.begin(), day.end(), span), span);
}

void read_weekday_hours(const At& at, const v1::OpenHours& m, WeekHours& week) {
  const std::string& days = m.days();
  const std::size_t dash = days.find('-');
  const auto first = day_index(std::string_view(days).substr(0, dash));
  const auto last =
      dash == std::string::npos ? first : day_index(std::string_view(days).substr(dash + 1));
  if (!first || !last || *last < *first)
    at("days").wrong(fmt::format("\"{}\" names no days", text(at("days"), days)),
                     "write \"mon\", \"sat\" or \"mon-fri\"; the week begins on mon");
  const auto span = read_span(at, m);
  if (!span || !first || !last) return;
  for (std::size_t day = *first; day <= *last; ++day)
    add_span(at, week.weekday[(day + 1) % 7], *span);
}

void write_span(DaySpan span, v1::OpenHours* m) {
  m->set_from(time_text(span.begin_minute));
  m->set_to(time_text(span.end_minute));
}

}  // namespace

OpenHoursList weekdays_to_wire(const WeekHours& hours) {
  OpenHoursList list;
  for (std::size_t first = 0, next = 0; first < 7; first = next) {
    for (next = first + 1; next < 7 && of_day(hours, next) == of_day(hours, first);) ++next;
    for (const DaySpan& span : of_day(hours, first)) {
      v1::OpenHours* m = list.Add();
      m->set_days(std::string(kDays[first]));
      if (next - first > 1) m->set_days(fmt::format("{}-{}", kDays[first], kDays[next - 1]));
      write_span(span, m);
    }
  }
  return list;
}

ExceptionList exceptions_to_wire(const WeekHours& hours) {
  ExceptionList list;
  for (const auto& [date, spans] : hours.exceptions) {
    v1::DayException* m = list.Add();
    m->set_date(date_text(date));
    for (const DaySpan& span : spans) write_span(span, m->add_hours());
  }
  return list;
}

WeekHours from_wire(const At& at, const OpenHoursList& hours, const ExceptionList& exceptions) {
  WeekHours week;
  if (!few_enough(at("hours"), hours.size()) || !few_enough(at("exception"), exceptions.size()))
    return week;
  for (int i = 0; i < hours.size(); ++i) read_weekday_hours(at("hours", i), hours[i], week);
  for (int i = 0; i < exceptions.size(); ++i) {
    const At here = at("exception", i);
    const v1::DayException& m = exceptions[i];
    std::vector<DaySpan> spans;
    if (!few_enough(here("hours"), m.hours_size())) continue;
    for (int j = 0; j < m.hours_size(); ++j) {
      const At span_at = here("hours", j);
      if (!m.hours(j).days().empty())
        span_at("days").wrong("is given for one date", "leave it out");
      if (const auto span = read_span(span_at, m.hours(j))) add_span(span_at, spans, *span);
    }
    const auto date = parse_date(m.date());
    if (!date)
      here("date").wrong(fmt::format("\"{}\" is no date", text(here("date"), m.date())),
                         "write it as \"2026-12-24\"");
    else if (!week.exceptions.emplace(*date, std::move(spans)).second)
      here("date").wrong(fmt::format("\"{}\" comes twice", m.date()),
                         "put all hours of a date into one exception");
  }
  return week;
}

std::string time_text(int minute) { return fmt::format("{:02}:{:02}", minute / 60, minute % 60); }

std::optional<int> time_of_day(const At& at, const std::string& s, int last) {
  if (s.size() == 5 && s[2] == ':') {
    const auto hour = digits(std::string_view(s).substr(0, 2)),
               minute = digits(std::string_view(s).substr(3));
    if (hour && minute && *minute < 60 && *hour * 60 + *minute <= last) return *hour * 60 + *minute;
  }
  at.wrong(fmt::format("\"{}\" is no time of day", text(at, s)),
           fmt::format("write it as \"08:00\", up to \"{}\"", time_text(last)));
  return std::nullopt;
}

std::string date_text(Date date) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

std::optional<Date> parse_date(std::string_view s) {
  if (s.size() != 10 || s[4] != '-' || s[7] != '-') return std::nullopt;
  const auto year = digits(s.substr(0, 4)), month = digits(s.substr(5, 2)),
             day = digits(s.substr(8));
  if (!year || !month || !day || *year < 1970) return std::nullopt;
  const Date date{std::chrono::year{*year}, std::chrono::month{static_cast<unsigned>(*month)},
                  std::chrono::day{static_cast<unsigned>(*day)}};
  if (!date.ok()) return std::nullopt;
  return date;
}

}  // namespace squeezeout
