#pragma once
// Opening hours: when attended work can be done, in civil time of the shop's zone.
//   Shape    by weekday, spans of minutes after local midnight within [0, 1440], sorted, apart; a date may have its own
//   Units    minutes of the wall clock; a DST night shortens or lengthens a span as the clock on the wall does

#include <array>
#include <map>
#include <optional>
#include <vector>

#include "common/time/span.h"
#include "common/time/zone.h"

namespace squeezeout {

struct DaySpan {
  int begin_minute = 0;
  int end_minute = 0;
  friend auto operator<=>(const DaySpan&, const DaySpan&) = default;
};

struct WeekHours {
  std::array<std::vector<DaySpan>, 7> weekday;  // 0 = Sunday, as std::chrono::weekday::c_encoding
  std::map<Date, std::vector<DaySpan>>
      exceptions;  // these dates only; an empty list is a closed day
  friend bool operator==(const WeekHours&, const WeekHours&) = default;
};

class Hours {
 public:
  Hours(Zone zone, WeekHours week);            // one calendar
  Hours(Zone zone, WeekHours a, WeekHours b);  // open only when both are (shop and builder)

  // The open spans that touch `within`, in order, apart, clipped to it.
  std::vector<Span> open_spans(Span within) const;
  // The open span that holds t, if any.
  std::optional<Span> open_at(Instant t) const;
  // The earliest s >= t such that [s, s + length) is open without a break; none within kSearch of t is nullopt.
  // Monotone in t. length 0 asks for an instant at which the shop is open.
  std::optional<Instant> next_start(Seconds length, Instant t) const;
  const Zone& zone() const { return zone_; }

  static constexpr Seconds kSearch = std::chrono::hours{24 * 120};

 private:
  void spans_of_day(Date d, std::vector<Span>& out) const;
  Zone zone_;
  WeekHours week_;
  std::optional<WeekHours> also_;
};

}  // namespace squeezeout
