// What-if from the command line, on the demo's week.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/e2e/cli/command_line.h"

namespace squeezeout::test {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;

struct CliWhatIf : ::testing::Test {
  static void SetUpTestSuite() {
    demo = new CliShop({"--demo", "--clock", "2026-03-05T14:12:00Z"});
  }
  static void TearDownTestSuite() {
    delete demo;
    demo = nullptr;
  }
  static CliShop* demo;
};
CliShop* CliWhatIf::demo = nullptr;

TEST_F(CliWhatIf, TheUsualChangesAreRankedByWhatTheySave) {
  const json said = demo->json({"what-if"});
  EXPECT_GE(said["glue_ups"], 20);
  EXPECT_LT(said["from"], said["until"]);
  const json& answers = said["answers"];
  ASSERT_EQ(answers.size(), demo->json({"gear"}).size() + 3) << "an hour each, and Sunday";
  for (std::size_t i = 1; i < answers.size(); ++i)
    EXPECT_GE(answers[i - 1]["saved_seconds"], answers[i]["saved_seconds"]) << answers[i];
  for (const json& a : answers) {
    EXPECT_EQ(a["saved_seconds"].get<long>(),
              a["waited_seconds"].get<long>() - a["would_wait_seconds"].get<long>());
    EXPECT_EQ(a["no_place"], 0);
  }
  EXPECT_GT(answers[0]["saved_seconds"], 0) << "gear is scarce in the demo on purpose";
  const std::string text = demo->run({"what-if"}).out;
  EXPECT_THAT(text, HasSubstr("placed again with one thing changed at a time."));
  EXPECT_THAT(text, HasSubstr(answers[0]["says"].get<std::string>()));
  EXPECT_THAT(text, HasSubstr("\nNo difference: "));
}

TEST_F(CliWhatIf, EachChangeIsTriedAlone) {
  const json answers = demo->json({"what-if", "--more", "deep=2", "--more", "spool=-4",
                                   "--close-later", "90", "--open-earlier", "30", "--open-on",
                                   "sunday", "--away", "ida=tomorrow..2026-03-09"})["answers"];
  ASSERT_EQ(answers.size(), 6U);
  std::map<std::string, json> by_kind;
  for (const json& a : answers) {
    std::string kind = a["change"]["kind"];
    if (kind == "more_gear") kind = a["change"]["gear"];
    if (kind == "longer_hours") kind += a["change"]["later_minutes"] == 0 ? " earlier" : " later";
    by_kind[kind] = a["change"];
  }
  EXPECT_EQ(by_kind.at("deep")["more"], 2);
  EXPECT_EQ(by_kind.at("spool")["more"], -4);
  EXPECT_EQ(by_kind.at("longer_hours later")["later_minutes"], 90);
  EXPECT_EQ(by_kind.at("longer_hours earlier")["earlier_minutes"], 30);
  EXPECT_EQ(by_kind.at("open_on")["weekday"], "sunday");
  EXPECT_EQ(by_kind.at("builder_away")["builder"], "ida");
  EXPECT_EQ(by_kind.at("builder_away")["from"], "2026-03-06T00:00:00+00:00");
  EXPECT_EQ(by_kind.at("builder_away")["until"], "2026-03-10T00:00:00+00:00")
      << "the last day, too";
}

TEST_F(CliWhatIf, WhatIsNoChangeIsSaid) {
  EXPECT_EQ(demo->json({"what-if", "--more", "deep=lots"}, 2)["what"],
            "\"deep=lots\" is no change of gear.");
  EXPECT_EQ(demo->json({"what-if", "--more", "anvil=1"}, 2)["what"],
            "No gear kind is called \"anvil\".");
  EXPECT_EQ(demo->json({"what-if", "--open-on", "someday"}, 2)["what"],
            "\"someday\" is no day of the week.");
  EXPECT_EQ(demo->json({"what-if", "--away", "ida"}, 2)["what"],
            "\"ida\" does not say who is away when.");
  EXPECT_EQ(demo->json({"what-if", "--away", "ida=2026-03-09..2026-03-07"}, 2)["why"],
            "It ends before it begins.");
  EXPECT_EQ(demo->run({"what-if", "--close-later", "-5"}).exit_code, 2);
}

TEST(CliWhatIfOnAnEmptyFloor, WantsAShop) {
  CliShop shop{{"--clock", "2026-03-05T14:12:00Z"}};
  EXPECT_EQ(shop.json({"what-if"}, 1)["what"], "No shop yet.");
}

}  // namespace
}  // namespace squeezeout::test
