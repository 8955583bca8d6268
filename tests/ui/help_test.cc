// Help tells of a screen what is so: its keys are those of the frame beneath.

#include <gtest/gtest.h>

#include <algorithm>

#include "client/look/key_name.h"
#include "client/words/say.h"
#include "tests/ui/craft_shop.h"
#include "tests/ui/hands.h"

namespace squeezeout::testing {
namespace {

const Instant kTen = at("2026-11-26T10:00:00Z");

class HelpTest : public ::testing::Test {
 protected:
  HelpTest() : bench(kTen, craft_shop()), hands(stage) {
    stage.view.glue_up = bench.reserve(kBridge, kAda);
    stage.view.wanted = {.recipe = kBridge, .builder = kAda, .bench = kBench1};
    bench.set(bench.glue_up(stage.view.glue_up).times.open_begin);
    EXPECT_TRUE(bench.press(Start{stage.view.glue_up}));
  }
  look::Frame frame() { return stage.frame(bench.floor(), bench.now()); }
  // What all pages of help say of that screen.
  std::string told(Screen screen) {
    stage.view.screen = screen;
    stage.view.help = Help::open;
    std::string out;
    for (stage.view.help_page = 0; stage.view.help_page < 20; ++stage.view.help_page) {
      const look::Frame f = frame();
      out += all_texts(f);
      if (find(f, "page.next") == nullptr) break;
    }
    stage.view.help = Help::closed;
    stage.view.help_page = 0;
    return out;
  }
  Stage stage;
  Bench bench;
  Hands hands;
};

TEST_F(HelpTest, F1OpensAndClosesItAndEscClosesIt) {
  auto pressed = hands.key(frame(), look::kF1);
  ASSERT_TRUE(pressed);
  stage.view = after(stage.view, pressed->intent);
  ASSERT_EQ(stage.view.help, Help::open);
  EXPECT_TRUE(says(frame(), "The bench")) << all_texts(frame());
  for (const int key : {look::kF1, look::kEscape}) {
    pressed = hands.key(frame(), key);
    ASSERT_TRUE(pressed);
    EXPECT_EQ(after(stage.view, pressed->intent).help, Help::closed);
    EXPECT_EQ(after(stage.view, pressed->intent).screen, Screen::bench);
  }
}

TEST_F(HelpTest, EveryKeyOfTheScreenIsTold) {
  for (int i = 0; i < kScreens; ++i) {
    const auto screen = static_cast<Screen>(i);
    if (screen == Screen::wall) continue;
    stage.view.screen = screen;
    const look::Frame beneath = frame();
    std::string all = told(screen);
    std::replace(all.begin(), all.end(), '\n', ' ');  // labels may be told in two lines
    for (const look::Press& p : beneath.presses) {
      if (p.keys.empty() || p.id.starts_with("tab.") || p.id == "help") continue;
      EXPECT_NE(all.find(p.label), std::string::npos) << to_string(screen) << ": " << p.label;
      EXPECT_NE(all.find(look::key_name(p.keys.front())), std::string::npos) << p.id;
    }
  }
}

TEST_F(HelpTest, EscIsToldOnce) {
  for (const Screen screen : {Screen::figures, Screen::card}) {
    const std::string all = told(screen);
    const auto lines = [&](const std::string& line) {
      std::size_t n = 0;
      for (std::size_t at = ("\n" + all).find("\n" + line + "\n"); at != std::string::npos;
           at = ("\n" + all).find("\n" + line + "\n", at + 1))
        ++n;
      return n;
    };
    // And once on the key that closes help.
    EXPECT_EQ(lines("Esc"), 2U) << to_string(screen) << '\n' << all;
  }
}

TEST_F(HelpTest, PhasesAreExplainedWhereTheyAreDrawn) {
  EXPECT_NE(told(Screen::board).find("glue wet"), std::string::npos);
  EXPECT_EQ(told(Screen::air).find("glue wet"), std::string::npos);
  EXPECT_NE(told(Screen::gear).find("hatched is out of use"), std::string::npos)
      << told(Screen::gear);
}

TEST_F(HelpTest, TurnsItsOwnPages) {
  stage.view.screen = Screen::card;
  stage.view.help = Help::open;
  stage.view.page = 1;
  const View next = after(stage.view, Turn{1});
  EXPECT_EQ(next.page, 1) << "the screen beneath stays where it is";
  EXPECT_EQ(next.help_page, 1);
}

// On every screen, in both sizes, with double letters and in the pseudo language: nothing cut, nothing over anything else.
TEST(HelpSizes, EverythingHasItsRoomOnEveryPage) {
  struct Case {
    float width, height, text;
    words::Language language;
  };
  Bench bench(kTen, craft_shop());
  const GlueUpId id = bench.reserve(kBridge, kAda);
  for (const Case& c :
       {Case{1920, 1080, 1, words::Language::english}, Case{1366, 768, 1, words::Language::english},
        Case{1920, 1080, 2, words::Language::english}, Case{1366, 768, 2, words::Language::english},
        Case{1920, 1080, 1, words::Language::pseudo},
        Case{1366, 768, 1, words::Language::pseudo}}) {
    Stage stage(c.width, c.height, look::kUsualMmPerPx, c.text);
    stage.view.help = Help::open;
    stage.view.glue_up = id;
    stage.view.wanted = {.recipe = kBridge, .builder = kAda, .bench = kBench1};
    words::speak(c.language);
    for (int i = 0; i < kScreens; ++i)
      for (stage.view.help_page = 0; stage.view.help_page < 20; ++stage.view.help_page) {
        stage.view.screen = static_cast<Screen>(i);
        const look::Frame f = stage.frame(bench.floor(), bench.now());
        const auto all = texts(f);
        for (std::size_t a = 0; a < all.size(); ++a) {
          EXPECT_FALSE(all[a].cut) << all[a].text;
          EXPECT_TRUE((look::Rect{0, 0, c.width, c.height}.contains(all[a].at))) << all[a].text;
          for (std::size_t b = a + 1; b < all.size(); ++b)
            EXPECT_FALSE(all[a].at.inset(0.5F).overlaps(all[b].at.inset(0.5F)))
                << all[a].text << " and " << all[b].text;
        }
        if (find(f, "page.next") == nullptr) break;
      }
    words::speak(words::Language::english);
  }
}

}  // namespace
}  // namespace squeezeout::testing
