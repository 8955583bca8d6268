// A new user: a server without a shop, a real window, and what he presses until the first glue-up is reserved. What stands on the
// server then is read by the command line.

#include <gtest/gtest.h>

#include <cstdio>
#include <thread>

#include "tests/e2e/screens/display.h"
#include "tests/support/server/server_process.h"

namespace squeezeout::test {
namespace {

namespace fs = std::filesystem;
using namespace std::chrono_literals;
using nlohmann::json;

const fs::path kPictures = SQUEEZEOUT_PICTURES;

class FirstRun : public ::testing::Test {
 protected:
  FirstRun()
      : server(scratch.path() / "data", {"--clock", "2026-11-26T10:00:00Z"}),
        ida(scratch.path(), "ida", server.port(), {1366, 768}, {}) {
    fs::create_directories(kPictures);
  }
  bool at(const std::string& text) const { return ida.wait_for_text(text, 10s); }
  void picture(const std::string& name) { ida.picture(kPictures / ("setup-" + name + ".png")); }
  // Presses, and waits until the text stands there.
  bool press(const std::string& id, const std::string& then) const {
    ida.click(id);
    return at(then);
  }

  ScratchFolder scratch;
  ServerProcess server;
  BenchScreen ida;
};

TEST_F(FirstRun, FromNothingToAReservedGlueUp) {
  const auto began = std::chrono::steady_clock::now();
  ASSERT_TRUE(at("There is no shop yet")) << read_file(scratch.path() / "ida.log");
  ida.click("shop.name");
  ASSERT_TRUE(ida.wait_until([](const json& d) { return d.contains("typing"); }, 5s));
  ida.type("The loft");
  ida.key("Tab");
  ASSERT_TRUE(ida.wait_until(
      [](const json& d) { return d.contains("typing") && d["typing"]["field"] == "zone.filter"; },
      5s));
  ida.type("dublin");
  ida.key("Escape");
  ASSERT_TRUE(press("zone.Europe/Dublin", "Its clock is that of Europe/Dublin."));
  picture("shop");
  ASSERT_TRUE(press("setup.hours", "Monday: open from 8:00 to 17:00."));
  ASSERT_TRUE(press("day.break", "with a break from 12:30 to 13:00"));
  picture("hours");
  ASSERT_TRUE(press("setup.people", "Who works where"));
  ida.click("builder.0");
  ASSERT_TRUE(ida.wait_until([](const json& d) { return d.contains("typing"); }, 5s));
  ida.type("Ida");
  ida.key("Escape");
  ASSERT_TRUE(at("Ida"));
  picture("people");
  ASSERT_TRUE(press("setup.gear", "How many of each"));
  for (const char* kind : {"more.spool", "more.deep", "more.bar", "more.go-bar"}) {
    ida.click(kind);
    ASSERT_TRUE(ida.wait_until(
        [&](const json& d) {
          const json* w = widget(d, kind);
          return w != nullptr && (*w)["label"] == "+1";
        },
        5s))
        << kind;
  }
  picture("gear");
  ASSERT_TRUE(press("setup.glues", "Which glues stand on the shelf"));
  ida.click("glue.aliphatic");
  picture("glues");
  ASSERT_TRUE(press("setup.recipes", "What is glued here"));
  ASSERT_TRUE(press("recipe.join-top", "Join top lacks gear."));
  ASSERT_TRUE(ida.wait_for_widget("fix", 3s));
  ida.click("fix");
  picture("recipes");
  ASSERT_TRUE(press("setup.open", "Nothing is missing.")) << ida.dump().dump(1);
  ASSERT_TRUE(press("open.try", "Join top could start 10:"));
  picture("tried");
  ida.click("open.shop");
  ASSERT_TRUE(ida.wait_until([](const json& d) { return d.value("screen", "") == "bench"; }, 10s))
      << ida.dump().dump(1);
  picture("opened");
  const std::size_t until_open = ida.presses().size();

  // The first glue-up: a tile, RESERVE.
  ASSERT_TRUE(ida.wait_until(
      [](const json& d) { return widget_with_label(d, "Join top") != nullptr; }, 5s));
  ida.click((*widget_with_label(ida.dump(), "Join top"))["id"]);
  ASSERT_TRUE(ida.wait_for_widget("reserve", 3s));
  ida.click("reserve");
  ASSERT_TRUE(ida.wait_until([](const json& d) { return d.value("screen", "") == "card"; }, 5s))
      << ida.dump().dump(1);
  const auto took = std::chrono::steady_clock::now() - began;
  std::size_t letters = 0;
  for (const json& p : ida.presses()) letters += p["intent"]["do"] == "typed" ? 1U : 0U;
  std::printf(
      "%zu presses until the shop was open, of them %zu with letters; %lld s in all\n", until_open,
      letters,
      static_cast<long long>(std::chrono::duration_cast<std::chrono::seconds>(took).count()));
  EXPECT_LE(until_open - letters, 30U) << "a press every 20 s is ten minutes";

  // What the server holds, by the command line.
  const fs::path said = scratch.path() / "cli.out";
  const std::string address = "127.0.0.1:" + std::to_string(server.port());
  ASSERT_EQ(run({program_beside_this("squeezeout"), "--server", address, "board"}, said), 0)
      << read_file(said);
  EXPECT_NE(read_file(said).find("oin top"), std::string::npos) << read_file(said);
  ASSERT_EQ(run({program_beside_this("squeezeout"), "--server", address, "gear"}, said), 0);
  EXPECT_NE(read_file(said).find("Spool clamp"), std::string::npos) << read_file(said);
  EXPECT_FALSE(fs::exists(scratch.path() / "ida.conf.shop-draft")) << "the draft is over";
}

TEST_F(FirstRun, ADraftOutlivesItsWindowAndSettingsAreKept) {
  ASSERT_TRUE(at("There is no shop yet"));
  ASSERT_TRUE(press("setup.people", "Who works where"));
  ida.click("bench.add");
  ASSERT_TRUE(at("Bench 2"));
  ASSERT_TRUE(press("setup.device", "Letters"));
  ida.click("device.light");
  const fs::path draft = scratch.path() / "ida.conf.shop-draft";
  const fs::path settings = scratch.path() / "ida.conf";
  for (int i = 0; i < 100 && !fs::exists(settings); ++i) std::this_thread::sleep_for(50ms);
  EXPECT_NE(read_file(draft).find("Bench 2"), std::string::npos) << "kept at once";
  EXPECT_NE(read_file(settings).find("theme = light"), std::string::npos) << read_file(settings);
  ida.crash();
  fs::remove(scratch.path() / "ida.json");  // what it drew last
  BenchScreen again(scratch.path(), "ida", server.port(), {1366, 768}, {});
  ASSERT_TRUE(
      again.wait_until([](const json& d) { return widget(d, "setup.people") != nullptr; }, 10s));
  again.click("setup.people");
  EXPECT_TRUE(again.wait_for_text("Bench 2", 5s));
}

}  // namespace
}  // namespace squeezeout::test
