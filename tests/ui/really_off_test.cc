// "Really off at": when the clamps came off, told in one press after Clamps off.

#include "client/view/next.h"
#include "tests/ui/session_stage.h"

namespace squeezeout::testing {
namespace {

// Clamps on at 10:10, off by 11:10 at the earliest, and pressed off at 11:40.
class ReallyOffTest : public SessionTest {
 protected:
  ReallyOffTest() {
    session.press(Ask{bridge()}, kStart);
    serve();
    press_at(Minutes{5}, Start{id});
    press_at(Minutes{10}, ClampsOn{id, kTen + Minutes{10}});
    press_at(Minutes{100}, ClampsOff{id, kTen + Minutes{100}});
  }
  void press_at(Minutes after_ten, Body body) {
    server.set(kTen + after_ten);
    session.press(Ask{std::move(body)}, kStart);
    serve();
  }
  const GlueUp& bridge_now() const { return *replica.floor().glue_up(id); }
  GlueUpId id{1};
};

TEST_F(ReallyOffTest, AfterClampsOffTheTrueTimeIsOnePress) {
  ASSERT_EQ(bridge_now().progress, Progress::waiting);
  ASSERT_TRUE(session.view().message && session.view().message->fix);
  EXPECT_EQ(session.view().message->fix_label, "Really off 11:35");
  session.press(*session.view().message->fix, kStart);
  serve();  // the press is taken back
  serve();  // and said again
  EXPECT_EQ(bridge_now().progress, Progress::waiting);
  EXPECT_EQ(bridge_now().off_at, kTen + Minutes{95});
  EXPECT_EQ(server.glue_up(id).times.release_end, kTen + Minutes{95}) << "the gear was free then";
}

TEST_F(ReallyOffTest, WhatCannotBeTakenBackStaysAsItWasAndSaysSo) {
  server.set(kTen + Minutes{100} + kUndoWindow + Seconds{1});
  session.press(ReallyOff{id, kTen + Minutes{95}}, kStart);
  serve();
  serve();
  EXPECT_EQ(bridge_now().off_at, kTen + Minutes{100});
  ASSERT_TRUE(session.view().message);
  EXPECT_EQ(session.view().message->tone, Message::Tone::refused);
}

TEST_F(ReallyOffTest, OnlyWhatTheFloorWouldTakeIsOffered) {
  const GlueUp& g = server.glue_up(id);
  const Instant now = server.now();
  const std::vector<Instant> both{kTen + Minutes{95}, kTen + Minutes{85}};
  EXPECT_EQ(really_off(server.floor(), g, now), both);
  EXPECT_EQ(really_off(server.floor(), g, now + kCorrectable), both);
  EXPECT_TRUE(really_off(server.floor(), g, now + kCorrectable + Seconds{1}).empty());
  ASSERT_TRUE(server.press(Undo{id}));
  ASSERT_TRUE(server.press(ClampsOff{id, kTen + Minutes{78}}));
  EXPECT_EQ(really_off(server.floor(), server.glue_up(id), now),
            std::vector<Instant>{kTen + Minutes{73}})
      << "a quarter of an hour before, they could not come off yet";
}

}  // namespace
}  // namespace squeezeout::testing
