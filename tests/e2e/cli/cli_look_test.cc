// Looking at the demo's running week: every verb answers, as text and as JSON.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "client/words/columns.h"
#include "tests/e2e/cli/command_line.h"

namespace squeezeout::test {
namespace {

using ::testing::HasSubstr;

struct CliLook : ::testing::Test {
  static void SetUpTestSuite() {
    demo = new CliShop({"--demo", "--clock", "2026-03-02T11:00:00Z"});
  }
  static void TearDownTestSuite() {
    delete demo;
    demo = nullptr;
  }
  static CliShop* demo;
  static std::string text(std::vector<std::string> arguments) {
    const std::string verb = arguments.front();
    const Ran ran = demo->run(std::move(arguments));
    EXPECT_EQ(ran.exit_code, 0) << verb << ran.err;
    return ran.out;
  }
  static std::size_t widest(const std::string& text) {
    std::istringstream lines(text);
    std::size_t most = 0;
    for (std::string line; std::getline(lines, line);) most = std::max(most, words::width(line));
    return most;
  }
};
CliShop* CliLook::demo = nullptr;

TEST_F(CliLook, EveryListAnswersInJson) {
  for (const char* verb : {"list", "builds", "builders", "benches", "recipes", "glues", "gear"}) {
    const auto list = demo->json({verb});
    ASSERT_TRUE(list.is_array()) << verb;
    EXPECT_GE(list.size(), 5U) << verb;
    EXPECT_NE(text({verb}), "") << verb;
  }
  EXPECT_GE(demo->json({"gear"}).size(), 16U);
  EXPECT_GE(demo->json({"glues"}).size(), 10U);
  EXPECT_GE(demo->json({"recipes"}).size(), 20U);
}

TEST_F(CliLook, GearAddsUp) {
  for (const auto& g : demo->json({"gear", "list"}))
    EXPECT_EQ(g["stock"].get<int>(),
              g["free"].get<int>() + g["held"].get<int>() + g["broken"].get<int>())
        << g;
}

TEST_F(CliLook, ShowHasWhatScriptsPoll) {
  const auto first = demo->json({"list"}).at(0);
  const auto shown = demo->json({"show", std::to_string(first["glue_up"].get<int>())});
  for (const char* key :
       {"progress", "phase", "off_from", "ready_at", "clamps_on_by", "dwell_seconds"})
    EXPECT_TRUE(shown.contains(key)) << key;
  EXPECT_THAT(text({"show", std::to_string(first["glue_up"].get<int>())}), HasSubstr("stands    "));
}

TEST_F(CliLook, BoardHasLanesOfItsKind) {
  for (const auto& [by, lanes] : {std::pair{"gear", demo->json({"gear"}).size() + 1},
                                  {"bench", demo->json({"benches"}).size()},
                                  {"builder", demo->json({"builders"}).size()}}) {
    const auto board = demo->json({"board", "--by", by, "--hours", "48"});
    EXPECT_EQ(board["lanes"].size(), lanes) << by;
    std::size_t bars = 0;
    for (const auto& lane : board["lanes"]) bars += lane["bars"].size();
    EXPECT_GT(bars, 5U) << by;
    const std::string drawn = text({"board", "--by", by, "--hours", "48"});
    EXPECT_LE(widest(drawn), 100U) << by;
    EXPECT_THAT(drawn, HasSubstr("// clamped")) << by;
  }
}

TEST_F(CliLook, GearLanesNeverShowMoreThanTheStock) {
  std::map<std::string, int> stock;
  for (const auto& g : demo->json({"gear"})) stock[g["gear"]] = g["stock"];
  const auto board = demo->json({"board", "--hours", "168"});
  for (const auto& lane : board["lanes"]) {
    if (lane["lane"] == "" || stock.at(lane["lane"]) != 1) continue;
    std::string last_end;  // of a single piece no two bars overlap
    for (const auto& bar : lane["bars"]) {
      EXPECT_LE(last_end, bar["segments"].front()["begin"].get<std::string>()) << lane["lane"];
      last_end = bar["segments"].back()["end"];
    }
  }
}

TEST_F(CliLook, WallIsSortedByWhenGearComesFree) {
  const auto wall = demo->json({"wall"});
  std::pair<bool, std::string> last{false, ""};
  for (const auto& g : wall["busy"]) {
    const std::pair<bool, std::string> key{!g["over_time"].get<bool>(), g["times"]["release_end"]};
    EXPECT_LE(last, key);
    last = key;
  }
  EXPECT_GT(wall["free"].size(), 3U);
  EXPECT_THAT(text({"wall"}), HasSubstr("11:00  Mon 2 Mar"));
}

TEST_F(CliLook, DayIsATextAndTwoTables) {
  const std::string day = text({"day"});
  EXPECT_THAT(day, HasSubstr("Day sheet  Mon 2 Mar 2026"));
  EXPECT_LE(widest(day), 100U);
  EXPECT_THAT(text({"day", "--csv"}), HasSubstr("date,glue_up,build,recipe,"));
  EXPECT_THAT(text({"day", "--csv", "--table", "gear"}),
              HasSubstr("date,gear,name,stock,held_seconds"));
  EXPECT_TRUE(demo->json({"day", "--date", "2026-03-01"})["glue_ups"].is_array());
  EXPECT_EQ(demo->json({"day", "--date", "2020-01-01"}, 2)["what"], "That day is too long ago.");
}

TEST_F(CliLook, EarliestIsAQuoteAndReservesNothing) {
  const auto before = demo->json({"health"})["revision"];
  const auto quote = demo->json({"earliest", "bridge-plate", "--builder", "ida"});
  for (const char* key : {"start", "off_about", "ready_at"})
    EXPECT_TRUE(quote[key].is_string()) << key;
  EXPECT_FALSE(quote["held"].empty());
  EXPECT_LE(quote["alternatives"].size(), 3U);
  for (const auto& a : quote["alternatives"])
    EXPECT_TRUE(a["start"].is_string() && a["says"].is_string());
  EXPECT_THAT(text({"earliest", "bridge-plate", "--builder", "ida"}), HasSubstr("EARLIEST  "));
  EXPECT_EQ(demo->json({"health"})["revision"], before);
}

TEST_F(CliLook, WhyNamesWhatHoldsItBack) {
  const auto closed =
      demo->json({"why", "bridge-plate", "--builder", "ida", "--at", "2026-03-02 23:00"});
  ASSERT_FALSE(closed["blockers"].empty());
  EXPECT_EQ(closed["blockers"][0]["fact"], "closed");
  EXPECT_THAT(text({"why", "bridge-plate", "--builder", "ida", "--at", "2026-03-02 23:00"}),
              HasSubstr("Not before Tue 8:00: closed until then."));
}

TEST_F(CliLook, SnagsSayWhatNext) {
  const auto snags = demo->json({"snags"});
  ASSERT_FALSE(snags.empty());
  for (const auto& s : snags) EXPECT_NE(s["next"], "") << s;
  EXPECT_THAT(text({"snags"}), HasSubstr("    next: "));
}

}  // namespace
}  // namespace squeezeout::test
