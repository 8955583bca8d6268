// Proposals from the command line: nothing moves but with --accept, and one press takes it back.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/e2e/cli/command_line.h"

namespace squeezeout::test {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;

struct CliPlans : ::testing::Test {
  CliShop shop{{"--demo", "--clock", "2026-03-05T14:12:00Z"}};
};

TEST_F(CliPlans, ARepairIsProposedAcceptedAndTakenBack) {
  // A piece of each kind breaks until somebody loses his place.
  json broken;
  for (const json& kind : shop.json({"gear"})) {
    const Ran ran = shop.run({"gear", "broken", kind["gear"], "1"});
    const json plan = shop.json({"repair", "--seconds", "2"});
    if (ran.exit_code == 0 && !plan["moves"].empty()) {
      broken = plan;
      break;
    }
  }
  ASSERT_FALSE(broken.is_null()) << "no piece of gear is promised to anybody";
  const json first = broken["moves"][0]["glue_up"];
  EXPECT_EQ(broken["moves"][0]["from"], nullptr) << "it has lost its place";

  const Ran told = shop.run({"repair", "--seconds", "2"});
  EXPECT_THAT(told.out, HasSubstr("Nothing has moved."));
  EXPECT_THAT(told.out, HasSubstr("no place → "));

  EXPECT_EQ(shop.json({"repair", "--seconds", "2", "--accept"})["done"], true);
  EXPECT_TRUE(shop.json({"repair", "--seconds", "2"})["moves"].empty());
  EXPECT_EQ(shop.json({"undo-plan"})["done"], true);
  EXPECT_EQ(shop.json({"repair", "--seconds", "2"})["moves"][0]["glue_up"], first);
  EXPECT_EQ(shop.json({"undo-plan", "1"}, 1)["refusal"]["kind"], "nothing_to_undo");
  EXPECT_EQ(shop.json({"undo-plan", "9"}, 1)["refusal"]["kind"], "no_such");
}

TEST_F(CliPlans, AReplanNeverCostsMore) {
  const json plan = shop.json({"replan", "--seconds", "1"});
  EXPECT_LE(plan["after"]["late_minutes"], plan["before"]["late_minutes"]);
  EXPECT_EQ(shop.run({"risks"}).exit_code, 0);
  EXPECT_EQ(shop.run({"replan", "--seconds", "0"}).exit_code, 2);
}

}  // namespace
}  // namespace squeezeout::test
