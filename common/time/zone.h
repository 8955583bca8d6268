#pragma once
// The shop's civil time: one IANA zone, and the only place where instants and wall clocks meet.
//   Shape    local times are std::chrono::local_seconds; a DST night has a gap (no such time) and a repeat (two)
//   Refuses  UnknownZone: no such IANA name in the system's tz data
//   Source   the system's tzdata (IANA), read by zone.cc alone; offsets of 1900 to 2200 are read once, when the zone is found

#include <chrono>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "common/base/result.h"
#include "common/time/span.h"

namespace squeezeout {

using LocalTime = std::chrono::local_seconds;
using Date = std::chrono::year_month_day;

struct UnknownZone {
  std::string name;
};

class Zone {
 public:
  [[nodiscard]] static Result<Zone, UnknownZone> find(std::string_view iana_name);
  static Zone utc();

  const std::string& name() const { return name_; }
  LocalTime local(Instant t) const;
  // A time in the gap maps to the instant at which the gap ends; a repeated time to its first, or its second, occurrence.
  enum class Repeat { first, second };
  Instant instant(LocalTime t, Repeat which = Repeat::first) const;
  // True for a local time that occurs twice on this night (then screens add "(1st)" or "(2nd)").
  bool repeats(LocalTime t) const;
  bool in_gap(LocalTime t) const;
  Seconds offset(Instant t) const;
  Date date(Instant t) const;
  Span day(Date d) const;  // local midnight to local midnight: 23, 24 or 25 hours

 private:
  struct Stretch {  // of one offset, from `begin` until the next one's
    Instant begin;
    Seconds offset;
  };
  using Stretches = std::vector<Stretch>;  // never empty, in order
  Zone(std::string name, std::shared_ptr<const Stretches> stretches)
      : name_(std::move(name)), stretches_(std::move(stretches)) {}
  Stretches::const_iterator at(Instant t) const;
  // What a wall clock can mean by t: one instant, two on a repeat, or none in a gap (then where the gap ends).
  struct Meaning {
    Instant first, second;
    enum class Kind { once, twice, never } kind;
  };
  Meaning meaning(LocalTime t) const;

  std::string name_;
  std::shared_ptr<const Stretches> stretches_;
};

}  // namespace squeezeout
