#include "common/time/zone.h"

#include <date/tz.h>
#include <gtest/gtest.h>

#include "common/time/rfc3339.h"

namespace squeezeout {
namespace {

using namespace std::chrono_literals;

Instant at(const char* text) { return *parse_rfc3339(text); }
LocalTime local(int y, unsigned m, unsigned d, Seconds of_day) {
  return LocalTime{std::chrono::local_days{std::chrono::year{y} / static_cast<int>(m) /
                                           static_cast<int>(d)}} +
         of_day;
}

TEST(Zone, RefusesUnknownNames) {
  EXPECT_EQ(Zone::find("Europe/Nowhere").error().name, "Europe/Nowhere");
  EXPECT_FALSE(Zone::find(""));
}

struct Night {
  const char* zone;
  LocalTime gap, repeat;  // a local time inside each
  Instant gap_ends;       // what a time in the gap maps to
  Instant repeat_first, repeat_second;
  std::chrono::hours short_day, long_day;
};

TEST(Zone, BothDstNightsInTwoZones) {
  const Night nights[] = {
      {"Europe/Dublin", local(2026, 3, 29, 1h + 30min), local(2026, 10, 25, 1h + 30min),
       at("2026-03-29T01:00:00Z"), at("2026-10-25T00:30:00Z"), at("2026-10-25T01:30:00Z"), 23h,
       25h},
      {"America/New_York", local(2026, 3, 8, 2h + 30min), local(2026, 11, 1, 1h + 30min),
       at("2026-03-08T07:00:00Z"), at("2026-11-01T05:30:00Z"), at("2026-11-01T06:30:00Z"), 23h,
       25h},
  };
  for (const Night& n : nights) {
    const Zone z = *Zone::find(n.zone);
    EXPECT_TRUE(z.in_gap(n.gap)) << n.zone;
    EXPECT_FALSE(z.repeats(n.gap));
    EXPECT_EQ(z.instant(n.gap), n.gap_ends);
    EXPECT_TRUE(z.repeats(n.repeat));
    EXPECT_EQ(z.instant(n.repeat), n.repeat_first);
    EXPECT_EQ(z.instant(n.repeat, Zone::Repeat::second), n.repeat_second);
    EXPECT_EQ(z.local(n.repeat_first), z.local(n.repeat_second));
    EXPECT_EQ(z.day(z.date(n.gap_ends)).length(), n.short_day);
    EXPECT_EQ(z.day(z.date(n.repeat_first)).length(), n.long_day);
  }
}

TEST(Zone, LocalAndInstantAreInverseOutsideRepeats) {
  const Zone z = *Zone::find("Europe/Dublin");
  for (Instant t = at("2026-01-01T00:00:00Z"); t < at("2027-01-01T00:00:00Z"); t += 1777s) {
    const LocalTime l = z.local(t);
    if (z.repeats(l)) continue;
    ASSERT_EQ(z.instant(l), t) << rfc3339(t);
  }
}

// Against the tz library itself, hour by hour over years with odd rules, in zones with odd ones.
TEST(Zone, AgreesWithTheTzLibrary) {
  long looked = 0;
  for (const char* name :
       {"Europe/Dublin", "America/New_York", "Australia/Lord_Howe", "Asia/Kathmandu",
        "Africa/Casablanca", "Pacific/Apia", "America/St_Johns", "Etc/UTC"}) {
    const Zone zone = *Zone::find(name);
    const date::time_zone* rules = date::locate_zone(name);
    for (Instant t = at("2010-01-01T00:30:00Z"); t < at("2031-01-01T00:00:00Z");
         t += 30min, ++looked) {
      ASSERT_EQ(zone.offset(t), rules->get_info(t).offset) << name << " " << rfc3339(t);
      const LocalTime wall{t.time_since_epoch()};  // these figures on the wall
      const date::local_info info = rules->get_info(date::local_seconds{t.time_since_epoch()});
      ASSERT_EQ(zone.in_gap(wall), info.result == date::local_info::nonexistent)
          << name << " " << rfc3339(t);
      ASSERT_EQ(zone.repeats(wall), info.result == date::local_info::ambiguous)
          << name << " " << rfc3339(t);
      const Instant expected = info.result == date::local_info::nonexistent
                                   ? Instant{info.first.end}
                                   : Instant{t.time_since_epoch() - info.first.offset};
      ASSERT_EQ(zone.instant(wall), expected) << name << " " << rfc3339(t);
    }
  }
  EXPECT_GT(looked, 2'000'000);
}

}  // namespace
}  // namespace squeezeout
