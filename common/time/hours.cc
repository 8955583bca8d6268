#include "common/time/hours.h"

#include <utility>

namespace squeezeout {
namespace {

const std::vector<DaySpan>& spans_on(const WeekHours& week, Date d) {
  if (const auto it = week.exceptions.find(d); it != week.exceptions.end()) return it->second;
  return week.weekday[std::chrono::weekday{std::chrono::sys_days{d}}.c_encoding()];
}

std::vector<DaySpan> both(const std::vector<DaySpan>& a, const std::vector<DaySpan>& b) {
  std::vector<DaySpan> out;
  for (const DaySpan& x : a) {
    for (const DaySpan& y : b) {
      const DaySpan common{std::max(x.begin_minute, y.begin_minute),
                           std::min(x.end_minute, y.end_minute)};
      if (common.begin_minute < common.end_minute) out.push_back(common);
    }
  }
  return out;
}

}  // namespace

Hours::Hours(Zone zone, WeekHours week) : zone_(std::move(zone)), week_(std::move(week)) {}
Hours::Hours(Zone zone, WeekHours a, WeekHours b)
    : zone_(std::move(zone)), week_(std::move(a)), also_(std::move(b)) {}

void Hours::spans_of_day(Date d, std::vector<Span>& out) const {
  const LocalTime midnight{std::chrono::local_days{d}};
  for (const DaySpan& s :
       also_ ? both(spans_on(week_, d), spans_on(*also_, d)) : spans_on(week_, d)) {
    const Span span{zone_.instant(midnight + Minutes{s.begin_minute}),
                    zone_.instant(midnight + Minutes{s.end_minute})};
    if (span.empty()) continue;  // the whole span fell into the gap of a DST night
    if (!out.empty() && out.back().end >= span.begin) {
      out.back().end = std::max(out.back().end, span.end);
    } else {
      out.push_back(span);
    }
  }
}

std::vector<Span> Hours::open_spans(Span within) const {
  std::vector<Span> days;
  if (within.empty()) return days;
  const std::chrono::days one{1};
  const auto first = std::chrono::sys_days{zone_.date(within.begin)} - one;
  const auto last = std::chrono::sys_days{zone_.date(within.end)} + one;
  for (auto d = first; d <= last; d += one) spans_of_day(Date{d}, days);
  std::vector<Span> out;
  for (const Span& s : days) {
    if (const Span clipped = s.intersect(within); !clipped.empty()) out.push_back(clipped);
  }
  return out;
}

std::optional<Span> Hours::open_at(Instant t) const {
  std::vector<Span> days;
  const auto today = std::chrono::sys_days{zone_.date(t)};
  for (int d = -1; d <= 1; ++d) spans_of_day(Date{today + std::chrono::days{d}}, days);
  for (const Span& s : days) {
    if (s.contains(t)) return s;
  }
  return std::nullopt;
}

std::optional<Instant> Hours::next_start(Seconds length, Instant t) const {
  const auto first = std::chrono::sys_days{zone_.date(t)};
  const auto days = std::chrono::floor<std::chrono::days>(kSearch).count();
  // Spans may touch across midnight, so a span is judged only when the day after it is known too.
  std::vector<Span> open;
  for (int d = -1; d <= days; ++d) {
    spans_of_day(Date{first + std::chrono::days{d}}, open);
    while (open.size() > 1 || (d == days && !open.empty())) {
      const Instant s = std::max(t, open.front().begin);
      if (open.front().end > s && s + length <= open.front().end) return s;
      open.erase(open.begin());
    }
    // The last known span already holds the answer, whatever follows it.
    if (!open.empty() && open.back().end > t &&
        std::max(t, open.back().begin) + length <= open.back().end) {
      return std::max(t, open.back().begin);
    }
  }
  return std::nullopt;
}

}  // namespace squeezeout
