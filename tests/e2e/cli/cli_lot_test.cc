// Bottles and mixes from the command line.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/e2e/cli/command_line.h"

namespace squeezeout::test {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::StartsWith;

struct CliLots : ::testing::Test {
  CliShop shop{{"--demo", "--clock", "2026-03-05T14:12:00Z"}};
  json lot(int number) {
    const json said = shop.json({"lots", "--all"});
    for (const json& l : said["lots"])
      if (l["lot"] == number) return l;
    return nullptr;
  }
};

TEST_F(CliLots, ABottleIsPutOnRecordAndUsedUp) {
  EXPECT_EQ(shop.run({"lots"}).out, "No bottle is on record.\n");
  const json added = shop.json({"lot", "add", "fish", "--label", "A 12", "--made", "2026-01-10",
                                "--opened", "yesterday", "--expires", "2026-12-31", "--warm"});
  EXPECT_EQ(added["lot"], 1);
  const json it = lot(1);
  EXPECT_EQ(it["glue"], "fish");
  EXPECT_EQ(it["made"], "2026-01-10T00:00:00+00:00");
  EXPECT_EQ(it["opened"], "2026-03-04T00:00:00+00:00");
  EXPECT_EQ(it["expires"], "2027-01-01T00:00:00+00:00") << "good through its last day";
  EXPECT_EQ(it["stored"], "warm");
  EXPECT_EQ(it["age"], "fresh");
  EXPECT_THAT(shop.run({"lots"}).out, HasSubstr("A 12"));

  EXPECT_EQ(shop.run({"lot", "used-up", "A 12"}).exit_code, 0);
  EXPECT_EQ(lot(1)["used_up"], true);
  EXPECT_EQ(shop.json({"lots"})["lots"].size(), 0U);
  EXPECT_EQ(shop.json({"lot", "used-up", "77"}, 2)["what"], "No bottle is called \"77\".");
  EXPECT_EQ(shop.json({"lot", "add", "fish", "--made", "tomorrow"}, 1)["refusal"]["kind"],
            "bad_time");
}

TEST_F(CliLots, AStaleBottleIsNotForAStructuralJoint) {
  ASSERT_EQ(shop.run({"lot", "add", "fish", "--label", "old", "--made", "2020-01-10"}).exit_code,
            0);
  EXPECT_EQ(lot(1)["age"], "stale");
  const json no = shop.json({"reserve", "bridge", "--builder", "ida", "--glue", "fish"}, 1);
  EXPECT_EQ(no["refusal"]["kind"], "stale_lot");
  EXPECT_EQ(no["refusal"]["lot"], 1);
  ASSERT_EQ(shop.run({"lot", "add", "fish", "--label", "new", "--made", "2026-02-10"}).exit_code,
            0);
  const json glues = shop.json({"joint", "bridge", "--glue", "fish"})["glues"];
  for (const json& g : glues) {
    if (g["glue"] == "fish") {
      EXPECT_NE(g["verdict"], "blocked") << "the fresher one is taken";
    }
  }
}

TEST_F(CliLots, AnUnsuitableGlueWantsAReasonWhichIsRecorded) {
  const json no = shop.json({"reserve", "join-top", "--builder", "ida", "--glue", "polyurethane",
                             "--at", "2026-03-06 10:00"},
                            1);
  EXPECT_FALSE(no["refusal"].is_null()) << no;
  const json yes = shop.json({"reserve", "join-top", "--builder", "ida", "--glue", "polyurethane",
                              "--at", "2026-03-06 10:00", "--reason", "the customer asks for it"});
  EXPECT_EQ(yes["glue"], "polyurethane");
  const std::string id = std::to_string(yes["glue_up"].get<int>());
  EXPECT_EQ(shop.json({"show", id})["reason"], "the customer asks for it");
  EXPECT_THAT(shop.run({"show", id}).out, HasSubstr("reason    the customer asks for it"));
}

TEST_F(CliLots, AMixIsSharedWhileItLives) {
  const json mixed = shop.json({"mix", "epoxy-fast", "--bench", "3"});
  const int pot = mixed["pot"];
  const json pots = shop.json({"lots"})["pots"];
  ASSERT_EQ(pots.size(), 1U);
  EXPECT_EQ(pots[0]["pot"], pot);
  EXPECT_EQ(pots[0]["glue"], "epoxy-fast");
  EXPECT_GT(pots[0]["until"], pots[0]["mixed_at"]);
  EXPECT_THAT(shop.run({"mix", "epoxy-fast"}).out, StartsWith("Pot 2. "));
  EXPECT_EQ(shop.json({"mix", "epoxy-fast", "--lot", "A 1"}, 2)["why"], "None is on record.");
}

TEST_F(CliLots, AGlueUpIsSpreadFromItsPotAndBottle) {
  ASSERT_EQ(shop.run({"lot", "add", "fish", "--label", "F 1", "--made", "2026-02-10"}).exit_code,
            0);
  const json reserved =
      shop.json({"reserve", "join-top", "--builder", "maeve", "--glue", "fish", "--lot", "F 1"});
  EXPECT_EQ(reserved["lot"], 1);
  const std::string id = std::to_string(reserved["glue_up"].get<int>());
  const int pot = shop.json({"mix", "fish", "--lot", "F 1"})["pot"];
  EXPECT_EQ(shop.json({"start", id, "--anyway", "--pot", "999"}, 1)["refusal"]["kind"], "no_such");
  const json started = shop.json({"start", id, "--anyway", "--pot", std::to_string(pot)});
  EXPECT_EQ(started["pot"], pot);
  EXPECT_THAT(shop.run({"show", id}).out, HasSubstr("bottle    F 1\n"));
}

}  // namespace
}  // namespace squeezeout::test
