// What a sensor may send, and what it is told.

#include "server/net/climate_post.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "common/time/rfc3339.h"

namespace squeezeout {
namespace {

using testing::EndsWith;
using testing::HasSubstr;

const Instant kNow = *parse_rfc3339("2026-11-26T14:12:00Z");

AirPoint point(std::string_view json, std::string_view type = "application/json") {
  const auto read = climate_of(type, json, kNow);
  EXPECT_TRUE(read.has_value()) << json;
  return read ? read->readings.at(0) : AirPoint{};
}
Said no(std::string_view json, std::string_view type = "application/json") {
  const auto read = climate_of(type, json, kNow);
  EXPECT_FALSE(read.has_value()) << json;
  return read ? Said{} : read.error();
}

TEST(ClimatePost, ReadsAReading) {
  EXPECT_EQ(point(R"({"celsius":19.5,"humidity_percent":48})"), (AirPoint{kNow, {19.5}, {48}}));
  EXPECT_EQ(point(R"({"celsius":-3,"humidity_percent":48.25,"battery":{"volt":3.1}})"),
            (AirPoint{kNow, {-3}, {48.25}}));
  EXPECT_EQ(point(R"({"humidity_percent":48,"celsius":19.5,"at":"2026-11-26T15:00:00+01:00"})").at,
            kNow - Minutes{12});
  EXPECT_EQ(point(R"({"celsius":1,"humidity_percent":2})", "Application/JSON; charset=utf-8").at,
            kNow);
}

TEST(ClimatePost, SaysWhatIsWrongWhyAndWhatNext) {
  for (const auto& [json, why] :
       {std::pair{"", "not a JSON object"},
        {"[19.5,48]", "not a JSON object"},
        {R"({"celsius":19.5,"humidity_percent":48)", "not a JSON object"},
        {R"({"humidity_percent":48})", "celsius is no number"},
        {R"({"celsius":"19.5","humidity_percent":48})", "celsius is no"},
        {R"({"celsius":19.5,"humidity":48})", "humidity_percent is no"},
        {R"({"celsius":NaN,"humidity_percent":48})", "not a JSON"},
        {R"({"celsius":1,"humidity_percent":2,"at":"noon"})", "RFC 3339"},
        {R"({"celsius":1,"humidity_percent":2,"at":null})", "RFC 3339"}}) {
    const Said said = no(json);
    EXPECT_EQ(said.status, 400U) << json;
    EXPECT_THAT(said.text, HasSubstr(why));
    EXPECT_THAT(said.text, EndsWith("send {\"celsius\": 19.5, \"humidity_percent\": 48}\n"));
  }
  EXPECT_EQ(no(std::string(4'096, '[')).status, 400U);
  for (const char* type :
       {"", "text/plain", "application/jsonx", "application/x-www-form-urlencoded"})
    EXPECT_EQ(no(R"({"celsius":1,"humidity_percent":2})", type).status, 415U) << type;
}

TEST(ClimatePost, TellsWhatBecameOfIt) {
  EXPECT_EQ(climate_said(Answer{}).status, 204U);
  EXPECT_EQ(climate_said(Answer{}).text, "");

  Answer refused;
  refused.refusal = BadAir{BadAir::What::humidity, kNow, 130, 0, 100, {}, {}};
  EXPECT_EQ(climate_said(refused).status, 400U);
  EXPECT_THAT(climate_said(refused).text,
              HasSubstr("humidity_percent: 130.0 lies outside 0.0 to 100.0"));
  refused.refusal =
      BadAir{BadAir::What::instant, kNow + Minutes{1}, 0, 0, 0, kNow - Minutes{2}, kNow};
  EXPECT_THAT(climate_said(refused).text,
              HasSubstr("at: 2026-11-26T14:13:00Z lies outside 2026-11-26T14:10:00Z"));
  refused.refusal = NoSuch{Thing::shop, 0};
  EXPECT_EQ(climate_said(refused).status, 409U);

  EXPECT_EQ(climate_said(Error{ErrorCode::read_only, "the disk is full", {}}).status, 503U);
  EXPECT_THAT(climate_said(Error{ErrorCode::busy, "too many commands wait", {}}).text,
              HasSubstr("too many commands wait"));
}

}  // namespace
}  // namespace squeezeout
