// A sensor posts its readings to the real server.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/server/server_process.h"
#include "tests/support/server/ws_client.h"

namespace squeezeout::test {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

constexpr const char* kJson = "Content-Type: application/json\r\n";

class Climate : public testing::Test {
 protected:
  explicit Climate(std::vector<std::string> more = {"--shop", small_shop_file()})
      : server_(scratch_.path() / "data", with_clock(std::move(more))) {}
  static std::vector<std::string> with_clock(std::vector<std::string> more) {
    more.insert(more.end(), {"--clock", "2026-03-02T09:00:00Z"});
    return more;
  }

  std::string post(const std::string& body, const std::string& headers = kJson) const {
    return http(server_.port(),
                "POST /climate HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(server_.port()) +
                    "\r\n" + headers + "Content-Length: " + std::to_string(body.size()) +
                    "\r\n\r\n" + body);
  }

  ScratchFolder scratch_;
  ServerProcess server_;
};

TEST_F(Climate, AReadingReachesEverybody) {
  WsClient bench(server_.port());
  bench.hello(test_device(1));
  EXPECT_THAT(post(R"({"celsius":19.5,"humidity_percent":48})"), StartsWith("HTTP/1.1 204 "));
  const auto delta = bench.receive_until<Delta>();
  ASSERT_EQ(delta.events.size(), 1u);
  const auto& read = std::get<ClimateRead>(delta.events[0]);
  EXPECT_EQ(read.air, Celsius{19.5});
  EXPECT_EQ(read.humidity, Percent{48});
  EXPECT_LE(delta.at - read.at, Seconds{2});

  EXPECT_THAT(post(R"({"celsius":18,"humidity_percent":50,"at":"2026-03-02T07:30:00Z"})"),
              StartsWith("HTTP/1.1 204 "));
  const auto earlier = bench.receive_until<Delta>();
  EXPECT_EQ(std::get<ClimateRead>(earlier.events.at(0)).at,
            Instant{std::chrono::sys_days{std::chrono::year{2026} / 3 / 2}} + Minutes{450});
}

TEST_F(Climate, WhatWasTakenIsKept) {
  ASSERT_THAT(post(R"({"celsius":19.5,"humidity_percent":48})"), StartsWith("HTTP/1.1 204 "));
  server_.kill();
  const ServerProcess again(scratch_.path() / "data", {});
  WsClient bench(again.port());
  bench.hello(test_device(1));
  EXPECT_EQ(bench.receive_until<Snapshot>().floor.climate.air, Celsius{19.5});
}

TEST_F(Climate, ANoSaysWhatWhyAndWhatNext) {
  const std::string hot = post(R"({"celsius":99,"humidity_percent":48})");
  EXPECT_THAT(hot, StartsWith("HTTP/1.1 400 "));
  EXPECT_THAT(hot, HasSubstr("Content-Type: text/plain"));
  EXPECT_THAT(hot, HasSubstr("celsius: 99.0 lies outside -40.0 to 60.0; send {"));
  EXPECT_THAT(post(R"({"celsius":9,"humidity_percent":48,"at":"2026-03-02T10:30:00Z"})"),
              HasSubstr("at: 2026-03-02T10:30:00Z lies outside 2026-02-23T09:00"));
  EXPECT_THAT(post("celsius=19"), StartsWith("HTTP/1.1 400 "));
  EXPECT_THAT(post("{}", ""), StartsWith("HTTP/1.1 415 "));
  EXPECT_THAT(post("{}", std::string(kJson) + "Origin: http://evil.example\r\n"),
              StartsWith("HTTP/1.1 403 "));
  const std::string got = http_get(server_.port(), "/climate");
  EXPECT_THAT(got, StartsWith("HTTP/1.1 405 "));
  EXPECT_THAT(got, HasSubstr("Allow: POST"));
}

TEST_F(Climate, ALongBodyIsTurnedAwayAndTheServerGoesOn) {
  std::string body = R"({"celsius":19.5,"humidity_percent":48,"more":")";
  body.resize(4'094, 'x');
  body += "\"}";
  EXPECT_THAT(post(body), StartsWith("HTTP/1.1 204 ")) << "4096 bytes are not too many";
  EXPECT_THAT(post(body + " "), StartsWith("HTTP/1.1 413 "));
  EXPECT_THAT(post(std::string(60'000, 'x')), StartsWith("HTTP/1.1 413 "));
  EXPECT_THAT(post(R"({"celsius":19.5,"humidity_percent":48})"), StartsWith("HTTP/1.1 204 "));
}

TEST_F(Climate, ManyAtOnceAreAskedToComeAgain) {
  const auto begin = std::chrono::steady_clock::now();
  int taken = 0, busy = 0;
  for (int i = 0; i < 120; ++i) {
    const std::string said = post(R"({"celsius":19.5,"humidity_percent":48})");
    taken += said.starts_with("HTTP/1.1 204 ");
    busy += said.starts_with("HTTP/1.1 503 ");
  }
  EXPECT_EQ(taken + busy, 120);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  EXPECT_GE(taken, 50) << "the burst that one device may have";
  EXPECT_LE(taken, 51 + 20 * took.count());
}

struct WithoutAShop : Climate {
  WithoutAShop() : Climate(std::vector<std::string>{}) {}
};

TEST_F(WithoutAShop, SaysSo) {
  const std::string said = post(R"({"celsius":19.5,"humidity_percent":48})");
  EXPECT_THAT(said, StartsWith("HTTP/1.1 409 "));
  EXPECT_THAT(said, HasSubstr("the server holds no shop; load a shop file"));
}

}  // namespace
}  // namespace squeezeout::test
