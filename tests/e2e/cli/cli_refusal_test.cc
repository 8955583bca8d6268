// What goes wrong: refused by the floor (1), wrong use (2), no server (3). Each says what, why and what next.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/e2e/cli/command_line.h"

namespace squeezeout::test {
namespace {

using ::testing::HasSubstr;

struct CliRefusal : ::testing::Test {
  CliShop shop{{"--shop", small_shop_file(), "--clock", "2026-03-02T09:00:00Z"}};
};

TEST_F(CliRefusal, TheFloorSaysNoAndWho) {
  ASSERT_EQ(shop.run({"reserve", "bridge", "--builder", "ida", "--at", "10:00"}).exit_code, 0);
  const Ran no = shop.run({"reserve", "bridge", "--builder", "tom", "--at", "10:00"});
  EXPECT_EQ(no.exit_code, 1);
  EXPECT_EQ(no.out, "");
  EXPECT_THAT(
      no.err,
      HasSubstr(
          "Not reserved. Deep clamps: 6 wanted, 4 of 10 free; Ida has 6 from 10:00 till 12:1"));
  EXPECT_THAT(no.err, HasSubstr(" can be had."));

  const auto json = shop.json({"reserve", "bridge", "--builder", "tom", "--at", "10:00"}, 1);
  const auto& refusal = json["refusal"];
  EXPECT_EQ(refusal["kind"], "does_not_fit");
  EXPECT_EQ(refusal["hindrances"][0]["fact"], "gear_short");
  EXPECT_EQ(refusal["hindrances"][0]["free"], 4);
  EXPECT_EQ(refusal["hindrances"][0]["holders"][0]["by"], 1);
  const std::string next = refusal["next_slot"]["stage_begin"];
  EXPECT_EQ(
      shop.json({"reserve", "bridge", "--builder", "tom", "--at", next})["times"]["stage_begin"],
      next)
      << "what is offered can be had";
}

TEST_F(CliRefusal, AGlueUpThatIsNone) {
  EXPECT_EQ(shop.json({"start", "77"}, 1)["refusal"]["kind"], "no_such");
  EXPECT_EQ(shop.json({"show", "77"}, 2)["exit"], 2);
}

TEST_F(CliRefusal, WrongUseNamesTheNearest) {
  const Ran wrong = shop.run({"reserve", "brigde", "--builder", "ida"});
  EXPECT_EQ(wrong.exit_code, 2);
  EXPECT_THAT(wrong.err, HasSubstr("No recipe is called \"brigde\"."));
  EXPECT_THAT(wrong.err, HasSubstr("Nearest: bridge, joint."));
  EXPECT_EQ(shop.run({"reserve", "b", "--builder", "ida"}).exit_code, 0)
      << "the start is enough when it is clear";
  EXPECT_THAT(shop.run({"reserve", "bridge"}).err, HasSubstr("Whose glue-up?"));
  EXPECT_THAT(shop.run({"reserve", "--builder", "ida"}).err, HasSubstr("Nothing to glue."));
  EXPECT_THAT(shop.run({"reserve", "bridge", "--builder", "ida", "--at", "25:00"}).err,
              HasSubstr("\"25:00\" is no time."));
}

TEST_F(CliRefusal, WrongArguments) {
  for (const std::vector<std::string>& arguments :
       std::vector<std::vector<std::string>>{{},
                                             {"fly"},
                                             {"start"},
                                             {"start", "one"},
                                             {"late", "1"},
                                             {"board", "--by", "moon"},
                                             {"gear", "broken", "deep-clamp"},
                                             {"--wait", "-1", "list"},
                                             {"list", "--nonsense"}}) {
    const Ran ran = shop.run(arguments);
    EXPECT_EQ(ran.exit_code, 2) << (arguments.empty() ? "" : arguments[0]) << ran.out << ran.err;
    EXPECT_NE(ran.err, "");
  }
}

TEST_F(CliRefusal, HelpIsThereForEachVerb) {
  const Ran help = shop.run({"--help"});
  EXPECT_EQ(help.exit_code, 0);
  EXPECT_THAT(help.out,
              HasSubstr("Exit codes: 0 done, 1 refused by the floor, 2 wrong use, 3 no server"));
  for (const char* verb :
       {"reserve", "move",     "cancel",   "start",  "on",        "off",     "scraped", "late",
        "spoiled", "undo",     "earliest", "why",    "board",     "wall",    "day",     "gear",
        "joint",   "assembly", "go-bar",   "clamp",  "air",       "lots",    "lot",     "mix",
        "climate", "load",     "export",   "builds", "builders",  "benches", "recipes", "glues",
        "list",    "show",     "snags",    "health", "completion"}) {
    EXPECT_THAT(help.out, HasSubstr(std::string("\n  ") + verb)) << verb;
    const Ran own = shop.run({verb, "--help"});
    EXPECT_EQ(own.exit_code, 0) << verb;
    EXPECT_THAT(own.out, HasSubstr("For example:\n  ")) << verb;
    EXPECT_THAT(own.out, HasSubstr("squeezeout")) << verb;
  }
}

TEST(CliLost, NoServerIsSaid) {
  const ScratchFolder folder;
  std::string port;
  {
    CliShop gone({"--shop", small_shop_file()});
    port = std::to_string(gone.server().port());
  }
  const Ran ran =
      run_squeezeout(folder.path(), {"--server", "127.0.0.1:" + port, "--wait", "0.5", "list"});
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_EQ(ran.out, "");
  EXPECT_THAT(ran.err, HasSubstr("No connection to 127.0.0.1:" + port + ": Connection refused."));
  EXPECT_THAT(ran.err, HasSubstr("Is squeezeout-server running there?"));
  const Ran json = run_squeezeout(
      folder.path(), {"--server", "127.0.0.1:" + port, "--wait", "0.5", "list", "--json"});
  EXPECT_EQ(nlohmann::json::parse(json.out)["exit"], 3);
  EXPECT_EQ(run_squeezeout(folder.path(), {"--server", "127.0.0.1:port", "list"}).exit_code, 2);
}

}  // namespace
}  // namespace squeezeout::test
