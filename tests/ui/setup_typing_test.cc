// Typing: letters go to the field of a frame, through real ImGui.

#include <gtest/gtest.h>

#include "client/look/typing.h"
#include "tests/ui/hands.h"

namespace squeezeout::testing {
namespace {

using look::take_strokes;

look::Frame frame_with(const std::string& typed_in, const std::string& text, bool afresh = false) {
  look::Frame frame;
  frame.width = 800, frame.height = 400;
  frame.presses.push_back(
      {"name", "Name", {10, 10, 100, 80}, {'A'}, Focus{"name"}, look::Kind::field});
  frame.presses.push_back(
      {"path", "Path", {10, 110, 100, 80}, {'B'}, Focus{"path"}, look::Kind::field});
  frame.presses.push_back(
      {"other", "Other", {210, 10, 100, 80}, {'C'}, Back{}, look::Kind::button});
  if (!typed_in.empty()) frame.typing = look::Typing{typed_in, text, 8, afresh};
  return frame;
}

std::string text_of(const std::optional<look::TypedPress>& press) {
  const auto* typed = press ? std::get_if<Typed>(&press->intent) : nullptr;
  return typed != nullptr ? typed->text : "(not typed)";
}

std::string focus_of(const std::optional<look::TypedPress>& press) {
  const auto* focus = press ? std::get_if<Focus>(&press->intent) : nullptr;
  return focus != nullptr ? focus->field : "(no focus)";
}

TEST(Typing, LettersAndBackspaceActInTheirOrder) {
  std::string strokes = "ab\bcü\b\bd";
  EXPECT_EQ(text_of(take_strokes(frame_with("name", "x"), strokes)), "xad");
  EXPECT_TRUE(strokes.empty());
}

TEST(Typing, ABackspaceTakesAWholeLetterAndNothingFromNothing) {
  std::string strokes = "\b\b\b";
  EXPECT_EQ(text_of(take_strokes(frame_with("name", "aß"), strokes)), "");
}

TEST(Typing, NoMoreLettersThanTheFieldHolds) {
  std::string strokes(500, 'w');
  const auto press = take_strokes(frame_with("name", "éé"), strokes);
  EXPECT_EQ(look::letters_in(text_of(press)), 8U);
}

TEST(Typing, TheFirstStrokeReplacesWhatStandsThereAfresh) {
  std::string strokes = "12";
  EXPECT_EQ(text_of(take_strokes(frame_with("name", "32", true), strokes)), "12");
  strokes = "\b";
  EXPECT_EQ(text_of(take_strokes(frame_with("name", "32", true), strokes)), "");
}

TEST(Typing, WhatFollowsTabWaitsForTheNextField) {
  std::string strokes = "a\tb";
  EXPECT_EQ(text_of(take_strokes(frame_with("name", ""), strokes)), "a");
  EXPECT_EQ(focus_of(take_strokes(frame_with("name", "a"), strokes)), "path");
  EXPECT_EQ(text_of(take_strokes(frame_with("path", ""), strokes)), "b");
}

TEST(Typing, TheLastFieldIsLeftForNone) {
  std::string strokes = "\n";
  EXPECT_EQ(focus_of(take_strokes(frame_with("path", ""), strokes)), "");
  strokes = "\x1b";
  EXPECT_EQ(focus_of(take_strokes(frame_with("name", ""), strokes)), "");
}

TEST(Typing, EnterPressesWhatHoldsEnter) {
  look::Frame frame = frame_with("path", "x");
  frame.presses.back().keys.push_back(look::kEnter);
  std::string strokes = "\n";
  const auto press = take_strokes(frame, strokes);
  ASSERT_TRUE(press);
  EXPECT_EQ(press->id, "other");
}

class TypingHands : public ::testing::Test {
 protected:
  Stage stage;
  Hands hands{stage};
};

TEST_F(TypingHands, AFieldIsFocusedByItsKeyAndByAClick) {
  auto pressed = hands.key(frame_with("", ""), 'B');
  ASSERT_TRUE(pressed);
  EXPECT_EQ(std::get<Focus>(pressed->intent).field, "path");
  pressed = hands.click(frame_with("", ""), "name");
  ASSERT_TRUE(pressed);
  EXPECT_EQ(std::get<Focus>(pressed->intent).field, "name");
}

TEST_F(TypingHands, LettersAreNoShortcutsInAField) {
  EXPECT_FALSE(hands.key(frame_with("name", ""), 'C'));
  const auto pressed = hands.type(frame_with("name", "i"), "c");
  ASSERT_TRUE(pressed);
  EXPECT_EQ(pressed->id, "name");
  EXPECT_EQ(std::get<Typed>(pressed->intent).text, "ic");
}

TEST_F(TypingHands, TheLetterOfAKeyThatActedIsNotTyped) {
  ASSERT_TRUE(hands.key(frame_with("", ""), 'A'));
  EXPECT_FALSE(hands.type(frame_with("name", "i"), "a")) << "it came a frame later";
  const auto pressed = hands.type(frame_with("name", "i"), "a");
  ASSERT_TRUE(pressed);
  EXPECT_EQ(std::get<Typed>(pressed->intent).text, "ia");
}

TEST_F(TypingHands, TabGoesRoundThePressesAndEnterPresses) {
  const look::Frame frame = frame_with("", "");
  EXPECT_FALSE(hands.key(frame, look::kTab));
  EXPECT_FALSE(hands.key(frame, look::kTab));
  EXPECT_FALSE(hands.key(frame, look::kTab));
  const auto pressed = hands.key(frame, look::kEnter);
  ASSERT_TRUE(pressed);
  EXPECT_EQ(pressed->id, "other");
}

}  // namespace
}  // namespace squeezeout::testing
