// The board of a shop in full work, 60 kinds of gear and 400 live glue-ups: what it draws has a bound, nothing is dropped in
// silence, and no label is cut, crosses the now line or stands on another.

#include <gtest/gtest.h>

#include "client/board/axis_marks.h"
#include "client/board/row_model.h"
#include "tests/support/screens/large_shop.h"
#include "tests/ui/hands.h"

namespace squeezeout::testing {
namespace {

const Instant kNow = at("2026-11-26T14:12:07Z");

const Floor& busy() {
  static const Floor floor = large_floor(kNow, 560);
  return floor;
}

class BoardLoad : public ::testing::Test {
 protected:
  BoardLoad() { stage.view = ada_at_bench_1(Screen::board); }
  // f(zoom, lanes, page) over all that there is to see from now.
  template <class F>
  void everywhere(F f) {
    for (int zoom = 0; zoom < kZoomCount; ++zoom)
      for (const Lanes lanes : {Lanes::gear, Lanes::bench, Lanes::builder})
        for (int page = 0; page < 12; ++page) {
          stage.view.zoom = zoom, stage.view.lanes = lanes, stage.view.page = page;
          const look::Frame frame = stage.frame(busy(), kNow);
          f(frame);
          if (find(frame, "page.next") == nullptr) break;
        }
  }
  Stage stage;
};

TEST_F(BoardLoad, TheFloorIsAsLargeAsItSays) {
  EXPECT_EQ(busy().shop->gear.size(), 60U);
  EXPECT_GE(busy().live_count, 400U);
  int on = 0, over = 0;
  for (const auto& [id, g] : busy().glue_ups) {
    on += running(g), over += over_time(g, kNow);
  }
  EXPECT_GT(on, 2);
  EXPECT_GT(over, 0);
  EXPECT_FALSE(busy().displaced.empty());
}

TEST_F(BoardLoad, OneDrawListStaysBelowSixtyThousandVertices) {
  Hands hands(stage);
  int most = 0;
  everywhere([&](const look::Frame& frame) {
    (void)hands.look_only(frame);
    most = std::max(most, hands.drawn_vertices());
  });
  EXPECT_LE(most, 60'000);
  RecordProperty("vertices", most);
}

// 2,000 bars that overlap, at the widest zoom.
TEST_F(BoardLoad, AndForTwoThousandGlueUps) {
  const Floor floor = large_floor(kNow, 2'000);
  Hands hands(stage);
  stage.view.zoom = kZoomCount - 1;
  for (const Lanes lanes : {Lanes::gear, Lanes::bench, Lanes::builder}) {
    stage.view.lanes = lanes;
    (void)hands.look_only(stage.frame(floor, kNow));
    EXPECT_LE(hands.drawn_vertices(), 60'000);
  }
}

TEST_F(BoardLoad, LabelsAreWholeAndApart) {
  everywhere([&](const look::Frame& frame) {
    const auto all = texts(frame);
    for (std::size_t i = 0; i < all.size(); ++i) {
      EXPECT_FALSE(all[i].cut) << all[i].text;
      EXPECT_LE(all[i].at.right(), frame.width) << all[i].text;
      for (std::size_t j = i + 1; j < all.size(); ++j)
        EXPECT_FALSE(all[i].at.inset(0.5F).overlaps(all[j].at.inset(0.5F)))
            << all[i].text << " and " << all[j].text;
    }
  });
}

TEST_F(BoardLoad, NoLabelCrossesTheNowLine) {
  const float left = stage.scale.px(58), now_x = left + 0.3F * (stage.width - left);
  everywhere([&](const look::Frame& frame) {
    for (const look::Words& w : texts(frame)) {
      const bool lane = w.at.x >= left && w.at.y > stage.scale.px(60) &&
                        w.at.y < stage.height - stage.scale.px(50);
      if (lane) {
        EXPECT_FALSE(w.at.x < now_x - 2 && w.at.right() > now_x + 2) << w.text;
      }
    }
  });
}

// What stands in a lane's window is drawn, merged for being narrower than 3 px, or counted.
TEST_F(BoardLoad, NothingIsDroppedInSilence) {
  const board::TimeAxis axis{Hours{*busy().zone, busy().shop->hours},
                             {.at = kNow,
                              .open_time = kZooms[kZoomCount - 1].open_time,
                              .left = 0,
                              .right = 1'700,
                              .fold_px = 60}};
  stage.view.zoom = kZoomCount - 1;
  const Scene scene{.floor = busy(),
                    .now = kNow,
                    .view = stage.view,
                    .scale = stage.scale,
                    .letters = stage.letters,
                    .quotes = stage.quotes};
  std::size_t counted = 0;
  for (const board::Lane& lane : board::lanes_of(scene, axis.visible()).lanes) {
    const board::Packed packed = board::pack(lane, axis, 4);
    std::size_t drawn = static_cast<std::size_t>(packed.dropped), narrow = 0;
    for (const board::BarRow& row : packed.rows) {
      drawn += row.bars.size();
      for (std::size_t i = 0; i + 1 < row.bars.size(); ++i)
        EXPECT_LE(row.bars[i].span.end, row.bars[i + 1].span.begin + Minutes{2});
    }
    for (const board::Bar& bar : lane.bars)
      narrow += axis.x(bar.span.end) - axis.x(bar.span.begin) < board::kStripPx;
    EXPECT_EQ(drawn + narrow, lane.bars.size()) << lane.name;
    EXPECT_EQ(packed.strips.empty(), narrow == 0) << lane.name;
    counted += lane.bars.size();
  }
  EXPECT_GT(counted, 400U);
}

// Between two steps of a pixel the picture is the same, so that a steady board is not drawn again.
TEST_F(BoardLoad, APictureHoldsForAStepOfAPixel) {
  stage.view.zoom = 3;  // 18 h over some 1,700 px: 38 s each
  int changes = 0;
  look::Frame before = stage.frame(busy(), kNow);
  for (int s = 1; s <= 120; ++s) {
    look::Frame next = stage.frame(busy(), kNow + Seconds{s});
    const bool minute = (kNow + Seconds{s}).time_since_epoch() % Minutes{1} == Seconds{0};
    if (!look::same_picture(before, next) && !minute) ++changes;
    before = std::move(next);
  }
  EXPECT_LE(changes, 4);
}

TEST_F(BoardLoad, NotLiveNoNumberOfOthersIsLeft) {
  stage.view.bench = {}, stage.view.builder = {};
  stage.link = Link::not_live, stage.silent = Minutes{20};
  everywhere([&](const look::Frame& frame) {
    for (const char* word : {" over", "still on ", "lost its place", "free now", "wants it"})
      for (const look::Words& w : texts(frame))
        if (w.text != "still on past its time") {  // the legend
          EXPECT_EQ(w.text.find(word), std::string::npos) << w.text;
        }
  });
}

TEST(ClosedLength, IsInHalvesOfAnHour) {
  EXPECT_EQ(board::closed_length(Minutes{14 * 60 + 30}), "14 1/2 h");
  EXPECT_EQ(board::closed_length(Minutes{15 * 60}), "15 h");
  EXPECT_EQ(board::closed_length(Minutes{63 * 60}), "2 d 15 h");
  EXPECT_EQ(board::closed_length(Minutes{45}), "45 min");
}

}  // namespace
}  // namespace squeezeout::testing
