#include "common/time/rfc3339.h"

#include <array>
#include <cstdio>
#include <cstdlib>

namespace squeezeout {
namespace {

struct Reader {
  std::string_view rest;
  bool ok = true;

  int digits(int n) {
    int value = 0;
    for (int i = 0; i < n; ++i) {
      if (rest.empty() || rest.front() < '0' || rest.front() > '9') return ok = false, 0;
      value = value * 10 + (rest.front() - '0');
      rest.remove_prefix(1);
    }
    return value;
  }
  char one() {
    if (rest.empty()) return ok = false, '\0';
    const char c = rest.front();
    rest.remove_prefix(1);
    return c;
  }
  void expect(char upper, char lower) {
    const char c = one();
    if (c != upper && c != lower) ok = false;
  }
  void expect(char c) { expect(c, c); }
};

std::string text(LocalTime t) {
  const auto days = std::chrono::floor<std::chrono::days>(t);
  const Date d{days};
  const std::chrono::hh_mm_ss clock{t - days};
  std::array<char, 64> out{};
  std::snprintf(out.data(), out.size(), "%04d-%02u-%02uT%02d:%02d:%02d", static_cast<int>(d.year()),
                static_cast<unsigned>(d.month()), static_cast<unsigned>(d.day()),
                static_cast<int>(clock.hours().count()), static_cast<int>(clock.minutes().count()),
                static_cast<int>(clock.seconds().count()));
  return out.data();
}

}  // namespace

std::string rfc3339(Instant t) { return text(LocalTime{t.time_since_epoch()}) + "Z"; }

std::string rfc3339(Instant t, const Zone& zone) {
  const long minutes = static_cast<long>(zone.offset(t).count() / 60);
  std::array<char, 32> offset{};
  std::snprintf(offset.data(), offset.size(), "%c%02ld:%02ld", minutes < 0 ? '-' : '+',
                std::labs(minutes) / 60, std::labs(minutes) % 60);
  // The offset is written in whole minutes, so the local time is made from the offset as written.
  return text(LocalTime{t.time_since_epoch() + Minutes{minutes}}) + offset.data();
}

std::optional<Instant> parse_rfc3339(std::string_view given) {
  Reader r{given};
  const int year = r.digits(4);
  r.expect('-');
  const int month = r.digits(2);
  r.expect('-');
  const int day = r.digits(2);
  r.expect('T', 't');
  const int hour = r.digits(2);
  r.expect(':');
  const int minute = r.digits(2);
  r.expect(':');
  const int second = r.digits(2);
  if (r.ok && !r.rest.empty() && r.rest.front() == '.') {
    r.one();
    r.digits(1);
    while (r.ok && !r.rest.empty() && r.rest.front() >= '0' && r.rest.front() <= '9') r.one();
  }
  const char sign = r.one();
  int offset_hour = 0, offset_minute = 0;
  if (sign == '+' || sign == '-') {
    offset_hour = r.digits(2);
    r.expect(':');
    offset_minute = r.digits(2);
  } else if (sign != 'Z' && sign != 'z') {
    return std::nullopt;
  }
  const Date date{std::chrono::year{year}, std::chrono::month{static_cast<unsigned>(month)},
                  std::chrono::day{static_cast<unsigned>(day)}};
  if (!r.ok || !r.rest.empty() || !date.ok() || hour > 23 || minute > 59 || second > 59 ||
      offset_hour > 23 || offset_minute > 59) {
    return std::nullopt;
  }
  const Minutes offset{(sign == '-' ? -1 : 1) * (offset_hour * 60 + offset_minute)};
  return Instant{std::chrono::sys_days{date}} + std::chrono::hours{hour} + Minutes{minute} +
         Seconds{second} - offset;
}

}  // namespace squeezeout
