#include <algorithm>

#include "client/draft/edit_parts.h"

namespace squeezeout::draft {
namespace {

using Day = std::vector<DaySpan>;
constexpr int kHalfHour = 30, kMidnight = 24 * 60;
constexpr DaySpan kUsualDay{8 * 60, 17 * 60}, kUsualBreak{12 * 60 + 30, 13 * 60};

void turn_break(Day& day) {
  if (day.size() > 1) {
    day = {{day.front().begin_minute, day.back().end_minute}};
    return;
  }
  if (day.empty()) return;
  const DaySpan whole = day.front();
  if (whole.begin_minute >= kUsualBreak.begin_minute || whole.end_minute <= kUsualBreak.end_minute)
    return;
  day = {{whole.begin_minute, kUsualBreak.begin_minute},
         {kUsualBreak.end_minute, whole.end_minute}};
}

}  // namespace

void edit_hours(WeekHours& hours, const Edit& edit) {
  if (edit.at < 0 || edit.at > 6) return;
  const auto at = static_cast<std::size_t>(edit.at);
  Day& day = hours.weekday[at];
  const auto least = [](const DaySpan& span) {  // a day of a file may be shorter than half an hour
    return std::min(kHalfHour, span.end_minute - span.begin_minute);
  };
  switch (edit.what) {
    case Edit::What::open_from:
      if (day.empty()) return;
      day.front().begin_minute = std::clamp(day.front().begin_minute + edit.by * kHalfHour, 0,
                                            day.front().end_minute - least(day.front()));
      break;
    case Edit::What::open_to:
      if (day.empty()) return;
      day.back().end_minute = std::clamp(day.back().end_minute + edit.by * kHalfHour,
                                         day.back().begin_minute + least(day.back()), kMidnight);
      break;
    case Edit::What::open_or_closed:
      day = day.empty() ? Day{kUsualDay} : Day{};
      break;
    case Edit::What::midday_break:
      turn_break(day);
      break;
    case Edit::What::as_day_before:
      day = hours.weekday[(at + 6) % 7];
      break;
    default:
      break;
  }
}

}  // namespace squeezeout::draft
