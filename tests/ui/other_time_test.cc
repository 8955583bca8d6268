// Another time for a reserved glue-up: the stretches are the floor's own answers, the ghost goes where it is moved, one press asks.

#include <gtest/gtest.h>

#include "tests/ui/hands.h"

namespace squeezeout::testing {
namespace {

using std::chrono::hours;

const Instant kTen = at("2026-11-26T10:00:00Z");

// Ada's bridge holds the only caul until 11:14; Ben's waits for it.
class OtherTimeTest : public ::testing::Test {
 protected:
  OtherTimeTest() : bench(kTen), hands(stage) {
    stage.view = ada_at_bench_1(Screen::board);
    first = bench.reserve(kBridge, kAda);
    second = bench.reserve(kBridge, kBen);
    stage.view.picked = second;
  }
  look::Frame frame() {
    look::Frame f;
    quotes.look_at(++revision, bench.now());
    do f = lay_out(scene());
    while (f.work == look::Frame::Work::more);
    return f;
  }
  Scene scene() {
    return {.floor = bench.floor(),
            .now = bench.now(),
            .link = stage.link,
            .silent = stage.silent,
            .view = stage.view,
            .scale = stage.scale,
            .letters = stage.letters,
            .quotes = quotes,
            .revision = revision,
            .width = stage.width,
            .height = stage.height};
  }
  void press(int key) {
    const auto pressed = hands.key(frame(), key);
    ASSERT_TRUE(pressed);
    stage.view = after(stage.view, pressed->intent);
  }
  Instant wish() const { return stage.view.other_time->wish; }
  const Move* move() {
    const look::Press* next = find(last = frame(), "next");
    const Ask* ask = next == nullptr ? nullptr : std::get_if<Ask>(&next->intent);
    return ask == nullptr ? nullptr : std::get_if<Move>(&ask->body);
  }
  Stage stage;
  Bench bench;
  Hands hands;
  Quotes quotes;
  std::uint64_t revision = 0;
  GlueUpId first, second;
  look::Frame last;
};

TEST_F(OtherTimeTest, IsAKeyOfWhatIsReserved) {
  press('M');
  ASSERT_TRUE(stage.view.other_time);
  EXPECT_EQ(stage.view.other_time->glue_up, second);
  EXPECT_EQ(wish(), bench.glue_up(second).times.stage_begin);
  press(look::kEscape);
  EXPECT_FALSE(stage.view.other_time);
  EXPECT_EQ(stage.view.screen, Screen::board) << "Esc leaves the move, not the board";
  bench.set(bench.glue_up(first).times.open_begin);
  ASSERT_TRUE(bench.press(Start{first}));
  stage.view.picked = first;
  EXPECT_EQ(find(frame(), "other_time"), nullptr) << "what has started stays";
}

// At every quarter of an hour of the window: within a stretch when, and only when, a move to it is granted.
TEST_F(OtherTimeTest, TheStretchesAreTheFloorsOwnAnswers) {
  press('M');
  stage.view.zoom = 3;
  (void)frame();
  const auto& stretches = quotes.free_starts().stretches();
  ASSERT_GE(stretches.size(), 2U);
  int fits = 0, not_free = 0;
  const Instant begin = kTen + kStartGrid;
  const Instant end = std::min(kTen + hours{28}, quotes.free_starts().known_to());
  for (Instant t = begin; t < end; t += kStartGrid) {
    bool shown = false;
    for (const Span& s : stretches) shown = shown || s.contains(t);
    Bench trial = bench;
    const bool granted = trial.press(Move{second, t}).has_value();
    EXPECT_EQ(shown, granted) << t.time_since_epoch().count();
    granted ? ++fits : ++not_free;
  }
  EXPECT_GT(fits, 10);
  EXPECT_GT(not_free, 10);
}

TEST_F(OtherTimeTest, WorkedOutInPiecesTheyAreTheSame) {
  const Span window{kTen, kTen + hours{48}};
  FreeStarts whole, pieces;
  whole.look(bench.floor(), second, window, kTen, 100'000);
  ASSERT_TRUE(whole.knows(window));
  int looks = 0;
  for (; !pieces.knows(window) && looks < 1'000; ++looks)
    pieces.look(bench.floor(), second, window, kTen, 3);
  EXPECT_GT(looks, 5);
  EXPECT_EQ(pieces.stretches(), whole.stretches());
}

TEST_F(OtherTimeTest, AFrameAsksTheFloorAFewTimesOnly) {
  press('M');
  stage.view.zoom = kZoomCount - 1;
  quotes.look_at(++revision, bench.now());
  EXPECT_EQ(lay_out(scene()).work, look::Frame::Work::more);
}

TEST_F(OtherTimeTest, KeysMoveTheGhostAndSayWhatTheyMeet) {
  press('M');
  const Instant own = wish();
  press(look::kRight);
  EXPECT_EQ(wish(), at("2026-11-26T11:15:00Z")) << "on to the next quarter";
  EXPECT_TRUE(says(frame(), "It fits: off about 12:24")) << all_texts(frame());
  ASSERT_NE(move(), nullptr);
  EXPECT_EQ(move()->start, wish());
  press(look::kLeft);
  press(look::kLeft);
  EXPECT_LT(wish(), own);
  EXPECT_FALSE(says(frame(), "It fits")) << all_texts(frame());
  EXPECT_TRUE(says(frame(), "the next that fits"));
  EXPECT_TRUE(says(frame(), "caul")) << "what is in the way: " << all_texts(frame());
  ASSERT_NE(move(), nullptr);
  EXPECT_EQ(move()->start, own) << "one press takes the next that fits";
  press(look::kDown);
  EXPECT_EQ(wish(), at("2026-11-27T10:45:00Z")) << "the same time tomorrow";
  press(look::kUp);
  EXPECT_FALSE(says(frame(), "It fits"));
  press('E');
  EXPECT_EQ(wish(), own) << "to the next moment that fits";
  EXPECT_TRUE(says(frame(), "It fits"));
}

TEST_F(OtherTimeTest, ThePointerAims) {
  press('M');
  const look::Frame f = frame();
  const float x = 1'200;
  const auto pressed = hands.click_at(f, {x, 400});
  ASSERT_TRUE(pressed);
  EXPECT_EQ(pressed->id, "aim");
  stage.view = after(stage.view, pressed->intent);
  EXPECT_LE(std::chrono::abs(wish() - look::instant_at(*f.time, x)), kStartGrid);
  EXPECT_EQ(wish().time_since_epoch() % kStartGrid, Seconds{0});
}

TEST_F(OtherTimeTest, SpaceAsksAndTheAnswerLeaves) {
  press('M');
  press(look::kRight);
  const auto pressed = hands.key(frame(), ' ');
  ASSERT_TRUE(pressed);
  const auto* ask = std::get_if<Ask>(&pressed->intent);
  ASSERT_NE(ask, nullptr);
  EXPECT_TRUE(bench.press(ask->body)) << "what is offered is granted";
}

TEST_F(OtherTimeTest, NotLiveNothingIsOffered) {
  press('M');
  stage.link = Link::not_live, stage.silent = Minutes{3};
  EXPECT_EQ(move(), nullptr);
  EXPECT_TRUE(says(frame(), "not while NOT LIVE")) << all_texts(frame());
}

TEST(LastStart, IsOneThatFits) {
  const Instant odd = at("2026-11-26T12:07:00Z"), quarter = at("2026-11-26T12:15:00Z");
  EXPECT_EQ(last_start({odd, quarter}), odd);
  EXPECT_EQ(last_start({odd, quarter + kStartGrid}), quarter);
  EXPECT_EQ(last_start({quarter, quarter + kStartGrid}), quarter);
}

TEST_F(OtherTimeTest, AStretchThatIsNotKnownToEndSaysOnlyFromWhen) {
  press('M');
  stage.view.zoom = 1;
  const look::Frame f = frame();
  const auto& free = quotes.free_starts();
  ASSERT_FALSE(free.stretches().empty());
  ASSERT_GE(free.stretches().back().end, free.known_to());
  EXPECT_FALSE(says(f, "11:14 to ")) << all_texts(f);
}

}  // namespace
}  // namespace squeezeout::testing
