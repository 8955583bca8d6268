// Replay files: what a line means, and what is refused.

#include <gtest/gtest.h>

#include "client/replay.h"

namespace squeezeout::replay {
namespace {

TEST(ReplayFile, EachKindOfLineIsItsStep) {
  const auto steps = parse("day",
                           "# a day\n\nsize 1366x768\ntheme light\ntext 1.5\nscreen what-if\n"
                           "press tab.board\nkey Space\nkey j\nuntil off 15:40\nwait 0.5\n"
                           "shot a/b.png\r\n{\"id\":\"next\",\"by\":\"key\",\"intent\":{}}\n");
  ASSERT_TRUE(steps) << steps.error();
  ASSERT_EQ(steps->size(), 11U);
  EXPECT_EQ(std::get<Size>((*steps)[0].what).width, 1366);
  EXPECT_EQ(std::get<Wear>((*steps)[1].what).theme, look::Theme::light);
  EXPECT_FLOAT_EQ(std::get<Text>((*steps)[2].what).text, 1.5F);
  EXPECT_EQ(std::get<Show>((*steps)[3].what).screen, Screen::what_if);
  EXPECT_EQ(std::get<PressId>((*steps)[4].what).id, "tab.board");
  EXPECT_EQ(std::get<PressKey>((*steps)[5].what).key, ' ');
  EXPECT_EQ(std::get<PressKey>((*steps)[6].what).key, 'J');
  EXPECT_EQ(std::get<Until>((*steps)[7].what).text, "off 15:40");
  EXPECT_DOUBLE_EQ(std::get<Wait>((*steps)[8].what).seconds, 0.5);
  EXPECT_EQ(std::get<Shot>((*steps)[9].what).file, "a/b.png");
  EXPECT_EQ(std::get<PressId>((*steps)[10].what).id, "next");
  EXPECT_EQ((*steps)[10].line, 13);
}

TEST(ReplayFile, WhatItDoesNotKnowIsRefusedByItsLine) {
  for (const char* bad :
       {"dance", "key Fire", "screen moon", "size 10x10", "size 1366x768x2", "theme pink", "text 3",
        "wait -1", "wait soon", "shot /etc/x.png", "shot ../x.png", "press ",
        R"({"id":"field","by":"key","intent":{"do":"typed","field":"x"}})",
        R"({"id":"wheel.in","by":"mouse","intent":{}})",
        R"({"id":"dropped","by":"mouse","intent":{}})"}) {
    const auto steps = parse("day", std::string("# first\n") + bad + "\n");
    ASSERT_FALSE(steps) << bad;
    EXPECT_NE(steps.error().find("day:2: "), std::string::npos) << steps.error();
    EXPECT_NE(steps.error().find("Next: "), std::string::npos) << steps.error();
  }
}

}  // namespace
}  // namespace squeezeout::replay
