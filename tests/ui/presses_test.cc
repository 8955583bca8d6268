// Each press of a person, through real ImGui, against the intent that it must become.

#include <gtest/gtest.h>

#include "tests/ui/hands.h"

namespace squeezeout::testing {
namespace {

using std::chrono::hours;
const Instant kTen = at("2026-11-26T10:00:00Z");  // a Thursday

template <class Command>
const Command* asked(const std::optional<look::Pressed>& pressed) {
  if (!pressed) return nullptr;
  const auto* ask = std::get_if<Ask>(&pressed->intent);
  return ask == nullptr ? nullptr : std::get_if<Command>(&ask->body);
}

template <class I>
const I* meant(const std::optional<look::Pressed>& pressed) {
  return pressed ? std::get_if<I>(&pressed->intent) : nullptr;
}

class Presses : public ::testing::Test {
 protected:
  Presses() : bench(kTen), hands(stage) {}
  look::Frame show(Screen screen) {
    stage.view.screen = screen;
    return stage.frame(bench.floor(), bench.now());
  }
  look::Frame card(GlueUpId id) {
    stage.view.glue_up = id;
    return show(Screen::card);
  }
  GlueUpId running_bridge() {
    const GlueUpId id = bench.reserve(kBridge, kAda);
    bench.set(bench.glue_up(id).times.stage_begin);
    EXPECT_TRUE(bench.press(Start{id}));
    return id;
  }
  GlueUpId clamped_bridge() {
    const GlueUpId id = running_bridge();
    bench.wait(Minutes{4});
    EXPECT_TRUE(bench.press(ClampsOn{id, bench.now()}));
    return id;
  }

