// Source: RFC 3339, section 5.8 (examples) and section 5.6 (grammar).

#include "common/time/rfc3339.h"

#include <gtest/gtest.h>

namespace squeezeout {
namespace {

Instant utc(int y, unsigned m, unsigned d, int h, int min, int s) {
  return Instant{std::chrono::sys_days{std::chrono::year{y} / static_cast<int>(m) /
                                       static_cast<int>(d)}} +
         std::chrono::hours{h} + Minutes{min} + Seconds{s};
}

TEST(Rfc3339, ExamplesOfSection58) {
  EXPECT_EQ(parse_rfc3339("1985-04-12T23:20:50.52Z"), utc(1985, 4, 12, 23, 20, 50));
  EXPECT_EQ(parse_rfc3339("1996-12-19T16:39:57-08:00"), utc(1996, 12, 20, 0, 39, 57));
  EXPECT_EQ(parse_rfc3339("1937-01-01T12:00:27.87+00:20"), utc(1937, 1, 1, 11, 40, 27));
  // Two examples are leap seconds: the grammar allows them, our instants have none, so they are refused.
  EXPECT_FALSE(parse_rfc3339("1990-12-31T23:59:60Z"));
  EXPECT_FALSE(parse_rfc3339("1990-12-31T15:59:60-08:00"));
}

TEST(Rfc3339, GrammarOfSection56) {
  EXPECT_TRUE(parse_rfc3339("2026-11-26t14:12:00z"));  // "T" and "Z" may be lower case
  EXPECT_TRUE(parse_rfc3339("2024-02-29T00:00:00Z"));
  for (const char* bad :
       {"", "2026-11-26", "2026-11-26T14:12Z", "2026-11-26T14:12:00", "2026-11-26 14:12:00Z",
        "2026-13-01T00:00:00Z", "2026-02-29T00:00:00Z", "2026-11-26T24:00:00Z",
        "2026-11-26T23:60:00Z", "2026-11-26T14:12:00.Z", "2026-11-26T14:12:00+1:00",
        "2026-11-26T14:12:00+24:00", "2026-11-26T14:12:00Zx", "+026-11-26T14:12:00Z"}) {
    EXPECT_FALSE(parse_rfc3339(bad)) << bad;
  }
}

TEST(Rfc3339, WritesWhatItReads) {
  const Zone dublin = *Zone::find("Europe/Dublin");
  const Instant winter = utc(2026, 11, 26, 14, 12, 0), summer = utc(2026, 7, 1, 14, 12, 0);
  EXPECT_EQ(rfc3339(winter), "2026-11-26T14:12:00Z");
  EXPECT_EQ(rfc3339(winter, dublin), "2026-11-26T14:12:00+00:00");
  EXPECT_EQ(rfc3339(summer, dublin), "2026-07-01T15:12:00+01:00");
  for (const char* zone :
       {"Europe/Dublin", "America/St_Johns", "Australia/Lord_Howe", "Asia/Kathmandu"}) {
    const Zone z = *Zone::find(zone);
    for (Instant t = utc(2026, 1, 1, 0, 0, 0); t < utc(2027, 1, 1, 0, 0, 0);
         t += Seconds{86'399 / 4}) {
      ASSERT_EQ(parse_rfc3339(rfc3339(t, z)), t) << zone;
    }
  }
}

}  // namespace
}  // namespace squeezeout
