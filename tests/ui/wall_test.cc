// The wall on the screens that shops hang up, 43 to 75 inches, in 1080 and 2160 lines: seven rows, letters for 5 m, nothing cut.

#include <gtest/gtest.h>

#include <cmath>

#include "proto/shop_file.h"
#include "server/demo/week.h"
#include "tests/support/screens/stage.h"

namespace squeezeout::testing {
namespace {

const Instant kNow = at("2026-11-26T14:12:00Z");

const Floor& demo_floor() {
  static const Floor floor = [] {
    const auto shop = read_shop_file("demo", demo_shop_text());
    CHECK(shop.has_value());
    Floor f;
    for (const Stamped& command : demo_week(*shop, kNow)) (void)step(f, command);
    return f;
  }();
  return floor;
}

struct Hung {
  int inches;
  float width, height;  // pixels
  look::Measured measured;
  float mm_per_px() const { return static_cast<float>(inches) * 25.4F / std::hypot(width, height); }
};

class Wall : public ::testing::TestWithParam<Hung> {
 protected:
  Wall() : stage(GetParam().width, GetParam().height, GetParam().mm_per_px()) {
    stage.scale = {GetParam().mm_per_px(), GetParam().height, 1, GetParam().measured};
    stage.letters = platform::letters_of(stage.fonts, stage.scale);
    stage.view.screen = Screen::wall;
    frame = stage.frame(demo_floor(), kNow);
  }
  int rows() const {
    // Each row has its bench's sign in a box, an edge as thick as no other.
    int n = 0;
    for (const look::Mark& m : frame.marks) {
      const auto* box = std::get_if<look::Box>(&m);
      n += box != nullptr && box->at.w >= stage.width && box->at.h > stage.scale.wall_px(50) &&
                   box->at.h < stage.scale.wall_px(75)
               ? 1
               : 0;
    }
    return n;
  }
  Stage stage;
  look::Frame frame;
};

TEST_P(Wall, HoldsItsRowsInLettersForFiveMetres) {
  for (const look::Words& w : texts(frame)) {
    const float cap = stage.scale.mm(stage.scale.cap_px(w.type));
    const float metres = w.type == look::Type::wall_sub ? 2.5F : 5.0F;
    EXPECT_GE(look::arc_minutes(cap, metres), look::kLeastArcMinutes) << w.text;
    EXPECT_FALSE(w.cut) << w.text;
    EXPECT_TRUE(look::Rect({0, 0, stage.width, stage.height}).contains(w.at)) << w.text;
  }
  const std::string fifty = "Tom's neck joint: 6 spool clamps, mould 3, off now";
  ASSERT_EQ(fifty.size(), 50U);
  EXPECT_LE(stage.letters.width(look::Type::wall_name, fifty), stage.width);
  ASSERT_GE(demo_floor().glue_ups.size(), 7U);
  EXPECT_GE(rows(), 7) << "rows, and the line of what is free";
}

INSTANTIATE_TEST_SUITE_P(Hung, Wall,
                         ::testing::Values(Hung{43, 1920, 1080, look::Measured::no},
                                           Hung{43, 1920, 1080, look::Measured::yes},
                                           Hung{43, 3840, 2160, look::Measured::yes},
                                           Hung{55, 3840, 2160, look::Measured::yes},
                                           Hung{65, 1920, 1080, look::Measured::yes},
                                           Hung{75, 1920, 1080, look::Measured::yes},
                                           Hung{75, 3840, 2160, look::Measured::yes}),
                         [](const auto& one) {
                           return std::to_string(one.param.inches) + "_inch_" +
                                  std::to_string(static_cast<int>(one.param.height)) +
                                  (one.param.measured == look::Measured::yes ? "_measured" : "");
                         });

// A small screen that was measured keeps its letters and shows fewer rows; what has no row is counted.
TEST(SmallWall, KeepsItsLetters) {
  Stage stage(1920, 1080, 0.277F);  // 24 inches
  stage.scale = {0.277F, 1080, 1, look::Measured::yes};
  stage.letters = platform::letters_of(stage.fonts, stage.scale);
  stage.view.screen = Screen::wall;
  const look::Frame frame = stage.frame(demo_floor(), kNow);
  EXPECT_TRUE(says(frame, " later")) << all_texts(frame);
  for (const look::Words& w : texts(frame)) {
    if (w.type != look::Type::wall_name) continue;
    EXPECT_GE(look::arc_minutes(stage.scale.mm(stage.scale.cap_px(w.type)), 5),
              look::kLeastArcMinutes)
        << w.text;
  }
}

}  // namespace
}  // namespace squeezeout::testing
