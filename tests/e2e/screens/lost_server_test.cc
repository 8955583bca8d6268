// A server that falls silent (SIGSTOP) and comes back (SIGCONT): each screen says NOT LIVE in time and shows nothing that could
// be false; facts that were pressed meanwhile arrive once, with the times at which they happened; what was only asked is asked
// again by the person.

#include <gtest/gtest.h>

#include <csignal>
#include <cstdio>
#include <regex>
#include <string>
#include <vector>

#include "tests/e2e/cli/command_line.h"
#include "tests/e2e/screens/display.h"

namespace squeezeout::test {
namespace {

namespace fs = std::filesystem;
using namespace std::chrono_literals;
using nlohmann::json;
using Steady = std::chrono::steady_clock;

constexpr BenchScreen::Size kSmall{1366, 768};

double seconds_since(Steady::time_point t) {
  return std::chrono::duration<double>(Steady::now() - t).count();
}

struct Lost : ::testing::Test {
  Lost() : shop({"--demo", "--clock", "2026-11-26T14:12:00Z"}) {}
  json glue_up(unsigned id) {
    for (const json& g : shop.json({"list"}))
      if (g.at("glue_up") == id) return g;
    return {};
  }
  CliShop shop;
};

// "2026-11-26T14:12:07Z" or with an offset, of one day: seconds since its midnight.
double seconds_of(const json& time) {
  int h = 0, m = 0, s = 0;
  if (std::sscanf(time.get<std::string>().c_str(), "%*d-%*d-%*dT%d:%d:%d", &h, &m, &s) != 3)
    throw std::runtime_error("no time: " + time.dump());
  return h * 3600.0 + m * 60 + s;
}

// A text that would tell how long somebody else's joint still takes: "28 min", "1 h 08", "3 m 05 s".
bool counts_down(const std::string& text) {
  static const std::regex countdown(R"((\d+ m \d\d s|\d+ min|\d+ h \d\d|\d+ s))");
  return std::regex_match(text, countdown);
}

// A screen by its key, and what it says only while the server is heard.
struct Telling {
  const char *key, *screen;
  std::vector<std::string> present;
};
const std::vector<Telling>& tellings() {
  static const std::vector<Telling> all{
      {"2", "board", {}},
      {"3", "gear", {"Nobody holds any", "hot till"}},
      {"4",
       "snags",
       {"No snags", "Everything that is reserved", R"(\d glue-ups? lost)", R"(\d moved by)",
        "will be late"}},
      {"5", "day", {}},
      {"6", "air", {}},
      {"7", "what-if", {}},
      {"8", "setup", {}},
      {"1", "bench", {"Nothing curing", "Nothing of yours is", "Nothing is clamped elsewhere"}}};
  return all;
}
const std::vector<std::string> kPresentAnywhere{" free now", R"(Snags \d)"};

TEST_F(Lost, EveryScreenSaysSoAndShowsNothingThatCouldBeFalse) {
  BenchScreen bench(shop.folder(), "bench", shop.server().port(), kSmall, {"--bench", "5"});
  BenchScreen wall(shop.folder(), "wall", shop.server().port(), kSmall, {"--wall"});
  ASSERT_TRUE(bench.wait_for_text("LIVE", 20s));
  ASSERT_TRUE(wall.wait_for_text("FREE NOW", 20s));
  ::kill(shop.server().pid(), SIGSTOP);
  const auto stopped = Steady::now();
  ASSERT_TRUE(bench.wait_for_text("NOT LIVE", 20s));
  const double bench_took = seconds_since(stopped);
  ASSERT_TRUE(wall.wait_for_text("NOT LIVE", 5s));
  std::printf("NOT LIVE after %.1f s at the bench, %.1f s on the wall\n", bench_took,
              seconds_since(stopped));
  EXPECT_LE(seconds_since(stopped), 11.5) << "10 s, and a beat";

  EXPECT_TRUE(says(wall.dump(), "WAS FREE"));
  for (const json& t : wall.dump()["texts"])
    EXPECT_FALSE(counts_down(t["text"])) << "the wall still says " << t["text"];
  for (const Telling& t : tellings()) {
    bench.key(t.key);
    ASSERT_TRUE(bench.wait_until(
        [&](const json& d) { return says(d, "NOT LIVE") && d.value("screen", "") == t.screen; },
        5s))
        << t.key << ": " << bench.dump().dump(1);
    const json shown = bench.dump();
    std::vector<std::string> present = t.present;
    present.insert(present.end(), kPresentAnywhere.begin(), kPresentAnywhere.end());
    for (const std::string& words : present)
      for (const json& text : shown["texts"])
        EXPECT_FALSE(std::regex_search(text["text"].get<std::string>(), std::regex(words)))
            << t.screen << " still says " << text["text"];
  }
  ::kill(shop.server().pid(), SIGCONT);
  EXPECT_TRUE(wall.wait_for_text("FREE NOW", 15s));
  EXPECT_TRUE(
      bench.wait_until([](const json& d) { return says(d, "LIVE") && !says(d, "NOT LIVE"); }, 15s));
}

TEST_F(Lost, FactsArriveOnceWithTheirTimesAndRequestsAskAgain) {
  // A joint of Ida's, started now.
  const json reserved = shop.json({"reserve", "rosette", "--builder", "ida", "--bench", "b1"});
  const unsigned id = reserved.at("glue_up");
  BenchScreen ida(shop.folder(), "ida", shop.server().port(), kSmall,
                  {"--bench", "1", "--screen", "card", "--glue-up", std::to_string(id)});
  const unsigned later =
      shop.json({"reserve", "rosette", "--builder", "ida", "--bench", "b1"}).at("glue_up");
  BenchScreen other(shop.folder(), "other", shop.server().port(), kSmall,
                    {"--bench", "1", "--screen", "card", "--glue-up", std::to_string(later)});
  ASSERT_TRUE(ida.wait_for_text("LIVE", 20s));
  ASSERT_TRUE(other.wait_for_widget("cancel", 20s)) << other.dump().dump(1);
  shop.json({"start", std::to_string(id), "--anyway"});
  const auto started = Steady::now();
  ASSERT_TRUE(ida.wait_for_widget("next", 5s)) << ida.dump().dump(1);
  ASSERT_TRUE(ida.wait_for_text("CLAMPS ON", 5s)) << ida.dump().dump(1);

  ::kill(shop.server().pid(), SIGSTOP);
  ASSERT_TRUE(ida.wait_for_text("NOT LIVE", 20s));
  const json before = ida.dump();
  ida.key("space");  // a fact: the clamps are on
  const double pressed = seconds_since(started);
  ASSERT_TRUE(ida.wait_until([&](const json& d) { return d != before; }, 3s));
  EXPECT_EQ(ida.presses().back()["intent"]["command"], "on");
  // A request is not kept: it says at once that nothing was done.
  ASSERT_TRUE(other.wait_for_text("NOT LIVE", 5s));
  other.key("x");  // cancel it
  ASSERT_TRUE(other.wait_for_text("Not done", 3s)) << other.dump().dump(1);
  EXPECT_EQ(other.presses().back()["intent"]["command"], "cancel");
  std::this_thread::sleep_for(5s);
  ::kill(shop.server().pid(), SIGCONT);
  ASSERT_TRUE(ida.wait_for_text("Live. 1 press sent.", 15s)) << ida.dump().dump(1);

  const json g = glue_up(id);
  EXPECT_EQ(g.at("progress"), "clamped") << g.dump(1);
  const double clamped = seconds_of(g.at("clamped_at")) - seconds_of(g.at("started_at"));
  std::printf("clamps on %.0f s after the start, pressed after %.1f s\n", clamped, pressed);
  EXPECT_NEAR(clamped, pressed, 2.5) << g.dump(1);

  // The request was not kept: asked again, it is done.
  EXPECT_EQ(glue_up(later).at("progress"), "reserved") << glue_up(later).dump(1);
  ASSERT_TRUE(
      other.wait_until([](const json& d) { return says(d, "LIVE") && !says(d, "NOT LIVE"); }, 15s));
  other.key("x");
  EXPECT_TRUE(other.wait_until(
      [&](const json&) {
        return glue_up(later).empty() || glue_up(later).at("progress") == "cancelled";
      },
      10s))
      << glue_up(later).dump(1);

  // It arrived once: the glue-up stays as it is, and another press of the same is refused.
  std::this_thread::sleep_for(3s);
  EXPECT_EQ(glue_up(id), g);
  EXPECT_NE(shop.run({"on", std::to_string(id)}).exit_code, 0);
}

}  // namespace
}  // namespace squeezeout::test
