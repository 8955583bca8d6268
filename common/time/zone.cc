#include "common/time/zone.h"

#include <date/tz.h>

#include <algorithm>
#include <stdexcept>

namespace squeezeout {

Result<Zone, UnknownZone> Zone::find(std::string_view iana_name) {
  using std::chrono::sys_days;
  using std::chrono::year;
  const Instant first{sys_days{year{1900} / 1 / 1}}, last{sys_days{year{2200} / 1 / 1}};
  try {
    const date::time_zone* rules = date::locate_zone(std::string{iana_name});
    auto stretches = std::make_shared<Stretches>();
    for (Instant t = first; t < last;) {
      const date::sys_info info = rules->get_info(t);
      if (stretches->empty() || stretches->back().offset != info.offset) {
        stretches->push_back({t, info.offset});
      }
      if (info.end <= t) break;  // no more changes are known
      t = info.end;
    }
    return Zone{std::string{iana_name}, std::move(stretches)};
  } catch (const std::runtime_error&) {
    return Unexpected{UnknownZone{std::string{iana_name}}};
  }
}

Zone Zone::utc() {
  return Zone{"Etc/UTC", std::make_shared<Stretches>(Stretches{{Instant{}, Seconds{0}}})};
}

Zone::Stretches::const_iterator Zone::at(Instant t) const {
  const auto after = std::upper_bound(stretches_->begin(), stretches_->end(), t,
                                      [](Instant i, const Stretch& s) { return i < s.begin; });
  return after == stretches_->begin() ? after : std::prev(after);
}

Zone::Meaning Zone::meaning(LocalTime t) const {
  // No offset is as long as a day, so the candidates lie within a day of the same figures read as UTC.
  const Instant as_utc{t.time_since_epoch()};
  auto it = at(as_utc - std::chrono::hours{24});
  for (;; ++it) {
    const Instant here = as_utc - it->offset;
    const auto next = std::next(it);
    if (next == stretches_->end() || here < next->begin) {
      // Valid in this stretch (or in the gap before it); the one before may claim the same wall clock.
      if (it != stretches_->begin()) {
        const auto before = std::prev(it);
        if (here < it->begin) return {it->begin, it->begin, Meaning::Kind::never};
        const Instant earlier = as_utc - before->offset;
        if (earlier < it->begin && earlier != here) return {earlier, here, Meaning::Kind::twice};
      }
      if (next != stretches_->end()) {
        const Instant later = as_utc - next->offset;
        if (later >= next->begin) return {here, later, Meaning::Kind::twice};
      }
      return {here, here, Meaning::Kind::once};
    }
  }
}

LocalTime Zone::local(Instant t) const { return LocalTime{t.time_since_epoch() + at(t)->offset}; }

Instant Zone::instant(LocalTime t, Repeat which) const {
  const Meaning m = meaning(t);
  return which == Repeat::first ? m.first : m.second;
}

bool Zone::repeats(LocalTime t) const { return meaning(t).kind == Meaning::Kind::twice; }

bool Zone::in_gap(LocalTime t) const { return meaning(t).kind == Meaning::Kind::never; }

Seconds Zone::offset(Instant t) const { return at(t)->offset; }

Date Zone::date(Instant t) const { return Date{std::chrono::floor<std::chrono::days>(local(t))}; }

Span Zone::day(Date d) const {
  const std::chrono::local_days first{d};
  return {instant(LocalTime{first}), instant(LocalTime{first + std::chrono::days{1}})};
}

}  // namespace squeezeout
