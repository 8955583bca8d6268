// The board of a shop in full work in its rarer states, with usual and with double letters, in English and in the pseudo
// language: sizes_test holds the same of the demo shop's board as it is opened.

#include <gtest/gtest.h>

#include <set>
#include <tuple>

#include "client/words/say.h"
#include "tests/support/screens/large_shop.h"
#include "tests/support/screens/stage.h"

namespace squeezeout::testing {
namespace {

const Instant kNow = at("2026-11-26T14:12:07Z");

const Floor& busy() {
  static const Floor floor = large_floor(kNow, 560);
  return floor;
}

enum class State { chain, lost, seeks, seeks_in_vain, one_build, one_lane, not_live };
struct Device {
  float width, height, text;
  words::Language language;
};

class BoardSizes : public ::testing::TestWithParam<std::tuple<State, Device, int>> {
 protected:
  BoardSizes() : stage(screen().width, screen().height, look::kUsualMmPerPx, screen().text) {
    stage.view = ada_at_bench_1(Screen::board);
    stage.view.zoom = std::get<2>(GetParam());
    enter(std::get<0>(GetParam()));
    words::speak(screen().language);
    frame = stage.frame(busy(), kNow);
    words::speak(words::Language::english);
  }
  static Device screen() { return std::get<1>(GetParam()); }
  static const GlueUp& reserved() {
    for (const auto& [id, g] : busy().glue_ups)
      if (g.progress == Progress::reserved && g.build && g.times.stage_begin > kNow) return g;
    CHECK(!"nothing is reserved");
  }
  void enter(State state) {
    View& view = stage.view;
    const GlueUp& g = reserved();
    switch (state) {
      case State::chain:
        view.chain = Chain::shown;
        break;
      case State::lost:
        view.picked = *busy().displaced.begin();
        break;
      case State::seeks:
        view = after(view, OtherTime{g.id, g.times.stage_begin, {}});
        break;
      case State::seeks_in_vain:
        view = after(view, OtherTime{g.id, kNow + std::chrono::hours{8}, {}});  // at night
        break;
      case State::one_build:
        view.picked = g.id;
        view = after(view, OnlyBuild{g.build});
        break;
      case State::one_lane:
        view = after(view, OnlyLane{"waiting"});
        break;
      case State::not_live:
        stage.link = Link::not_live, stage.silent = Minutes{20};
        break;
    }
  }
  Stage stage;
  look::Frame frame;
};

TEST_P(BoardSizes, NothingIsCutOrStandsOnAnother) {
  const auto all = texts(frame);
  EXPECT_GT(all.size(), 20U);
  const look::Rect edges{0, 0, frame.width, frame.height};
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_FALSE(all[i].cut) << all[i].text;
    EXPECT_TRUE(edges.contains(all[i].at)) << all[i].text;
    for (std::size_t j = i + 1; j < all.size(); ++j)
      EXPECT_FALSE(all[i].at.inset(0.5F).overlaps(all[j].at.inset(0.5F)))
          << '"' << all[i].text << "\" and \"" << all[j].text << '"';
  }
}

TEST_P(BoardSizes, KeysAreLargeEnoughAndApart) {
  for (const look::Press& p : frame.presses) {
    if (p.kind != look::Kind::button) continue;
    const bool next = p.id == "next";
    EXPECT_GE(stage.scale.mm(p.at.w), next ? 59.9F : 19.9F) << p.id;
    EXPECT_GE(stage.scale.mm(p.at.h), next ? 29.9F : 19.9F) << p.id;
    for (const look::Press& q : frame.presses)
      if (&p != &q && q.kind == look::Kind::button) {
        EXPECT_FALSE(p.at.inset(-(stage.scale.gap() - 1)).overlaps(q.at)) << p.id << ", " << q.id;
      }
  }
}

TEST_P(BoardSizes, EveryKeyIsOnesOwn) {
  std::set<int> keys;
  for (const look::Press& p : frame.presses)
    for (const int key : p.keys) EXPECT_TRUE(keys.insert(key).second) << p.id << " " << key;
}

constexpr Device kDevices[] = {
    {1920, 1080, 1, words::Language::english}, {1366, 768, 1, words::Language::english},
    {1920, 1080, 2, words::Language::english}, {1366, 768, 2, words::Language::english},
    {1920, 1080, 1, words::Language::pseudo},  {1366, 768, 1, words::Language::pseudo}};

INSTANTIATE_TEST_SUITE_P(Busy, BoardSizes,
                         ::testing::Combine(::testing::Values(State::chain, State::lost,
                                                              State::seeks, State::seeks_in_vain,
                                                              State::one_build, State::one_lane,
                                                              State::not_live),
                                            ::testing::ValuesIn(kDevices),
                                            ::testing::Values(2, kZoomCount - 1)));

}  // namespace
}  // namespace squeezeout::testing
