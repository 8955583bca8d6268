// How many presses each everyday thing takes, counted by the client's own recorder, in a real window against the real server.
// A press is a key or a click.

#include <gtest/gtest.h>

#include <thread>

#include "tests/e2e/cli/command_line.h"
#include "tests/e2e/screens/display.h"

namespace squeezeout::test {
namespace {

using namespace std::chrono_literals;
using nlohmann::json;

constexpr BenchScreen::Size kSmall{1366, 768};

struct Presses : ::testing::Test {
  Presses()
      : shop({"--demo", "--clock", "2026-11-26T14:12:00Z", "--speed", "120"}),
        ida(shop.folder(), "ida", shop.server().port(), kSmall, {"--bench", "1"}) {}
  void SetUp() override { ASSERT_TRUE(ida.wait_for_text("LIVE", 20s)); }

  std::size_t count() const { return ida.presses().size(); }
  std::string last_command() const {
    const auto all = ida.presses();
    return all.empty() ? "" : all.back()["intent"].value("command", "");
  }
  // Waits until the recorder holds so many presses.
  bool recorded(std::size_t n) const {
    return ida.wait_until([&](const json&) { return count() >= n; }, 5s);
  }
  json glue_up(unsigned id) {
    for (const json& g : shop.json({"list"}))
      if (g.at("glue_up") == id) return g;
    return json::object();
  }
  bool comes_to(unsigned id, const std::string& progress) {
    return ida.wait_until(
        [&](const json&) { return glue_up(id).value("progress", "") == progress; }, 20s);
  }

