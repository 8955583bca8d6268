// The alarm at the foot of the screens: its words and keys, through real ImGui; and the key of the tape label.

#include <gtest/gtest.h>

#include "client/alarm/alarm_words.h"
#include "client/words/say.h"
#include "tests/ui/hands.h"

namespace squeezeout::testing {
namespace {

const Instant kTen = at("2026-11-26T10:00:00Z");  // a Thursday

template <class I>
std::optional<I> meant(const std::optional<look::Pressed>& pressed) {
  const I* intent = pressed ? std::get_if<I>(&pressed->intent) : nullptr;
  return intent == nullptr ? std::nullopt : std::optional<I>{*intent};
}

struct Glass {
  float width, height, text;
  words::Language language;
};

class Strip : public ::testing::Test {
 protected:
  Strip() : bench(kTen, shop()) {}
  static Shop shop() {
    Shop s = small_shop();
    s.recipes[3].heat = Heat{Minutes{15}, Minutes{60}, {150}};
    return s;
  }
  GlueUpId wet(RecipeId recipe, BuildId build = {}) {
    const GlueUpId id = bench.reserve(recipe, kAda, {}, build);
    bench.set(bench.glue_up(id).times.stage_begin);
    EXPECT_TRUE(bench.press(Start{id}));
    return id;
  }
  // Of each kind one: a joint that skins, a hot form, clamps that another waits for.
  GlueUpId skinning() {
    const GlueUpId id = wet(kBridge, kBuild14);
    bench.set(*clamps_on_by(bench.glue_up(id)) - Seconds{48});
    return id;
  }
  GlueUpId hot() {
    const GlueUpId id = wet(kBend);
    bench.wait(Minutes{2});
    EXPECT_TRUE(bench.press(ClampsOn{id, bench.now()}));
    bench.wait(Minutes{16});
    return id;
  }
  GlueUpId wanted() {
    const GlueUpId id = wet(kBridge, kBuild14);
    bench.wait(Minutes{2});
    EXPECT_TRUE(bench.press(ClampsOn{id, bench.now()}));
    (void)bench.reserve(kBridge, kBen, bench.glue_up(id).times.release_end);
    bench.set(bench.glue_up(id).times.release_begin);
    return id;
  }
  look::Frame show(Stage& stage, Screen screen) {
    stage.view.screen = screen;
    alarm::Alarms fresh;
    stage.alarms = fresh.look({bench.floor(), bench.now(), stage.view.bench, stage.view.builder});
    return stage.frame(bench.floor(), bench.now());
  }
  Bench bench;
};

TEST_F(Strip, IsOnEveryScreenOfABenchAndNotOnTheWall) {
  (void)skinning();
  Stage stage;
  for (int i = 0; i < kScreens; ++i) {
    const auto screen = static_cast<Screen>(i);
    const look::Frame frame = show(stage, screen);
    EXPECT_EQ(says(frame, "48 s left"), screen != Screen::wall) << to_string(screen);
    EXPECT_EQ(find(frame, "quiet") != nullptr, screen != Screen::wall) << to_string(screen);
  }
  stage.view.help = Help::open;
  EXPECT_TRUE(says(show(stage, Screen::bench), "48 s left")) << "help does not hide it";
}

TEST_F(Strip, QuietIsOneKey) {
  (void)skinning();
  Stage stage;
  Hands hands{stage};
  EXPECT_TRUE(meant<Quiet>(hands.key(show(stage, Screen::board), '9')));
  EXPECT_TRUE(meant<Quiet>(hands.click(show(stage, Screen::gear), "quiet")));
  EXPECT_EQ(to_json(Quiet{}), R"({"do":"quiet"})");
}

TEST_F(Strip, GoToItOpensTheCardWhereTheNextKeyIs) {
  const GlueUpId id = skinning();
  Stage stage;
  Hands hands{stage};
  const auto pressed = hands.click(show(stage, Screen::board), "alarm.card");
  ASSERT_TRUE(meant<Go>(pressed));
  stage.view = after(stage.view, pressed->intent);
  EXPECT_EQ(stage.view.screen, Screen::card);
  EXPECT_EQ(stage.view.glue_up, id);
  const look::Frame card = show(stage, Screen::card);
  EXPECT_EQ(find(card, "alarm.card"), nullptr) << "one is there already";
  const auto on = meant<Ask>(hands.key(card, ' '));
  ASSERT_TRUE(on);
  EXPECT_TRUE(std::holds_alternative<ClampsOn>(on->body));
}

TEST_F(Strip, AJointAtRiskHidesAMessageAndClampsThatAreDueDoNot) {
  Stage stage;
  stage.view.message = Message{.what = "Reserved."};
  (void)wanted();
  EXPECT_TRUE(says(show(stage, Screen::board), "Reserved."));
  EXPECT_EQ(find(show(stage, Screen::board), "quiet"), nullptr);
  stage.view.message.reset();
  EXPECT_TRUE(says(show(stage, Screen::board), "waits for them"));
  stage.view.message = Message{.what = "Reserved."};
  (void)hot();
  EXPECT_FALSE(says(show(stage, Screen::board), "Reserved."));
  EXPECT_TRUE(says(show(stage, Screen::board), "gloves"));
}

class StripSizes : public Strip, public ::testing::WithParamInterface<Glass> {};

// The worst of them: each kind of alarm, in little room, in a language 40 % longer.
TEST_P(StripSizes, NothingIsCutAndEveryKeyIsLargeEnough) {
  const Glass glass = GetParam();
  Stage stage{glass.width, glass.height, look::kUsualMmPerPx, glass.text};
  for (int kind = 0; kind < 3; ++kind) {
    bench = Bench{kTen, shop()};
    const GlueUpId id = kind == 0 ? skinning() : kind == 1 ? hot() : wanted();
    stage.view.touched = id;  // so that Undo stands beside it
    words::speak(glass.language);
    const look::Frame frame = show(stage, Screen::bench);
    words::speak(words::Language::english);
    ASSERT_FALSE(stage.alarms.alarms.empty());
    const look::Press* quiet = find(frame, "quiet");
    ASSERT_NE(quiet, nullptr);
    const look::Rect foot{0, quiet->at.y, frame.width, quiet->at.h};
    for (const look::Words& w : texts(frame)) {
      if (foot.overlaps(w.at)) {
        EXPECT_FALSE(w.cut) << w.text;
      }
    }
    for (const look::Press& p : frame.presses) {
      if (!foot.overlaps(p.at)) continue;
      EXPECT_GE(stage.scale.mm(p.at.w), look::kTouchMm - 0.1F) << p.id;
      EXPECT_GE(stage.scale.mm(p.at.h), look::kTouchMm - 0.1F) << p.id;
      for (const look::Press& q : frame.presses) {
        if (&p == &q) continue;
        const float near = look::kGapMm / look::kUsualMmPerPx - 1;
        EXPECT_FALSE(p.at.inset(-near).overlaps(q.at)) << p.id << " is too near to " << q.id;
      }
    }
    for (const look::Theme theme : {look::Theme::dark, look::Theme::light}) {
      const look::Palette palette{theme};
      for (const look::Words& w : texts(frame)) {
        EXPECT_GE(look::contrast(palette[w.ink], palette[w.on]), 4.5) << w.text;
      }
    }
  }
}

using words::Language;
INSTANTIATE_TEST_SUITE_P(Glasses, StripSizes,
                         ::testing::Values(Glass{1920, 1080, 1, Language::english},
                                           Glass{1366, 768, 1, Language::english},
                                           Glass{1920, 1080, 2, Language::english},
                                           Glass{1366, 768, 2, Language::english},
                                           Glass{1920, 1080, 1, Language::pseudo},
                                           Glass{1366, 768, 1, Language::pseudo}),
                         [](const auto& one) {
                           const Glass& g = one.param;
                           return std::to_string(static_cast<int>(g.height)) +
                                  (g.text > 1 ? "_large" : "") +
                                  (g.language == Language::pseudo ? "_pseudo" : "");
                         });

TEST_F(Strip, TheLabelIsOneKeyOnTheCard) {
  const GlueUpId id = wet(kBridge, kBuild14);
  Stage stage;
  Hands hands{stage};
  stage.view.glue_up = id;
  const auto print = meant<PrintLabel>(hands.key(show(stage, Screen::card), 'B'));
  ASSERT_TRUE(print);
  EXPECT_EQ(print->glue_up, id);
  EXPECT_TRUE(meant<PrintLabel>(hands.click(show(stage, Screen::card), "label")));
  EXPECT_EQ(to_json(PrintLabel{GlueUpId{7}}), R"({"do":"label","glue_up":7})");
  ASSERT_TRUE(bench.press(Spoiled{id, bench.now(), ""}));
  EXPECT_EQ(find(show(stage, Screen::card), "label"), nullptr) << "no clamps, no label";
}

}  // namespace
}  // namespace squeezeout::testing
