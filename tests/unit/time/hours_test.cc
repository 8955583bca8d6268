#include "common/time/hours.h"

#include <gtest/gtest.h>

#include "common/time/rfc3339.h"

namespace squeezeout {
namespace {

using namespace std::chrono_literals;

Instant at(const char* text) { return *parse_rfc3339(text); }

WeekHours weekdays(int from_hour, int to_hour) {
  WeekHours w;
  for (unsigned d = 1; d <= 5; ++d) w.weekday[d] = {{from_hour * 60, to_hour * 60}};
  return w;
}

const Zone kDublin = *Zone::find("Europe/Dublin");

TEST(Hours, NextStartStaysOrMovesToTheNextOpening) {
  const Hours h{kDublin, weekdays(8, 17)};
  EXPECT_EQ(h.next_start(30min, at("2026-11-26T10:00:00Z")), at("2026-11-26T10:00:00Z"));
  EXPECT_EQ(h.next_start(30min, at("2026-11-26T16:30:00Z")),
            at("2026-11-26T16:30:00Z"));  // ends at closing
  EXPECT_EQ(h.next_start(30min, at("2026-11-26T16:30:01Z")), at("2026-11-27T08:00:00Z"));
  EXPECT_EQ(h.next_start(30min, at("2026-11-27T16:45:00Z")),
            at("2026-11-30T08:00:00Z"));  // over the weekend
  EXPECT_EQ(h.next_start(0s, at("2026-11-26T17:00:00Z")), at("2026-11-27T08:00:00Z"));
  EXPECT_EQ(h.next_start(10h, at("2026-11-26T08:00:00Z")), std::nullopt);  // longer than any day
}

TEST(Hours, ExceptionsReplaceTheWeekday) {
  WeekHours w = weekdays(8, 17);
  using namespace std::chrono;
  w.exceptions[2026y / 11 / 27] = {};
  w.exceptions[2026y / 11 / 28] = {{9 * 60, 12 * 60}};
  const Hours h{kDublin, w};
  EXPECT_EQ(h.next_start(1h, at("2026-11-26T16:30:00Z")), at("2026-11-28T09:00:00Z"));
  EXPECT_FALSE(h.open_at(at("2026-11-27T10:00:00Z")));
}

TEST(Hours, TwoCalendarsAreOpenTogether) {
  WeekHours part;
  part.weekday[4] = {{6 * 60, 10 * 60}, {13 * 60, 20 * 60}};
  const Hours h{kDublin, weekdays(8, 17), part};
  const auto spans = h.open_spans({at("2026-11-26T00:00:00Z"), at("2026-11-27T00:00:00Z")});
  ASSERT_EQ(spans.size(), 2U);
  EXPECT_EQ(spans[0], (Span{at("2026-11-26T08:00:00Z"), at("2026-11-26T10:00:00Z")}));
  EXPECT_EQ(spans[1], (Span{at("2026-11-26T13:00:00Z"), at("2026-11-26T17:00:00Z")}));
}

TEST(Hours, SpansThatTouchAtMidnightAreOne) {
  WeekHours w;
  w.weekday[4] = {{20 * 60, 24 * 60}};
  w.weekday[5] = {{0, 4 * 60}};
  const Hours h{kDublin, w};
  EXPECT_EQ(h.next_start(6h, at("2026-11-26T12:00:00Z")), at("2026-11-26T20:00:00Z"));
  EXPECT_EQ(h.open_at(at("2026-11-27T01:00:00Z"))->length(), 8h);
}

// A night shift from 22:00 to 06:00 lasts 7 hours when clocks go forward and 9 when they go back.
TEST(Hours, DstNightsStretchAndShrink) {
  WeekHours w;
  w.weekday[6] = {{22 * 60, 24 * 60}};
  w.weekday[0] = {{0, 6 * 60}};
  const Hours dublin{kDublin, w};
  EXPECT_EQ(dublin.open_at(at("2026-03-29T03:00:00Z"))->length(), 7h);
  EXPECT_EQ(dublin.open_at(at("2026-10-25T03:00:00Z"))->length(), 9h);
  const Hours york{*Zone::find("America/New_York"), w};
  EXPECT_EQ(york.open_at(at("2026-03-08T05:00:00Z"))->length(), 7h);
  EXPECT_EQ(york.open_at(at("2026-11-01T05:00:00Z"))->length(), 9h);
}

// The answer of next_start against a walk minute by minute.
TEST(Hours, NextStartAgreesWithAWalk) {
  WeekHours w = weekdays(8, 17);
  w.weekday[0] = {{60, 150}};  // touches the DST hour
  const Hours h{kDublin, w};
  for (Instant t = at("2026-10-24T12:00:00Z"); t < at("2026-10-26T12:00:00Z"); t += 1021s) {
    for (const Seconds length : {Seconds{60}, Seconds{1800}, Seconds{3600}, Seconds{9000}}) {
      std::optional<Instant> walked;
      for (Instant s = t; !walked; s += 1s) {
        if (s != t && s.time_since_epoch() % 60s != 0s) s = std::chrono::ceil<Minutes>(s);
        bool open = true;
        for (Instant x = s; x < s + length && open; x += 30s)
          open = h.open_at(x) && h.open_at(x)->end >= std::min(x + 30s, s + length);
        if (open) walked = s;
      }
      ASSERT_EQ(h.next_start(length, t), walked) << rfc3339(t) << " " << length.count();
    }
  }
}

}  // namespace
}  // namespace squeezeout
