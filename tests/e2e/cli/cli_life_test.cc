// One glue-up from reserved to done, as a builder types it.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/e2e/cli/command_line.h"

namespace squeezeout::test {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

TEST(CliLife, ReserveStartOnOffScraped) {
  CliShop shop(
      {"--shop", small_shop_file(), "--clock", "2026-03-02T09:00:00Z", "--speed", "20000"});
  const auto reserved = shop.json({"reserve", "bridge", "--builder", "ida"});
  EXPECT_EQ(reserved["done"], true);
  EXPECT_EQ(reserved["progress"], "reserved");
  EXPECT_EQ(reserved["held"][0]["gear"], "deep-clamp");
  EXPECT_EQ(reserved["held"][0]["count"], 6);
  const std::string id = std::to_string(reserved["glue_up"].get<int>());

  const auto phase_is = [](const char* phase) {
    return [phase](const nlohmann::json& g) { return g["phase"] == phase; };
  };
  EXPECT_EQ(shop.json({"start", id, "--anyway"})["progress"], "open");
  const auto clamped = shop.json({"on", id});
  EXPECT_EQ(clamped["progress"], "clamped");
  EXPECT_FALSE(clamped["off_from"].is_null());
  shop.json_until({"show", id}, phase_is("release"));  // two hours of fish glue
  const auto off = shop.json({"off", id});
  EXPECT_EQ(off["progress"], "waiting");
  EXPECT_EQ(off["off_early"], false);
  shop.json_until({"show", id}, phase_is("ready"));
  const auto done = shop.json({"scraped", id});
  EXPECT_EQ(done["progress"], "done");
  EXPECT_EQ(done["phase"], "done");
  for (const char* when : {"started_at", "clamped_at", "off_at", "ended_at"})
    EXPECT_TRUE(done[when].is_string()) << when;
}

struct CliTest : ::testing::Test {
  CliShop shop{{"--shop", small_shop_file(), "--clock", "2026-03-02T09:00:00Z"}};
  std::string reserve() {
    return std::to_string(
        shop.json({"reserve", "bridge", "--builder", "ida"})["glue_up"].get<int>());
  }
  std::string started() {
    const std::string id = reserve();
    shop.json({"start", id, "--anyway"});
    return id;
  }
};

TEST_F(CliTest, TextIsForPeople) {
  const Ran reserved = shop.run({"reserve", "bridge", "--builder", "ida"});
  EXPECT_EQ(reserved.exit_code, 0);
  EXPECT_THAT(reserved.out, StartsWith("Glue-up 1, Bridge. Reserved. Start 9:0"));
  EXPECT_THAT(reserved.out, HasSubstr(", off about 11:"));
  const Ran started = shop.run({"start", "1", "--anyway"});
  EXPECT_THAT(started.out, StartsWith("Started. Bridge: glue wet, clamps on by 9:1"));
  const Ran on = shop.run({"on", "1"});
  EXPECT_THAT(on.out, StartsWith("Clamps on. Bridge: off 11:0"));
}

TEST_F(CliTest, AFactCanHaveHappenedBefore) {
  const std::string id = started();
  EXPECT_EQ(shop.json({"on", id})["progress"], "clamped");
  const auto early = shop.json({"off", id}, 1);
  EXPECT_EQ(early["what"], "Clamps off: not taken.");
  EXPECT_EQ(early["refusal"]["kind"], "too_early");
  EXPECT_EQ(early["done"], false);
  const auto off = shop.json({"off", id, "--anyway"});
  EXPECT_EQ(off["off_early"], true);
  EXPECT_EQ(shop.json({"undo", id})["progress"], "clamped");
  const auto before_on = shop.json({"off", id, "--at", "8:15", "--anyway"}, 1);
  EXPECT_EQ(before_on["refusal"]["kind"], "bad_time");
}

TEST_F(CliTest, LateSpoiledCancelMove) {
  const std::string running = started();
  const auto on = shop.json({"on", running});
  const auto late = shop.json({"late", running, "--by", "20"});
  EXPECT_GT(late["times"]["release_begin"].get<std::string>(),
            on["times"]["release_begin"].get<std::string>());
  EXPECT_EQ(shop.json({"spoiled", running, "--note", "slipped"})["progress"], "spoiled");

  const std::string id = reserve();
  const auto moved = shop.json({"move", id, "--at", "2026-03-03 14:30"});
  EXPECT_EQ(moved["times"]["stage_begin"], "2026-03-03T14:30:00+00:00");
  const auto earliest = shop.json({"move", id});
  EXPECT_EQ(earliest["times"]["stage_begin"].get<std::string>().substr(0, 13), "2026-03-02T09");
  EXPECT_EQ(shop.json({"cancel", id})["progress"], "cancelled");
}

TEST_F(CliTest, RepeatsKeepOneFloor) {
  reserve();
  const auto list = shop.json({"list"});
  ASSERT_EQ(list.size(), 1U);
  EXPECT_EQ(list[0]["glue_up"], 1);
  EXPECT_EQ(shop.json({"health"})["live_glue_ups"], 1);
}

}  // namespace
}  // namespace squeezeout::test
