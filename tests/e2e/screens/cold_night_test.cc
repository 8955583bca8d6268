// A cold night is entered at four in the afternoon, on the demo shop. Three dwells grow: one that runs, two that are promised for
// the same evening. The one glue-up that was promised their gear for the morning moves; nothing else does, nothing that has
// started does, and each bench is told why.

#include <gtest/gtest.h>

#include <cstdio>
#include <map>

#include "tests/e2e/cli/command_line.h"
#include "tests/e2e/screens/display.h"

namespace squeezeout::test {
namespace {

namespace fs = std::filesystem;
using namespace std::chrono_literals;
using nlohmann::json;

const fs::path kPictures = SQUEEZEOUT_PICTURES;
constexpr BenchScreen::Size kSmall{1366, 768}, kLarge{1920, 1080};

struct ColdNight : ::testing::Test {
  ColdNight() : shop({"--shop", "server/demo/shop.textproto", "--clock", "2026-11-26T15:55:00Z"}) {
    fs::create_directories(kPictures);
  }
  unsigned reserve(const std::string& recipe, const std::string& builder, const std::string& at,
                   const std::string& glue) {
    return shop.json({"reserve", recipe, "--builder", builder, "--at", at, "--glue", glue})
        .at("glue_up");
  }
  std::map<unsigned, json> floor() {
    std::map<unsigned, json> out;
    for (const json& g : shop.json({"list"})) out[g.at("glue_up")] = g;
    return out;
  }
  CliShop shop;
};

TEST_F(ColdNight, LengthensThreeDwellsMovesOneGlueUpAndTellsEachBenchWhy) {
  shop.json({"climate", "read", "21", "46"});
  const unsigned running = reserve("truss-rod", "tom", "15:56", "epoxy-slow");
  shop.json({"start", std::to_string(running)});
  shop.json({"on", std::to_string(running)});
  const unsigned evening = reserve("truss-rod", "ren", "16:30", "epoxy-slow");
  const unsigned hide = reserve("neck-joint", "oskar", "16:20", "liquid-hide");
  const unsigned morning =
      shop.json({"reserve", "fretboard", "--builder", "ida", "--after", "2026-11-27 8:00"})
          .at("glue_up");  // wants one of the two neck cauls
  const unsigned apart = reserve("close-top", "bea", "2026-11-27 9:00", "slow-aliphatic");
  const auto before = floor();
  ASSERT_EQ(before.size(), 5U);

  BenchScreen ida(shop.folder(), "ida", shop.server().port(), kSmall, {"--bench", "1"});
  BenchScreen tom(shop.folder(), "tom", shop.server().port(), kLarge,
                  {"--bench", "2", "--theme", "light"});
  BenchScreen ren(shop.folder(), "ren", shop.server().port(), kSmall, {"--bench", "3"});
  BenchScreen wall(shop.folder(), "wall", shop.server().port(), kSmall, {"--wall"});
  for (const BenchScreen* s : {&ida, &tom, &ren, &wall}) ASSERT_TRUE(s->wait_for_text("LIVE", 20s));

  shop.json({"climate", "forecast", "--night", "16", "--from", "18:00", "--to", "07:00", "--back",
             "09:00"});
  const auto after = floor();
  ASSERT_EQ(after.size(), before.size());

  const auto start = [](const json& g) { return g.at("times").at("stage_begin"); };
  const auto dwell = [](const json& g) { return g.at("dwell_seconds").get<long>(); };
  for (const unsigned id : {running, evening, hide}) {
    const json &was = before.at(id), &is = after.at(id);
    EXPECT_GT(dwell(is), dwell(was) + 600) << is.dump(1);
    EXPECT_EQ(start(is), start(was)) << is.dump(1);
    const std::string says = is.at("weather").at("says");
    EXPECT_NE(says.find("dwell"), std::string::npos) << says;
    EXPECT_NE(says.find(" °C"), std::string::npos) << says;
    std::printf("%u %s: %s\n", id, is.at("recipe").get<std::string>().c_str(), says.c_str());
  }
  EXPECT_EQ(after.at(running).at("started_at"), before.at(running).at("started_at"));
  // The caul that ida was promised is held until the longer dwell is over: she moves, and no later than she must.
  EXPECT_GT(start(after.at(morning)), start(before.at(morning)));
  EXPECT_EQ(start(after.at(morning)), after.at(running).at("times").at("release_end"))
      << after.at(morning).dump(1);
  const std::string moved = after.at(morning).at("weather").at("says");
  EXPECT_NE(moved.find("moved"), std::string::npos) << moved;
  std::printf("%u fretboard: %s\n", morning, moved.c_str());
  EXPECT_EQ(after.at(apart), before.at(apart));

  EXPECT_TRUE(tom.wait_for_text("dwell 16 h", 5s)) << tom.dump().dump(1);
  EXPECT_TRUE(ren.wait_for_text("dwell 16 h", 5s)) << ren.dump().dump(1);
  EXPECT_TRUE(ida.wait_for_text("moved", 5s)) << ida.dump().dump(1);
  for (const auto& [name, screen] :
       {std::pair{"ida", &ida}, {"tom", &tom}, {"ren", &ren}, {"wall", &wall}})
    screen->picture(kPictures / (std::string("cold-night-") + name + ".png"));
  ida.key("4");  // snags: old and new, and why
  EXPECT_TRUE(ida.wait_for_text("Fretboard", 3s)) << ida.dump().dump(1);
  ida.picture(kPictures / "cold-night-snags.png");
}

}  // namespace
}  // namespace squeezeout::test
