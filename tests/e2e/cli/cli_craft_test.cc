// The craft from the command line: what a joint needs and why, what is learned, what gear gives.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/e2e/cli/command_line.h"

namespace squeezeout::test {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

struct CliCraft : ::testing::Test {
  static void SetUpTestSuite() {
    demo = new CliShop({"--demo", "--clock", "2026-03-05T14:12:00Z"});
  }
  static void TearDownTestSuite() {
    delete demo;
    demo = nullptr;
  }
  static CliShop* demo;
  static std::string text(std::vector<std::string> arguments) {
    const Ran ran = demo->run(std::move(arguments));
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    return ran.out;
  }
  static json figure(const json& joint, const std::string& name) {
    for (const json& f : joint["figures"])
      if (f["figure"] == name) return f;
    ADD_FAILURE() << "no figure " << name;
    return {};
  }
  static json verdict(const json& joint, const std::string& glue) {
    for (const json& g : joint["glues"])
      if (g["glue"] == glue) return g["verdict"];
    return nullptr;
  }
};
CliShop* CliCraft::demo = nullptr;

TEST_F(CliCraft, AJointTellsGlueGearTimesAndCautions) {
  const json joint = demo->json({"joint", "bridge", "--builder", "ida"});
  EXPECT_EQ(joint["recipe"], "bridge");
  EXPECT_GE(joint["glues"].size(), 10U);
  for (const json& g : joint["glues"]) EXPECT_FALSE(g["reasons"].empty()) << g;
  const json count = figure(joint, "clamps");
  EXPECT_EQ(count["unit"], "pieces");
  EXPECT_LE(count["low"], count["value"]);
  EXPECT_LE(count["value"], count["high"]);
  EXPECT_FALSE(count["fixed"].is_null()) << "the recipe's own stands beside it";
  EXPECT_TRUE(count.contains("limit"));
  EXPECT_GT(figure(joint, "dwell")["value"], 0);
  EXPECT_GT(figure(joint, "pressure_achieved")["high"], figure(joint, "pressure_achieved")["low"]);
  EXPECT_EQ(figure(joint, "moisture_now")["formula"]["mark"], "published");
  EXPECT_EQ(joint["learned"]["n"], figure(joint, "assembly")["n"]);
  EXPECT_EQ(joint["cautions"].back()["caution"], "local_codes_decide");
  const std::string said = text({"joint", "bridge", "--builder", "ida"});
  for (const char* part :
       {"\nglue\n", "\ngear\n", "\ntimes, with aliphatic resin\n", "\nwood\n", "\ncautions\n"})
    EXPECT_THAT(said, HasSubstr(part));
}

TEST_F(CliCraft, WhyPutsTheSourceUnderEachFigure) {
  const json joint = demo->json({"joint", "bridge"});
  const std::string why = text({"joint", "bridge", "--why"});
  for (const json& f : joint["figures"]) {
    EXPECT_THAT(why, HasSubstr("\n      " + f["formula"]["name"].get<std::string>() + ": "));
    EXPECT_THAT(why, HasSubstr(f["formula"]["uncertainty"].get<std::string>()));
  }
  const std::string plain = text({"joint", "bridge"});
  EXPECT_THAT(plain, Not(HasSubstr("Wood Handbook")));
  EXPECT_THAT(plain, HasSubstr("Where a figure comes from: --why."));
}

TEST_F(CliCraft, WoodsGlueAndHourChangeTheAnswer) {
  const json pale = demo->json({"joint", "bridge", "--wood-b", "sugar-maple"});
  const json oily = demo->json({"joint", "bridge", "--wood-b", "rosewood"});
  const auto has = [](const json& joint, const char* glue, const char* rule) {
    for (const json& g : joint["glues"])
      if (g["glue"] == glue)
        for (const json& r : g["reasons"])
          if (r["rule"] == rule) return true;
    return false;
  };
  const std::string usual = pale["glue"];
  EXPECT_FALSE(has(pale, usual.c_str(), "oily_wood"));
  EXPECT_TRUE(has(oily, usual.c_str(), "oily_wood"));
  EXPECT_EQ(demo->json({"joint", "bridge", "--wood-b", "cheese"}, 2)["what"],
            "No wood or plastic is called \"cheese\".");

  const json fish = demo->json({"joint", "bridge", "--glue", "fish"});
  EXPECT_EQ(fish["glue"], "fish");
  EXPECT_GT(figure(fish, "dwell")["value"], figure(pale, "dwell")["value"]);
  EXPECT_EQ(demo->json({"joint", "bridge", "--at", "2026-03-06 10:00"})["at"],
            "2026-03-06T10:00:00+00:00");
}

TEST_F(CliCraft, ABuildsNextStepIsAJointToo) {
  const json builds = demo->json({"builds"});
  for (const json& b : builds) {
    if (b["next_recipe"].is_null()) continue;
    const json joint = demo->json({"joint", "--build", b["build"]});
    EXPECT_EQ(joint["recipe"], b["next_recipe"]);
    return;
  }
  FAIL() << "no build has a next step";
}

TEST_F(CliCraft, AssemblyIsLearnedFromTheWeek) {
  const json all = demo->json({"assembly"});
  ASSERT_FALSE(all.empty());
  for (const json& a : all) {
    EXPECT_EQ(a["n"], a["took_seconds"].size());
    if (!a["learned"].get<bool>()) {
      EXPECT_EQ(a["planned_seconds"], a["recipe_seconds"]) << "too few to learn from";
    }
  }
  const json one = demo->json({"assembly", all[0]["recipe"], all[0]["builder"]});
  EXPECT_EQ(one, json::array({all[0]}));
  EXPECT_THAT(text({"assembly"}), HasSubstr("Time to get the clamps on: "));
}

// The checks of the published table and of the worked screw, through the command line.
TEST_F(CliCraft, AGoBarAsPublished) {
  const json it = demo->json({"go-bar", "--section", "12x5", "--stiffness", "13.5", "--gap", "665",
                              "--length", "700", "--wanted", "300"});
  EXPECT_NEAR(it["force_newton"]["value"].get<double>(), 34.86, 0.01);
  EXPECT_NEAR(it["force_newton"]["low"].get<double>(), 0.8 * 34.86, 0.01);
  EXPECT_NEAR(it["bending_mpa"].get<double>(), 69, 1);
  EXPECT_EQ(it["bars"]["value"], 9);
  EXPECT_LE(it["bars"]["low"], 9);
  EXPECT_GE(it["bars"]["high"], 9);
  const json back = demo->json(
      {"go-bar", "--section", "5x12", "--stiffness", "13.5", "--gap", "665", "--force", "34.86"});
  EXPECT_NEAR(back["length_mm"]["value"].get<double>(), 700, 0.5);
}

TEST_F(CliCraft, AClampAsWorkedOut) {
  const json it = demo->json({"clamp", "--thread", "Tr12x3", "--torque", "6"});
  EXPECT_NEAR(it["force_newton"]["value"].get<double>(), 2910.8, 0.1);
  EXPECT_LT(it["force_newton"]["low"], it["force_newton"]["value"]);
  const json back = demo->json({"clamp", "--thread", "Tr12x3", "--force", "2910.8"});
  EXPECT_NEAR(back["torque_newton_metre"]["value"].get<double>(), 6, 1e-3);
}

TEST_F(CliCraft, GearThatCannotBeSaysWhatWhyNext) {
  for (const auto& [arguments, says] :
       std::vector<std::pair<std::vector<std::string>, std::string>>{
           {{"go-bar", "--section", "12x5", "--stiffness", "13.5", "--gap", "705", "--length",
             "700"},
            "gap for the bar, mm is 705; it can be 319.9 to 699.8. Take a longer bar."},
           {{"go-bar", "--section", "12x5", "--stiffness", "13.5", "--gap", "665", "--force",
             "350"},
            "Take a thicker bar, or more bars."},
           {{"go-bar", "--section", "12", "--stiffness", "13.5", "--gap", "665", "--force", "35"},
            "Write it in millimetres, as 12x5."},
           {{"go-bar", "--section", "12x5", "--stiffness", "13.5", "--gap", "665"}, "Say --length"},
           {{"clamp", "--thread", "Q12", "--torque", "6"}, "Write it as Tr12x3"},
           {{"clamp", "--thread", "Tr12x3", "--torque", "-6"}, "it can be 0 to 1000"},
           {{"clamp", "--thread", "Tr12x3"}, "Say --torque 6 or --force 2000."}}) {
    const Ran ran = demo->run(arguments);
    EXPECT_EQ(ran.exit_code, 2) << says;
    EXPECT_EQ(ran.out, "");
    EXPECT_THAT(ran.err, HasSubstr(says));
  }
}

TEST(CliSolvers, AskNoServer) {
  const ScratchFolder folder;
  const Ran ran = run_squeezeout(
      folder.path(), {"--server", "127.0.0.1:1", "clamp", "--thread", "M8", "--torque", "3"});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr(" N ("));
}

}  // namespace
}  // namespace squeezeout::test
