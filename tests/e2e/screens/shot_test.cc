// Without a display: pictures and dumps, and how it ends when there is nothing to show.

#include <gtest/gtest.h>

#include "tests/e2e/screens/display.h"
#include "tests/support/server/server_process.h"

namespace squeezeout::test {
namespace {

namespace fs = std::filesystem;

class Shot : public ::testing::Test {
 protected:
  int bench(std::vector<std::string> options) {
    options.insert(options.begin(), program_beside_this("squeezeout-bench"));
    return run(std::move(options), scratch.path() / "log");
  }
  std::string said() const { return read_file(scratch.path() / "log"); }
  ScratchFolder scratch;
};

TEST_F(Shot, DrawsAPngOfTheWantedSize) {
  const ServerProcess server(scratch.path() / "data", {"--demo"});
  const fs::path file = scratch.path() / "board.png";
  const std::string address = "127.0.0.1:" + std::to_string(server.port());
  ASSERT_EQ(bench({"--server", address, "--screen", "board", "--size", "1366x768", "--shot",
                   file.string()}),
            0)
      << said();
  const std::string png = read_file(file);
  ASSERT_GT(png.size(), 10'000U) << "a board is no empty picture";
  EXPECT_EQ(png.substr(1, 3), "PNG");
  const auto number = [&](std::size_t at) {
    int n = 0;
    for (std::size_t i = at; i < at + 4; ++i) n = n * 256 + static_cast<unsigned char>(png[i]);
    return n;
  };
  EXPECT_EQ(number(16), 1366);
  EXPECT_EQ(number(20), 768);
}

TEST_F(Shot, DumpsTheWidgets) {
  const ServerProcess server(scratch.path() / "data", {"--demo"});
  const fs::path file = scratch.path() / "dump.json";
  ASSERT_EQ(bench({"--server", "127.0.0.1:" + std::to_string(server.port()), "--bench", "5",
                   "--ui-dump", file.string()}),
            0)
      << said();
  const auto dump = nlohmann::json::parse(read_file(file));
  EXPECT_EQ(dump["screen"], "bench");
  EXPECT_GT(dump["revision"].get<int>(), 100);
  EXPECT_NE(widget(dump, "tile.0"), nullptr);
  EXPECT_TRUE(says(dump, "Oskar · Bench 5"));
}

TEST_F(Shot, WithoutAServerItEndsWithThreeAndSaysWhatToDo) {
  const auto begin = std::chrono::steady_clock::now();
  EXPECT_EQ(bench({"--server", "127.0.0.1:1", "--shot", (scratch.path() / "x.png").string()}), 3);
  EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds{13});
  EXPECT_NE(said().find("no server answered at 127.0.0.1:1 within 10 s"), std::string::npos)
      << said();
  EXPECT_NE(said().find("Next: "), std::string::npos);
  EXPECT_FALSE(fs::exists(scratch.path() / "x.png"));
}

TEST_F(Shot, ABenchThatTheShopDoesNotHaveIsNamed) {
  const ServerProcess server(scratch.path() / "data", {"--demo"});
  EXPECT_EQ(bench({"--server", "127.0.0.1:" + std::to_string(server.port()), "--bench", "77",
                   "--shot", (scratch.path() / "x.png").string()}),
            2);
  EXPECT_NE(said().find("There is no bench \"77\""), std::string::npos) << said();
}

TEST_F(Shot, WithoutADisplayTheWindowIsRefusedInWords) {
  EXPECT_EQ(bench({}), 4);
  EXPECT_NE(said().find("No window: "), std::string::npos) << said();
  EXPECT_NE(said().find("--shot"), std::string::npos);
}

TEST_F(Shot, MistakesInOptionsEndWithTwo) {
  EXPECT_EQ(bench({"--size", "7x7"}), 2);
  EXPECT_EQ(bench({"--theme", "pink"}), 2);
  EXPECT_EQ(bench({"--server", "a:b:c"}), 2);
  EXPECT_EQ(bench({"--help"}), 0);
}

}  // namespace
}  // namespace squeezeout::test