  Stage stage;
  Bench bench;
  Hands hands;
};

TEST_F(Presses, LookingAloneDoesNothing) {
  const look::Frame frame = show(Screen::bench);
  EXPECT_FALSE(hands.look_only(frame));
  EXPECT_FALSE(hands.look_only(frame));
  EXPECT_GT(hands.drawn_vertices(), 1000);
}

TEST_F(Presses, ATileThenReserveAreTwoPresses) {
  auto pressed = hands.click(show(Screen::bench), "tile.1");  // tile 0 is the next step of build 14
  const Pick* pick = meant<Pick>(pressed);
  ASSERT_NE(pick, nullptr);
  EXPECT_EQ(pick->wanted.recipe, kBridge);
  EXPECT_EQ(pick->wanted.builder, kAda);
  stage.view = after(stage.view, pressed->intent);
  EXPECT_EQ(stage.view.screen, Screen::reserve);

  pressed = hands.click(show(Screen::reserve), "reserve");
  const Reserve* reserve = asked<Reserve>(pressed);
  ASSERT_NE(reserve, nullptr);
  EXPECT_EQ(reserve->recipe, kBridge);
  EXPECT_EQ(reserve->after, kTen);
  EXPECT_TRUE(bench.press(*reserve)) << "what the screen asks is what the floor grants";
}

TEST_F(Presses, TheNextStepOfABuildIsATile) {
  const Pick* pick = nullptr;
  const auto pressed = hands.click(show(Screen::bench), "tile.0");
  ASSERT_NE(pick = meant<Pick>(pressed), nullptr);
  EXPECT_EQ(pick->wanted.build, kBuild14);
  EXPECT_EQ(pick->wanted.step, 0);
}

TEST_F(Presses, AnotherGlueAsksAgain) {
  stage.view.wanted = {.recipe = kLining, .builder = kAda, .bench = kBench1};
  const auto pressed = hands.click(show(Screen::reserve), "glue.cement");
  ASSERT_NE(meant<Pick>(pressed), nullptr);
  EXPECT_EQ(meant<Pick>(pressed)->wanted.sheet, kCement);
}

TEST_F(Presses, SpaceIsNextFromReservedToDone) {
  const GlueUpId id = bench.reserve(kBridge, kAda);
  bench.set(bench.glue_up(id).times.stage_begin);
  auto pressed = hands.key(card(id), ' ');
  ASSERT_NE(asked<Start>(pressed), nullptr);
  EXPECT_EQ(pressed->by, look::Pressed::By::key);
  ASSERT_TRUE(bench.press(*asked<Start>(pressed)));

  bench.wait(Minutes{3});
  pressed = hands.key(card(id), look::kEnter);
  ASSERT_NE(asked<ClampsOn>(pressed), nullptr);
  ASSERT_TRUE(bench.press(ClampsOn{id, bench.now()}));

  bench.set(off_from(bench.glue_up(id)));
  pressed = hands.key(card(id), ' ');
  ASSERT_NE(asked<ClampsOff>(pressed), nullptr);
  EXPECT_EQ(asked<ClampsOff>(pressed)->over, Override::no);
  ASSERT_TRUE(bench.press(ClampsOff{id, bench.now()}));

  bench.set(bench.glue_up(id).times.ready_at);
  pressed = hands.key(card(id), ' ');
  ASSERT_NE(asked<Scraped>(pressed), nullptr);
}

TEST_F(Presses, SpaceOnTheBenchScreenIsTheMostUrgentNext) {
  const GlueUpId id = running_bridge();
  const auto pressed = hands.key(show(Screen::bench), ' ');
  ASSERT_NE(asked<ClampsOn>(pressed), nullptr);
  EXPECT_EQ(asked<ClampsOn>(pressed)->glue_up, id);
}

TEST_F(Presses, ClampsThatMayNotComeOffYetAreNotTheNextKey) {
  const GlueUpId id = clamped_bridge();
  const look::Frame frame = card(id);
  EXPECT_EQ(find(frame, "next"), nullptr);
  EXPECT_FALSE(hands.key(frame, ' '));

  const auto pressed = hands.click(frame, "anyway");
  ASSERT_NE(asked<ClampsOff>(pressed), nullptr);
  EXPECT_EQ(asked<ClampsOff>(pressed)->over, Override::knowingly);
}

TEST_F(Presses, LateIsOnePress) {
  const GlueUpId id = running_bridge();
  const auto pressed = hands.click(card(id), "late");
  ASSERT_NE(asked<Late>(pressed), nullptr);
  EXPECT_EQ(asked<Late>(pressed)->by, Minutes{10});
}

TEST_F(Presses, ReallyOffAtIsOfferedOnceTheClampsCouldHaveComeOff) {
  const GlueUpId id = clamped_bridge();
  bench.set(off_from(bench.glue_up(id)) + Minutes{7});
  look::Frame frame = card(id);
  EXPECT_EQ(find(frame, "off.15"), nullptr) << "15 min ago they could not";
  auto pressed = hands.click(frame, "off.5");
  ASSERT_NE(asked<ClampsOff>(pressed), nullptr);
  EXPECT_EQ(asked<ClampsOff>(pressed)->at, bench.now() - Minutes{5});

  bench.wait(Minutes{20});
  bench.tick();
  pressed = hands.click(card(id), "off.15");
  ASSERT_NE(asked<ClampsOff>(pressed), nullptr);
  EXPECT_EQ(asked<ClampsOff>(pressed)->at, bench.now() - Minutes{15});
}

TEST_F(Presses, AfterClampsOffTheTrueTimeIsOnePressOnTheCard) {
  const GlueUpId id = clamped_bridge();
  bench.set(off_from(bench.glue_up(id)) + Minutes{20});
  ASSERT_TRUE(bench.press(ClampsOff{id, bench.now()}));
  const Instant off = bench.now();
  bench.wait(Minutes{2});
  const auto pressed = hands.key(card(id), 'K');
  const auto* really = meant<ReallyOff>(pressed);
  ASSERT_NE(really, nullptr);
  EXPECT_EQ(really->at, off - Minutes{15}) << "before the press, not before now";
  stage.link = Link::not_live;
  EXPECT_EQ(find(card(id), "off.15"), nullptr) << "a correction asks the server";
}

TEST_F(Presses, StockIsCountedUpAndDownByOnePress) {
  stage.view.kind = kDeep;
  const auto more = hands.key(show(Screen::gear), '+');
  ASSERT_NE(asked<SetStock>(more), nullptr);
  EXPECT_EQ(asked<SetStock>(more)->count, 7);
  EXPECT_TRUE(bench.press(*asked<SetStock>(more)));
  EXPECT_EQ(asked<SetStock>(hands.click(show(Screen::gear), "stock.fewer"))->count, 6);
}

TEST_F(Presses, SpoiledAndUndoAreOnePressEach) {
  const GlueUpId id = running_bridge();
  EXPECT_NE(asked<Spoiled>(hands.click(card(id), "spoiled")), nullptr);
  const auto pressed = hands.click(card(id), "undo");
  ASSERT_NE(asked<Undo>(pressed), nullptr);
  ASSERT_TRUE(bench.press(*asked<Undo>(pressed)));
  EXPECT_EQ(bench.glue_up(id).progress, Progress::reserved);
}

TEST_F(Presses, UndoIsNotOfferedWhereNothingCanBeTakenBack) {
  EXPECT_EQ(find(show(Screen::bench), "undo"), nullptr);
}

TEST_F(Presses, AGlueUpOpensItsCard) {
  const GlueUpId id = running_bridge();
  const auto pressed = hands.click(show(Screen::bench), "mine." + std::to_string(id.value));
  ASSERT_NE(meant<Go>(pressed), nullptr);
  EXPECT_EQ(meant<Go>(pressed)->screen, Screen::card);
  EXPECT_EQ(meant<Go>(pressed)->glue_up, id);
}

TEST_F(Presses, TabsHaveMouseAndNumber) {
  const std::pair<const char*, Screen> tabs[] = {
      {"tab.board", Screen::board}, {"tab.gear", Screen::gear}, {"tab.snags", Screen::snags},
      {"tab.day", Screen::day},     {"tab.air", Screen::air},   {"tab.what-if", Screen::what_if}};
  int key = '2';
  for (const auto& [id, screen] : tabs) {
    const look::Frame frame = show(Screen::bench);
    const auto clicked = hands.click(frame, id);
    ASSERT_NE(meant<Go>(clicked), nullptr) << id;
    EXPECT_EQ(meant<Go>(clicked)->screen, screen);
    const auto typed = hands.key(frame, key++);
    ASSERT_NE(meant<Go>(typed), nullptr) << id;
    EXPECT_EQ(meant<Go>(typed)->screen, screen);
  }
}

TEST_F(Presses, EscapeGoesBackToTheBench) {
  const GlueUpId id = running_bridge();
  for (const Screen from :
       {Screen::card, Screen::board, Screen::gear, Screen::snags, Screen::day}) {
    stage.view.glue_up = id;
    const auto pressed = hands.key(show(from), look::kEscape);
    ASSERT_TRUE(pressed) << to_string(from);
    EXPECT_EQ(after(stage.view, pressed->intent).screen, Screen::bench) << to_string(from);
  }
}

TEST_F(Presses, TheBoardZoomsPansAndChangesLanes) {
  const look::Frame frame = show(Screen::board);
  ASSERT_NE(meant<Zoom>(hands.click(frame, "zoom.in")), nullptr);
  EXPECT_EQ(meant<Zoom>(hands.key(frame, '-'))->by, -1);
  EXPECT_EQ(meant<Zoom>(hands.key(frame, '0'))->by, 0);
  EXPECT_EQ(meant<Pan>(hands.click(frame, "pan.later"))->by, 1);
  EXPECT_EQ(meant<ByLanes>(hands.click(frame, "lanes.builder"))->lanes, Lanes::builder);
  EXPECT_EQ(meant<ByLanes>(hands.key(frame, 'B'))->lanes, Lanes::bench);
}

TEST_F(Presses, TheLastZoomHasNoCloser) {
  stage.view.zoom = 0;
  const look::Frame frame = show(Screen::board);
  EXPECT_EQ(find(frame, "zoom.in"), nullptr);
  EXPECT_NE(find(frame, "zoom.out"), nullptr);
}

TEST_F(Presses, ABarIsPickedAndThenOpensTheCard) {
  const GlueUpId id = running_bridge();
  const std::string bar = "bar.deep." + std::to_string(id.value);
  auto pressed = hands.click(show(Screen::board), bar);
  ASSERT_NE(meant<PickBar>(pressed), nullptr);
  stage.view = after(stage.view, pressed->intent);
  EXPECT_EQ(stage.view.picked, id);
  pressed = hands.key(show(Screen::board), 'O');
  ASSERT_NE(meant<Go>(pressed), nullptr);
  EXPECT_EQ(meant<Go>(pressed)->screen, Screen::card);
  pressed = hands.click(show(Screen::board), bar);
  ASSERT_NE(meant<Go>(pressed), nullptr);
  EXPECT_EQ(meant<Go>(pressed)->glue_up, id);
}

TEST_F(Presses, ABrokenClampIsThreePresses) {
  auto pressed = hands.click(show(Screen::bench), "tab.gear");
  stage.view = after(stage.view, pressed->intent);
  pressed = hands.click(show(stage.view.screen), "gear.deep");
  ASSERT_NE(meant<ChooseGear>(pressed), nullptr);
  stage.view = after(stage.view, pressed->intent);
  pressed = hands.click(show(stage.view.screen), "broken");
  ASSERT_NE(asked<GearBroken>(pressed), nullptr);
  EXPECT_EQ(asked<GearBroken>(pressed)->kind, kDeep);
  ASSERT_TRUE(bench.press(*asked<GearBroken>(pressed)));

  pressed = hands.click(show(Screen::gear), "mended");
  ASSERT_NE(asked<GearMended>(pressed), nullptr);
  EXPECT_TRUE(bench.press(*asked<GearMended>(pressed)));
}

TEST_F(Presses, WhatIsOnlyReservedCanBreak) {
  const GlueUpId id = bench.reserve(kBridge, kAda);
  bench.set(bench.glue_up(id).times.open_begin);  // its time has begun, nobody has started
  stage.view.kind = kCaul;
  const auto pressed = hands.click(show(Screen::gear), "broken");
  ASSERT_NE(asked<GearBroken>(pressed), nullptr);
  EXPECT_TRUE(bench.press(*asked<GearBroken>(pressed)));
  EXPECT_EQ(find(show(Screen::gear), "broken"), nullptr) << "there was one";
}

TEST_F(Presses, ASnagHasTheNextTimeToTake) {
  const GlueUpId id = bench.reserve(kBridge, kAda, kTen + hours{2});
  ASSERT_TRUE(bench.press(GearBroken{kCaul, 1, "cracked"}));
  ASSERT_EQ(bench.glue_up(id).progress, Progress::displaced);
  ASSERT_TRUE(bench.press(GearMended{kCaul, 1}));
  const auto pressed = hands.click(show(Screen::snags), "take." + std::to_string(id.value) + ".0");
  ASSERT_NE(asked<Move>(pressed), nullptr);
  EXPECT_TRUE(bench.press(*asked<Move>(pressed))) << "a time that is offered can be had";
  EXPECT_EQ(bench.glue_up(id).progress, Progress::reserved);
}

TEST_F(Presses, ASnagWithoutATimeOffersNone) {
  const GlueUpId id = bench.reserve(kBridge, kAda, kTen + hours{2});
  ASSERT_TRUE(bench.press(GearBroken{kCaul, 1, "cracked"}));
  const look::Frame frame = show(Screen::snags);
  EXPECT_EQ(find(frame, "take." + std::to_string(id.value) + ".0"), nullptr);
  EXPECT_NE(asked<Cancel>(hands.click(frame, "drop." + std::to_string(id.value))), nullptr);
}

TEST_F(Presses, TheFixInTheFootIsOnePress) {
  stage.view.message = Message{Message::Tone::refused, "Not reserved.", "Ben took the caul.",
                               Ask{Cancel{GlueUpId{9}}}, "Take 15:05"};
  const look::Frame frame = show(Screen::bench);
  EXPECT_TRUE(says(frame, "Take 15:05"));
  EXPECT_NE(asked<Cancel>(hands.click(frame, "fix")), nullptr);
  EXPECT_NE(asked<Cancel>(hands.key(frame, 'T')), nullptr);
}

TEST_F(Presses, ActsOnReleaseInsideOnly) {
  const look::Frame frame = show(Screen::bench);
  EXPECT_FALSE(hands.slip(frame, "tab.board", "tab.day"));
  EXPECT_TRUE(hands.click(frame, "tab.day"));
}

TEST_F(Presses, AnUnknownKeyDoesNothing) {
  EXPECT_FALSE(hands.key(show(Screen::bench), 'Z'));
  EXPECT_FALSE(hands.look_only(show(Screen::bench))) << "and is not kept for later";
}

TEST_F(Presses, TheWallHasNothingToPress) {
  running_bridge();
  EXPECT_TRUE(show(Screen::wall).presses.empty());
}

}  // namespace
}  // namespace squeezeout::testing
