// The planner on the screens, in real windows on the demo shop: a repair is accepted by the Next key and taken back in one press;
// a replan shows how far it is and is cancelled; the board shows the critical chain.

#include <gtest/gtest.h>

#include <algorithm>
#include <regex>

#include "tests/e2e/cli/command_line.h"
#include "tests/e2e/screens/display.h"

namespace squeezeout::test {
namespace {

namespace fs = std::filesystem;
using namespace std::chrono_literals;
using nlohmann::json;

const fs::path kPictures = SQUEEZEOUT_PICTURES;
constexpr BenchScreen::Size kSmall{1366, 768}, kLarge{1920, 1080};

struct Planned : ::testing::Test {
  Planned() : shop({"--demo", "--clock", "2026-11-26T14:12:00Z"}) {
    fs::create_directories(kPictures);
  }
  json floor() { return shop.json({"list"}); }
  // The glue-ups that have lost their place.
  std::vector<unsigned> lost() {
    std::vector<unsigned> out;
    for (const json& g : floor())
      if (g.at("progress") == "displaced") out.push_back(g.at("glue_up"));
    return out;
  }
  // Dates that the builds cannot meet: how late they are at least is not soon proven.
  void all_are_due(const std::string& date) {
    static const std::regex due("due: \"[0-9-]+\"");
    const std::string text = shop.run({"export"}).out;
    ASSERT_TRUE(std::regex_search(text, due));
    const auto file =
        shop.write("due.textproto", std::regex_replace(text, due, "due: \"" + date + "\""));
    ASSERT_EQ(shop.run({"load", file.string()}).exit_code, 0);
  }
  CliShop shop;
};

TEST_F(Planned, ARepairIsAcceptedByTheNextKeyAndTakenBackInOnePress) {
  const auto before = lost();
  ASSERT_EQ(before.size(), 2U) << "one that can be placed again, one whose only caul is broken";

  BenchScreen ida(shop.folder(), "ida", shop.server().port(), kSmall, {"--bench", "1"});
  ASSERT_TRUE(ida.wait_for_text("LIVE", 20s));
  ida.key("4");
  ASSERT_TRUE(ida.wait_for_widget("repair", 5s)) << ida.dump().dump(1);
  ida.picture(kPictures / "plan-snags.png");
  ida.key("space");
  ASSERT_TRUE(ida.wait_for_widget("accept", 30s)) << ida.dump().dump(1);
  EXPECT_TRUE(says(ida.dump(), "no place → ")) << ida.dump().dump(1);
  EXPECT_TRUE(says(ida.dump(), "No place within 60 days")) << ida.dump().dump(1);
  EXPECT_EQ(lost(), before) << "nothing moves before it is accepted";
  ida.picture(kPictures / "plan-repair.png");

  ida.key("space");
  ASSERT_TRUE(ida.wait_for_text("Undo plan", 10s)) << ida.dump().dump(1);
  EXPECT_EQ(lost().size(), 1U);
  ida.picture(kPictures / "plan-accepted.png");
  ida.key("u");
  EXPECT_TRUE(ida.wait_for_text("Plan taken back", 10s)) << ida.dump().dump(1);
  EXPECT_EQ(lost(), before);

  const auto presses = ida.presses();
  ASSERT_EQ(presses.size(), 4U);
  EXPECT_EQ(presses[2]["intent"]["command"], "adopt");
  EXPECT_EQ(presses[3]["intent"]["command"], "undo_plan");
}

TEST_F(Planned, AReplanShowsHowFarItIsAndIsCancelled) {
  all_are_due("2026-11-27");
  // Enough that the search is not at its end before a person could cancel it.
  const std::vector<std::string> builders{"ida", "tom", "ren", "oskar", "bea"},
      recipes{"close-top", "top-braces-1", "join-back", "back-braces"};
  for (int i = 0; i < 60; ++i) {
    const auto n = static_cast<std::size_t>(i);
    shop.json({"reserve", recipes[n % recipes.size()], "--builder", builders[n % builders.size()]});
  }
  BenchScreen tom(shop.folder(), "tom", shop.server().port(), kLarge,
                  {"--bench", "2", "--screen", "board"});
  ASSERT_TRUE(tom.wait_for_text("LIVE", 20s));
  tom.key("r");
  ASSERT_TRUE(tom.wait_for_text("schedules tried", 30s)) << tom.dump().dump(1);
  tom.key("Escape");
  ASSERT_TRUE(tom.wait_for_text("Stopped: the best", 10s)) << tom.dump().dump(1);
  EXPECT_TRUE(says(tom.dump(), "schedules tried")) << tom.dump().dump(1);
  tom.picture(kPictures / "plan-stopped.png");
  EXPECT_EQ(tom.dump().value("screen", ""), "plan") << "what was found until then is looked at";
  tom.key("Escape");
  EXPECT_TRUE(tom.wait_until([](const json& d) { return d.value("screen", "") == "board"; }, 5s));
}

TEST_F(Planned, TheBoardShowsTheCriticalChainAndWhyABarStandsThere) {
  BenchScreen ren(shop.folder(), "ren", shop.server().port(), kLarge,
                  {"--bench", "3", "--screen", "board", "--theme", "light"});
  ASSERT_TRUE(ren.wait_for_text("LIVE", 20s));
  EXPECT_EQ(widget(ren.dump(), "open"), nullptr);
  ren.key("c");
  ASSERT_TRUE(ren.wait_for_text("ready last", 5s)) << ren.dump().dump(1);
  ren.picture(kPictures / "plan-chain.png");
  ren.key("c");
  EXPECT_TRUE(ren.wait_until([](const json& d) { return widget(d, "open") == nullptr; }, 5s));
  ren.key("k");
  EXPECT_TRUE(ren.wait_for_widget("open", 5s)) << ren.dump().dump(1);
  ren.picture(kPictures / "plan-picked.png");
  ren.key("o");
  EXPECT_TRUE(ren.wait_until([](const json& d) { return d.value("screen", "") == "card"; }, 5s));
}

TEST_F(Planned, WhatIfIsWorkedOutInTheBackground) {
  BenchScreen bea(shop.folder(), "bea", shop.server().port(), kSmall, {"--bench", "6"});
  ASSERT_TRUE(bea.wait_for_text("LIVE", 20s));
  bea.key("7");
  ASSERT_TRUE(bea.wait_for_text("What would save waiting", 5s));
  EXPECT_TRUE(bea.wait_for_text("less waiting", 60s)) << bea.dump().dump(1);
  bea.picture(kPictures / "plan-what-if.png");
  bea.key("Escape");
  EXPECT_TRUE(bea.wait_until([](const json& d) { return d.value("screen", "") == "bench"; }, 5s));
}

}  // namespace
}  // namespace squeezeout::test