  CliShop shop;
  BenchScreen ida;
};

TEST_F(Presses, AUsualGlueUpTakesTwoAndEachOfItsStepsOne) {
  ASSERT_TRUE(ida.wait_until(
      [](const json& d) { return widget_with_label(d, "Join top") != nullptr; }, 5s));
  ida.click((*widget_with_label(ida.dump(), "Join top"))["id"]);
  ASSERT_TRUE(ida.wait_for_widget("reserve", 5s));
  ida.key("space");
  ASSERT_TRUE(ida.wait_until([](const json& d) { return d.value("screen", "") == "card"; }, 5s));
  EXPECT_EQ(count(), 2U);
  EXPECT_EQ(last_command(), "reserve");
  const json mine = shop.json({"list"}).back();
  const unsigned id = mine.at("glue_up");

  ASSERT_TRUE(ida.wait_for_widget("next", 60s)) << ida.dump().dump(1);
  ida.key("space");
  ASSERT_TRUE(comes_to(id, "open")) << glue_up(id).dump(1);
  EXPECT_EQ(count(), 3U);
  ida.key("space");
  ASSERT_TRUE(comes_to(id, "clamped")) << glue_up(id).dump(1);
  EXPECT_EQ(count(), 4U);

  const json before = glue_up(id);
  ida.key("l");
  ASSERT_TRUE(recorded(5));
  EXPECT_EQ(last_command(), "late");
  ASSERT_TRUE(ida.wait_until([&](const json&) { return glue_up(id) != before; }, 5s));

  ASSERT_TRUE(ida.wait_for_widget("next", 120s)) << ida.dump().dump(1);
  std::this_thread::sleep_for(
      6s);  // 12 minutes of the shop, in which they came off and nobody pressed
  ida.key("space");
  ASSERT_TRUE(ida.wait_until([&](const json&) { return last_command() == "off"; }, 5s));
  EXPECT_EQ(count(), 6U);
  const auto off_at = [&] { return glue_up(id).at("off_at"); };
  ASSERT_TRUE(ida.wait_until([&](const json&) { return !off_at().is_null(); }, 5s));
  const json pressed = off_at();
  ASSERT_TRUE(ida.wait_for_widget("off.5", 5s)) << ida.dump().dump(1);
  ida.key("j");
  EXPECT_TRUE(ida.wait_until([&](const json&) { return off_at() != pressed; }, 10s))
      << "it was really off five minutes earlier: " << ida.dump().dump(1);
  EXPECT_EQ(count(), 7U);
}

TEST_F(Presses, AGlueUpOfANewKindTakesSixAtMost) {
  ida.key("r");  // all recipes
  ASSERT_TRUE(recorded(1));
  // A tile of the second page, if there is one: what is asked for least.
  if (widget(ida.dump(), "page.next") != nullptr) {
    ida.key("n");
    ASSERT_TRUE(recorded(2));
    std::this_thread::sleep_for(300ms);
  }
  json last;
  const json d = ida.dump();
  for (const json& w : d["widgets"])
    if (w["id"].get<std::string>().rfind("tile.", 0) == 0) last = w;
  ASSERT_FALSE(last.is_null()) << d.dump(1);
  ida.click(last["id"]);
  ASSERT_TRUE(ida.wait_until([](const json& n) { return n.value("screen", "") == "reserve"; }, 5s));
  // Another glue than the usual one, another builder.
  const json reserve = ida.dump();
  const json* glue = nullptr;
  for (const json& w : reserve["widgets"])
    if (w["id"].get<std::string>().rfind("glue.", 0) == 0) glue = &w;
  if (glue != nullptr) ida.click((*glue)["id"]);
  ida.key("s");
  ASSERT_TRUE(ida.wait_for_widget("reserve", 5s)) << ida.dump().dump(1);
  if (widget(ida.dump(), "reserve.because.0") != nullptr)
    ida.key("x");
  else
    ida.key("space");
  ASSERT_TRUE(ida.wait_until([&](const json&) { return last_command() == "reserve"; }, 5s))
      << ida.dump().dump(1);
  ASSERT_TRUE(ida.wait_until([](const json& n) { return n.value("screen", "") == "card"; }, 5s))
      << ida.dump().dump(1);
  EXPECT_LE(count(), 6U);
  EXPECT_GE(count(), 4U);
}

TEST_F(Presses, WhenIsTheCaulFreeTakesNoneAtTheWallAndOneAtABench) {
  const BenchScreen tom(shop.folder(), "tom", shop.server().port(), {1920, 1080}, {"--bench", "2"});
  const BenchScreen wall(shop.folder(), "wall", shop.server().port(), kSmall, {"--wall"});
  ASSERT_TRUE(tom.wait_for_text("LIVE", 20s));
  tom.key("3");
  ASSERT_TRUE(tom.wait_until([](const json& d) { return d.value("screen", "") == "gear"; }, 5s));
  EXPECT_TRUE(says(tom.dump(), "Neck caul")) << tom.dump().dump(1);
  EXPECT_TRUE(says(tom.dump(), "free ")) << tom.dump().dump(1);
  EXPECT_EQ(tom.presses().size(), 1U);
  EXPECT_TRUE(wall.wait_until([](const json& d) { return says(d, "eck caul"); }, 20s))
      << wall.dump().dump(1);
}

TEST_F(Presses, ABrokenClampTakesThree) {
  ida.key("3");
  ASSERT_TRUE(ida.wait_for_widget("gear.", 5s)) << ida.dump().dump(1);
  const json before = shop.json({"gear"});
  ida.click((*widget(ida.dump(), "gear."))["id"]);
  ASSERT_TRUE(ida.wait_for_widget("broken", 5s)) << ida.dump().dump(1);
  ida.key("x");
  EXPECT_TRUE(ida.wait_until([&](const json&) { return shop.json({"gear"}) != before; }, 5s));
  EXPECT_EQ(last_command(), "broken");
  EXPECT_EQ(count(), 3U);
}

TEST_F(Presses, TheDaySheetTakesOne) {
  ida.key("5");
  ASSERT_TRUE(ida.wait_for_text("Day sheet", 5s));
  EXPECT_EQ(count(), 1U);
}

}  // namespace
}  // namespace squeezeout::test
