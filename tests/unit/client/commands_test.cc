// Commands of the shop, run by a real shell.

#include "client/platform/commands.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <thread>

namespace squeezeout::platform {
namespace {

using std::chrono::milliseconds;
using ::testing::HasSubstr;

class CommandsTest : public ::testing::Test {
 protected:
  CommandsTest() { std::filesystem::create_directories(folder); }
  ~CommandsTest() override { std::filesystem::remove_all(folder); }
  // Looks until nothing runs or waits; what failed, in order.
  std::vector<Failed> finish() {
    std::vector<Failed> out;
    const auto until = std::chrono::steady_clock::now() + std::chrono::seconds{10};
    while (std::chrono::steady_clock::now() < until) {
      if (auto failed = commands.look()) out.push_back(*failed);
      if (commands.idle()) return out;
      std::this_thread::sleep_for(milliseconds{5});
    }
    ADD_FAILURE() << "a command did not end";
    return out;
  }
  std::string written() const {
    std::ifstream in(file);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  std::filesystem::path folder = std::filesystem::temp_directory_path() /
                                 ("squeezeout commands " + std::to_string(::getpid()));
  std::string file = (folder / "written").string();
  Commands commands;
};

TEST_F(CommandsTest, NamesComeInByTheEnvironmentAndAreNeverRun) {
  const std::string name = "x\"; touch " + (folder / "pwned").string() + "; $(touch pwned) 'q";
  ASSERT_TRUE(commands.run({"printf '%s' \"$SQUEEZEOUT_GLUE_UP\" > \"$OUT\"",
                            {},
                            {{"SQUEEZEOUT_GLUE_UP", name}, {"OUT", file}}}));
  EXPECT_TRUE(finish().empty());
  EXPECT_EQ(written(), name);
  EXPECT_FALSE(std::filesystem::exists(folder / "pwned"));
}

TEST_F(CommandsTest, ArgumentsAreAppendedAsTheyAre) {
  const std::string odd = "a b $(touch pwned) \"c\" ; d";
  ASSERT_TRUE(
      commands.run({"cp /dev/stdin \"" + file + "\" < /dev/null; printf '<%s>' > \"" + file + "\"",
                    {odd, "second"},
                    {}}));
  EXPECT_TRUE(finish().empty());
  EXPECT_EQ(written(), "<" + odd + "><second>");
}

TEST_F(CommandsTest, OneThatFailsTellsHow) {
  ASSERT_TRUE(commands.run({"echo 'no such printer' >&2; exit 3", {}, {}}));
  ASSERT_TRUE(commands.run({"/no/such/program", {"label.pdf"}, {}}));
  const std::vector<Failed> failed = finish();
  ASSERT_EQ(failed.size(), 2U);
  EXPECT_EQ(failed[0].why, "exit code 3: no such printer");
  EXPECT_THAT(failed[1].why, HasSubstr("exit code 127"));
}

TEST_F(CommandsTest, TheyRunInTheOrderAsked) {
  ASSERT_TRUE(commands.run({"sleep 0.2; printf on > \"$OUT\"", {}, {{"OUT", file}}}));
  ASSERT_TRUE(commands.run({"printf off >> \"$OUT\"", {}, {{"OUT", file}}}));
  finish();
  EXPECT_EQ(written(), "onoff");
}

TEST_F(CommandsTest, NobodyWaitsForThem) {
  const auto before = std::chrono::steady_clock::now();
  ASSERT_TRUE(commands.run({"sleep 1", {}, {}}));
  commands.look();
  commands.look();
  EXPECT_LT(std::chrono::steady_clock::now() - before, milliseconds{500});
  EXPECT_FALSE(commands.idle());
  finish();
}

TEST_F(CommandsTest, MuchThatIsSaidStopsNothing) {
  ASSERT_TRUE(commands.run({"head -c 300000 /dev/zero | tr '\\0' x >&2; exit 1", {}, {}}));
  const std::vector<Failed> failed = finish();
  ASSERT_EQ(failed.size(), 1U);
  EXPECT_LT(failed[0].why.size(), 1500U);
}

TEST_F(CommandsTest, OneThatNeverStopsTalkingHoldsUpNobodyAndIsKilledWithItsChildren) {
  Commands impatient{std::chrono::seconds{1}};
  ASSERT_TRUE(impatient.run({"(sleep 2; touch '" + file + "') & yes >&2", {}, {}, "the lamp"}));
  const auto begun = std::chrono::steady_clock::now();
  std::optional<Failed> failed;
  while (!failed && std::chrono::steady_clock::now() - begun < std::chrono::seconds{5}) {
    const auto before = std::chrono::steady_clock::now();
    failed = impatient.look();
    EXPECT_LT(std::chrono::steady_clock::now() - before, milliseconds{500});
    std::this_thread::sleep_for(milliseconds{5});
  }
  ASSERT_TRUE(failed);
  EXPECT_THAT(failed->why, HasSubstr("it did not end within 1 s"));
  EXPECT_EQ(failed->about, "the lamp");
  EXPECT_TRUE(impatient.idle());
  std::this_thread::sleep_for(milliseconds{1500});
  EXPECT_FALSE(std::filesystem::exists(file));
}

TEST_F(CommandsTest, StopKillsWhatRunsAndForgetsWhatWaits) {
  ASSERT_TRUE(commands.run({"sleep 0.5; touch '" + file + "'", {}, {}}));
  ASSERT_TRUE(commands.run({"touch '" + file + "'", {}, {}}));
  EXPECT_FALSE(commands.look());
  commands.stop();
  EXPECT_TRUE(commands.idle());
  EXPECT_FALSE(commands.look());
  std::this_thread::sleep_for(milliseconds{800});
  EXPECT_FALSE(std::filesystem::exists(file));
}

TEST_F(CommandsTest, FilesOfThisProgramAreNotHandedOn) {
  const int fd = ::dup(1);
  ASSERT_GT(fd, 2);
  ASSERT_TRUE(commands.run({"test ! -e /proc/self/fd/" + std::to_string(fd), {}, {}}));
  EXPECT_TRUE(finish().empty());
  ::close(fd);
}

TEST_F(CommandsTest, TooManyAreRefused) {
  for (std::size_t i = 0; i < Commands::kMostWaiting; ++i)
    ASSERT_TRUE(commands.run({"true", {}, {}}));
  EXPECT_FALSE(commands.run({"true", {}, {}}));
  finish();
}

}  // namespace
}  // namespace squeezeout::platform
