// Times and lengths of time.

#include <fmt/format.h>

#include <array>

#include "client/words/say.h"
#include "client/words/words.h"

namespace squeezeout::words {
namespace {

constexpr std::array kWeekdays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
constexpr std::array kMonths{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                             "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
constexpr Seconds kMinute{60};
constexpr Seconds kHour{3600};
constexpr Seconds kDay{24 * 3600};

Zone zone_of(const Context& c) { return c.floor.zone ? *c.floor.zone : Zone::utc(); }

std::string weekday(Date d) { return tr(kWeekdays[std::chrono::weekday{d}.c_encoding()]); }

std::string date_words(Date d) {
  return fmt::format("{} {} {}", weekday(d), unsigned{d.day()},
                     tr(kMonths[unsigned{d.month()} - 1]));
}

// "15:40", "3:40 pm"; noon is 12:00 pm.
std::string time_words(const Context& c, int hour, int minute) {
  if (!c.floor.shop || c.floor.shop->display.clock == Display::Clock::hours_24)
    return fmt::format("{}:{:02}", hour, minute);
  return fmt::format("{}:{:02} {}", (hour + 11) % 12 + 1, minute, hour < 12 ? "am" : "pm");
}

std::string hours_and_minutes(Seconds minutes) {
  return fmt::format("{} h {:02}", minutes / kHour, minutes % kHour / kMinute);
}

std::string days_and_hours(Seconds s) {
  const auto hours = s % kDay / kHour;
  return hours == 0 ? fmt::format("{} d", s / kDay) : fmt::format("{} d {} h", s / kDay, hours);
}

}  // namespace

std::string clock_only(const Context& c, Instant t) {
  if (t == kNever) return tr("no set time");
  const Zone zone = zone_of(c);
  const LocalTime local = std::chrono::floor<Minutes>(zone.local(t));
  const auto minute = local - std::chrono::floor<std::chrono::days>(local);
  std::string text =
      time_words(c, static_cast<int>(minute / kHour), static_cast<int>(minute % kHour / kMinute));
  if (zone.repeats(local))
    return zone.instant(local, Zone::Repeat::first) == std::chrono::floor<Minutes>(t)
               ? say("{} (1st)", text)
               : say("{} (2nd)", text);
  return text;
}

std::string clock(const Context& c, Instant t) {
  if (t == kNever) return clock_only(c, t);
  const Zone zone = zone_of(c);
  const Date today = zone.date(c.now);
  const Date date = zone.date(t);
  const auto ahead = (std::chrono::sys_days{date} - std::chrono::sys_days{today}).count();
  const std::string time = clock_only(c, t);
  if (ahead == 0) return time;
  if (ahead > 0 && ahead < 7) return fmt::format("{} {}", weekday(date), time);
  if (date.year() == today.year()) return fmt::format("{} {}", date_words(date), time);
  return fmt::format("{} {} {}", date_words(date), int{date.year()}, time);
}

std::string day(const Context& c, Instant t) { return date_words(zone_of(c).date(t)); }

std::string date(const Context& c, Instant t) {
  const Zone zone = zone_of(c);
  const Date that = zone.date(t);
  if (that.year() == zone.date(c.now).year()) return date_words(that);
  return fmt::format("{} {}", date_words(that), int{that.year()});
}

std::string length(Seconds s) {
  if (s < Seconds{0}) return "-" + length(-s);
  if (s < kMinute) return fmt::format("{} s", s.count());
  const Seconds rounded = (s + kMinute / 2) / kMinute * kMinute;
  if (rounded < kHour) return fmt::format("{} min", rounded / kMinute);
  if (rounded >= 2 * kDay) return days_and_hours(rounded);
  if (rounded % kHour == Seconds{0}) return fmt::format("{} h", rounded / kHour);
  return hours_and_minutes(rounded);
}

std::string countdown(Seconds s) {
  if (s < Seconds{0}) return say("{} over", countdown(-s));
  if (s < kMinute) return fmt::format("{} s", s.count());
  if (s < 10 * kMinute) return fmt::format("{} m {:02} s", s / kMinute, s % kMinute / Seconds{1});
  const Seconds up = (s + kMinute - Seconds{1}) / kMinute * kMinute;  // it never shows too little
  if (up < kHour) return fmt::format("{} min", up / kMinute);
  return up < kDay ? hours_and_minutes(up) : days_and_hours(up);
}

std::string exact(Seconds s) {
  return s >= kMinute && s < 10 * kMinute && s % kMinute != Seconds{0} ? countdown(s) : length(s);
}

}  // namespace squeezeout::words
