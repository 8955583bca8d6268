// A working day of one usual glue-up: three bench clients and a wall in real windows, driven with mouse and keyboard, against
// the real server with the demo shop on a fast clock. Pictures of each step are kept in the build folder.

#include <gtest/gtest.h>

#include <cstdio>

#include "tests/e2e/screens/display.h"
#include "tests/support/server/server_process.h"

namespace squeezeout::test {
namespace {

namespace fs = std::filesystem;
using namespace std::chrono_literals;
using nlohmann::json;

const fs::path kPictures = SQUEEZEOUT_PICTURES;
constexpr BenchScreen::Size kSmall{1366, 768}, kLarge{1920, 1080};

class Shop : public ::testing::Test {
 protected:
  Shop()
      : server(scratch.path() / "data",
               {"--demo", "--clock", "2026-11-26T14:12:00Z", "--speed", "300"}),
        ida(scratch.path(), "ida", server.port(), kSmall, {"--bench", "1"}),
        tom(scratch.path(), "tom", server.port(), kLarge, {"--bench", "2", "--theme", "light"}),
        board(scratch.path(), "board", server.port(), kSmall,
              {"--bench", "3", "--screen", "board", "--lanes", "builder"}),
        wall(scratch.path(), "wall", server.port(), kSmall, {"--wall"}) {
    fs::create_directories(kPictures);
  }
  void pictures(const std::string& step) {
    for (const auto& [name, screen] :
         {std::pair{"ida", &ida}, {"tom", &tom}, {"board", &board}, {"wall", &wall}})
      screen->picture(kPictures / (step + "-" + name + ".png"));
  }
  std::string logs() const {
    std::string out;
    for (const char* name : {"ida", "tom", "board", "wall"})
      out += std::string(name) + ": " + read_file(scratch.path() / (std::string(name) + ".log"));
    return out;
  }

  ScratchFolder scratch;
  ServerProcess server;
  BenchScreen ida, tom, board, wall;
};

TEST_F(Shop, AUsualGlueUpFromTwoPressesToDone) {
  for (const BenchScreen* s : {&ida, &tom, &board, &wall})
    ASSERT_TRUE(s->wait_for_text("LIVE", 20s)) << logs();

  // Reserve: a tile, RESERVE.
  ASSERT_TRUE(ida.wait_until(
      [](const json& d) { return widget_with_label(d, "Join top") != nullptr; }, 5s));
  ida.click((*widget_with_label(ida.dump(), "Join top"))["id"]);
  ASSERT_TRUE(ida.wait_for_widget("reserve", 3s));
  ida.click("reserve");
  ASSERT_TRUE(ida.wait_until([](const json& d) { return d.value("screen", "") == "card"; }, 3s))
      << ida.dump().dump(1);
  ASSERT_EQ(ida.presses().size(), 2U) << "a usual glue-up is reserved in two presses";
  EXPECT_EQ(ida.presses()[1]["intent"]["command"], "reserve");
  EXPECT_EQ(ida.presses()[1]["by"], "mouse");
  ASSERT_TRUE(ida.wait_for_text("Join top", 2s));

  // Its plan is on the board of another bench.
  EXPECT_TRUE(board.wait_until(
      [](const json& d) { return widget_with_label(d, "Join top") != nullptr; }, 3s));
  pictures("1-reserved");

  // Start, as soon as it can.
  ASSERT_TRUE(ida.wait_for_widget("next", 60s)) << "its time comes";
  ida.key("space");
  ASSERT_TRUE(ida.wait_for_text("CLAMPS ON", 3s)) << ida.dump().dump(1);
  const unsigned id = ida.presses().back()["intent"]["glue_up"].get<unsigned>();
  EXPECT_EQ(ida.presses().back()["intent"]["command"], "start");
  EXPECT_EQ(ida.presses().back()["by"], "key");
  EXPECT_TRUE(board.wait_for_widget("bar.ida." + std::to_string(id), 3s)) << board.dump().dump(1);
  EXPECT_TRUE(tom.wait_for_text("I. · Join top", 3s)) << "another bench sees it run";
  pictures("2-started");

  ida.key("space");
  ASSERT_TRUE(ida.wait_for_text("CLAMPS OFF", 3s)) << ida.dump().dump(1);
  EXPECT_EQ(ida.presses().back()["intent"]["command"], "on");
  EXPECT_TRUE(wall.wait_for_text("bar clamps", 3s)) << wall.dump().dump(1);
  pictures("3-clamped");

  // While it dwells Space does nothing; then it is the Next key again.
  const std::size_t before = ida.presses().size();
  ida.key("space");
  std::this_thread::sleep_for(500ms);
  EXPECT_EQ(ida.presses().size(), before) << "the Next key waits for the glue";
  ASSERT_TRUE(ida.wait_for_widget("next", 60s));
  ida.key("space");
  ASSERT_TRUE(ida.wait_for_text("wait till", 3s)) << ida.dump().dump(1);
  EXPECT_EQ(ida.presses().back()["intent"]["command"], "off");
  EXPECT_TRUE(tom.wait_until([](const json& d) { return !says(d, "I. · Join top"); }, 3s))
      << "another bench sees that its gear is free";
  pictures("4-off");

  ASSERT_TRUE(ida.wait_for_widget("next", 90s)) << ida.dump().dump(1);
  EXPECT_TRUE(says(ida.dump(), "LEVEL DONE"));
  ida.key("space");
  ASSERT_TRUE(ida.wait_for_text("done", 3s));
  EXPECT_EQ(ida.presses().back()["intent"]["command"], "scraped");
  EXPECT_EQ(ida.presses().size(), 6U) << "reserve 2, start 1, on 1, off 1, done 1";

  ida.key("5");  // the day sheet
  ASSERT_TRUE(ida.wait_for_text("Day sheet", 3s));
  for (int page = 0; page < 4 && !ida.wait_for_text("Join top · I.", 500ms); ++page) ida.key("n");
  EXPECT_TRUE(ida.wait_for_text("Join top · I.", 1s)) << ida.dump().dump(1);
  pictures("5-done");
  EXPECT_TRUE(wall.presses().empty());
  for (const BenchScreen* s : {&ida, &tom, &board, &wall}) {
    EXPECT_LE(s->resident_bytes(), 200U << 20U);
    std::printf("a client holds %zu MB\n", s->resident_bytes() >> 20U);
  }
}

TEST_F(Shop, AServerThatIsLostIsSaidAndComesBackWithoutAPress) {
  ASSERT_TRUE(ida.wait_for_text("LIVE", 20s)) << logs();
  ASSERT_TRUE(wall.wait_for_text("LIVE", 20s)) << logs();
  ::kill(server.pid(), SIGSTOP);  // silent, the socket stays open
  EXPECT_TRUE(ida.wait_for_text("s late", 6s));
  EXPECT_TRUE(ida.wait_for_text("NOT LIVE since", 12s));
  EXPECT_TRUE(wall.wait_for_text("NOT LIVE since", 3s));
  EXPECT_TRUE(wall.wait_for_text("WAS FREE", 1s));
  pictures("6-not-live");
  ::kill(server.pid(), SIGCONT);
  const auto live = [](const json& d) { return says(d, "LIVE ·") && !says(d, "NOT LIVE"); };
  EXPECT_TRUE(ida.wait_until(live, 15s)) << ida.dump().dump(1);
  EXPECT_TRUE(wall.wait_for_text("FREE NOW", 15s));
  EXPECT_TRUE(ida.presses().empty());
}

}  // namespace
}  // namespace squeezeout::test
