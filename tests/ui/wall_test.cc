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
    // Each has a ground from edge to edge; so has the foot, on which the free gear stands.
    float foot = stage.height;
    for (const look::Words& w : texts(frame))
      if (w.text == "FREE NOW") foot = w.at.y;
    int n = 0;
    for (const look::Mark& m : frame.marks)
      if (const auto* box = std::get_if<look::Box>(&m); box != nullptr && box->at.w >= stage.width)
        n += box->at.h > stage.scale.wall_px(50) && box->at.bottom() <= foot && box->at.y > 0;
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
  // All of a row's letters share what its margins and the swatch leave.
  EXPECT_LE(stage.letters.width(look::Type::wall_name, fifty),
            stage.width - stage.scale.wall_px(2 * 13 + 46 + 11));
  EXPECT_EQ(rows(), 7);
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

class WallRows : public ::testing::Test {
 protected:
  void begin(Shop shop) {
    bench = Bench(at("2026-11-26T10:00:00Z"), std::move(shop));
    stage.view.screen = Screen::wall;
  }
  GlueUpId clamped(RecipeId recipe, BuilderId builder) {
    const GlueUpId id = bench.reserve(recipe, builder);
    bench.set(bench.glue_up(id).times.open_begin);
    EXPECT_TRUE(bench.press(Start{id}));
    bench.wait(Minutes{4});
    EXPECT_TRUE(bench.press(ClampsOn{id, bench.now()}));
    return id;
  }
  look::Frame frame() { return stage.frame(bench.floor(), bench.now()); }
  Stage stage;
  Bench bench{at("2026-11-26T10:00:00Z")};
};

TEST_F(WallRows, ClampsAreWantedOnlyByWhoIsKeptWaiting) {
  begin(small_shop());
  const GlueUpId first = clamped(kBinding, kAda);  // 4 of the 16 clamps
  const Instant off = bench.glue_up(first).times.release_end;
  const GlueUpId next = bench.reserve(kBinding, kBen, off + Minutes{30});
  ASSERT_EQ(bench.glue_up(first).held.front().kind, bench.glue_up(next).held.front().kind);
  EXPECT_FALSE(says(frame(), "wanted by")) << all_texts(frame());

  const GlueUpId bridge = clamped(kBridge, kAda);  // the only caul
  bench.reserve(kBridge, kCyd, bench.glue_up(bridge).times.release_end + Minutes{30});
  EXPECT_TRUE(says(frame(), "wanted by C.")) << all_texts(frame());
  stage.link = Link::not_live, stage.silent = Minutes{1};
  EXPECT_FALSE(says(frame(), "wanted by")) << "that is not known";
}

TEST_F(WallRows, ABenchIsSignedByWholeLetters) {
  Shop shop = small_shop();
  for (auto& b : shop.benches) b.name = "Süd";
  begin(shop);
  clamped(kBridge, kAda);
  bool signed_so = false;
  for (const look::Words& w : texts(frame())) signed_so = signed_so || w.text == "Sü";
  EXPECT_TRUE(signed_so) << all_texts(frame());
}

}  // namespace
}  // namespace squeezeout::testing
