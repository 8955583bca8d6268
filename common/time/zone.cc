#include "common/time/zone.h"

#include <date/tz.h>

#include <stdexcept>

namespace squeezeout {
namespace {

const date::time_zone& rules_of(const void* rules) {
  return *static_cast<const date::time_zone*>(rules);
}
date::local_seconds to_date(LocalTime t) { return date::local_seconds{t.time_since_epoch()}; }
LocalTime from_date(date::local_seconds t) { return LocalTime{t.time_since_epoch()}; }

}  // namespace

Result<Zone, UnknownZone> Zone::find(std::string_view iana_name) {
  try {
    return Zone{std::string{iana_name}, date::locate_zone(std::string{iana_name})};
  } catch (const std::runtime_error&) {
    return Unexpected{UnknownZone{std::string{iana_name}}};
  }
}

Zone Zone::utc() { return Zone{"Etc/UTC", nullptr}; }

LocalTime Zone::local(Instant t) const {
  if (!rules_) return LocalTime{t.time_since_epoch()};
  return from_date(rules_of(rules_).to_local(t));
}

Instant Zone::instant(LocalTime t, Repeat which) const {
  if (!rules_) return Instant{t.time_since_epoch()};
  const date::local_info info = rules_of(rules_).get_info(to_date(t));
  switch (info.result) {
    case date::local_info::nonexistent:
      return info.first.end;
    case date::local_info::ambiguous:
      return Instant{t.time_since_epoch() -
                     (which == Repeat::first ? info.first : info.second).offset};
    default:
      return Instant{t.time_since_epoch() - info.first.offset};
  }
}

bool Zone::repeats(LocalTime t) const {
  return rules_ && rules_of(rules_).get_info(to_date(t)).result == date::local_info::ambiguous;
}

bool Zone::in_gap(LocalTime t) const {
  return rules_ && rules_of(rules_).get_info(to_date(t)).result == date::local_info::nonexistent;
}

Seconds Zone::offset(Instant t) const {
  return rules_ ? rules_of(rules_).get_info(t).offset : Seconds{0};
}

Date Zone::date(Instant t) const { return Date{std::chrono::floor<std::chrono::days>(local(t))}; }

Span Zone::day(Date d) const {
  const std::chrono::local_days first{d};
  return {instant(LocalTime{first}), instant(LocalTime{first + std::chrono::days{1}})};
}

}  // namespace squeezeout
