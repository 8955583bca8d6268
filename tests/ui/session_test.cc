// A person at a device: presses become commands, answers become the line at the foot. The server is played by the test.

#include <gtest/gtest.h>

#include <thread>

#include "tests/ui/session_stage.h"

namespace squeezeout::testing {
namespace {

using std::chrono::hours;

TEST_F(SessionTest, NothingIsGrantedUntilTheServerSaysSo) {
  session.press(Pick{bridge()}, kStart);
  EXPECT_EQ(session.view().screen, Screen::reserve);
  session.press(Ask{bridge()}, kStart);
  session.take_answers(kStart);
  EXPECT_EQ(session.view().screen, Screen::reserve) << "no answer yet";
  EXPECT_FALSE(session.view().message);

  serve();
  EXPECT_EQ(session.view().screen, Screen::card);
  EXPECT_EQ(session.view().glue_up, GlueUpId{1});
  EXPECT_EQ(session.view().touched, GlueUpId{1});
  ASSERT_TRUE(session.view().message);
  EXPECT_EQ(session.view().message->tone, Message::Tone::done);
}

TEST_F(SessionTest, ARefusedReserveOffersTheNextTime) {
  server.reserve(kBridge, kBen);  // unknown to this replica: the caul is gone
  Reserve exact = bridge();
  exact.start = kTen;
  session.press(Ask{exact}, kStart);
  serve();
  ASSERT_TRUE(session.view().message);
  EXPECT_EQ(session.view().message->tone, Message::Tone::refused);
  EXPECT_EQ(session.view().message->fix_label, "Take 11:14");
  ASSERT_TRUE(session.view().message->fix);
  session.press(*session.view().message->fix, kStart);
  serve();
  EXPECT_EQ(session.view().screen, Screen::card) << "what is offered can be had";
}

TEST_F(SessionTest, ClampsOffBeforeTheirTimeOffersTheOverride) {
  const GlueUpId id{1};
  session.press(Ask{bridge()}, kStart);
  serve();
  server.set(server.glue_up(id).times.open_begin);
  session.press(Ask{Start{id}}, kStart);
  serve();
  session.press(Ask{ClampsOn{id, server.now()}}, kStart);
  serve();
  session.press(Ask{ClampsOff{id, server.now()}}, kStart);
  serve();
  ASSERT_TRUE(session.view().message);
  EXPECT_EQ(session.view().message->fix_label, "Off anyway");
}

TEST_F(SessionTest, UndoOfAReservationLeavesItsCard) {
  session.press(Ask{bridge()}, kStart);
  serve();
  ASSERT_EQ(session.view().screen, Screen::card);
  session.press(Ask{Undo{GlueUpId{1}}}, kStart);
  serve();
  EXPECT_EQ(session.view().screen, Screen::bench);
}

TEST_F(SessionTest, ARequestWithoutAServerIsNotDone) {
  replica.disconnected(kStart);
  session.press(Ask{bridge()}, kStart + std::chrono::seconds{30});
  session.take_answers(kStart + std::chrono::seconds{30});
  ASSERT_TRUE(session.view().message);
  EXPECT_EQ(session.view().message->tone, Message::Tone::refused);
  EXPECT_EQ(session.view().screen, Screen::bench);
}

TEST_F(SessionTest, TheNextPressClearsTheMessage) {
  session.press(Ask{bridge()}, kStart);
  serve();
  ASSERT_TRUE(session.view().message);
  session.press(Zoom{1}, kStart);
  EXPECT_FALSE(session.view().message);
}

TEST_F(SessionTest, WhatTheWeatherDidIsToldToItsOwnBuilder) {
  elsewhere(bridge());
  EXPECT_FALSE(session.view().message) << "a reservation is no news of the weather";
  elsewhere(cold());
  ASSERT_TRUE(session.view().message);
  EXPECT_EQ(session.view().message->what, "The weather changed a glue-up of yours.");
  EXPECT_NE(session.view().message->why.find("bridge, dwell 60 -> "), std::string::npos)
      << session.view().message->why;
  session.press(Turn{}, kStart);
  session.take_answers(kStart);
  EXPECT_FALSE(session.view().message) << "told once";
  elsewhere(ClimateReading{{20}, {50}});
  EXPECT_FALSE(session.view().message) << "nothing new of it";
}

TEST_F(SessionTest, TheWeatherOfOthersIsNotToldHere) {
  Reserve others = bridge();
  others.builder = kBen;
  others.bench = kBench2;
  elsewhere(others);
  elsewhere(cold());
  ASSERT_TRUE(server.glue_up(GlueUpId{1}).weather);
  EXPECT_FALSE(session.view().message);
}

TEST_F(SessionTest, NewsOfTheWeatherWaitForARefusal) {
  elsewhere(bridge());
  Reserve exact = bridge();
  exact.start = kTen;
  session.press(Ask{exact}, kStart);  // the caul is taken
  serve();
  ASSERT_EQ(session.view().message->tone, Message::Tone::refused);
  elsewhere(cold());
  EXPECT_EQ(session.view().message->tone, Message::Tone::refused) << "its fix is still there";
  session.press(Turn{}, kStart);
  session.take_answers(kStart);
  ASSERT_TRUE(session.view().message);
  EXPECT_EQ(session.view().message->what, "The weather changed a glue-up of yours.");
}

TEST_F(SessionTest, QuietLeavesARefusalToBeRead) {
  elsewhere(bridge());
  Reserve exact = bridge();
  exact.start = kTen;
  session.press(Ask{exact}, kStart);  // the caul is taken; an alarm stands over the answer
  serve();
  session.press(Quiet{}, kStart);
  ASSERT_TRUE(session.view().message);
  EXPECT_EQ(session.view().message->tone, Message::Tone::refused);
  session.press(Turn{}, kStart);
  EXPECT_FALSE(session.view().message);
}

TEST_F(SessionTest, ManyNewsAreCounted) {
  elsewhere(SetStock{kShort, 40});
  for (const int hour : {0, 1, 2}) {
    Reserve later = bridge();
    later.recipe = kLining;
    later.after = kTen + hours{hour};
    elsewhere(later);
  }
  elsewhere(cold());
  ASSERT_TRUE(session.view().message);
  EXPECT_EQ(session.view().message->what, "The weather changed glue-ups of yours.");
  EXPECT_TRUE(session.view().message->why.ends_with("; and 1 more")) << session.view().message->why;
}

TEST(Identify, TakesKeysNamesAndNumbers) {
  const Bench b(kTen);
  const auto who = [&](const char* bench, const char* builder) {
    return identify(View{}, {bench, builder}, b.floor());
  };
  EXPECT_EQ(who("2", "")->bench, kBench2);
  EXPECT_EQ(who("2", "")->builder, kBen) << "who usually stands there";
  EXPECT_EQ(who("bench 2", "ada")->builder, kAda);
  EXPECT_EQ(who("", "CYD")->builder, kCyd);
  EXPECT_EQ(who("", "cyd")->bench, kBench2);
  EXPECT_EQ(who("", "")->bench, kBench1);
  ASSERT_FALSE(who("9", ""));
  EXPECT_NE(who("9", "").error().find("name one of 1, 2"), std::string::npos);
  ASSERT_FALSE(who("", "zed"));
  EXPECT_NE(who("", "zed").error().find("ada, ben, cyd"), std::string::npos);
}

TEST_F(SessionTest, AMoveThatIsGrantedEndsTheSeekingForIt) {
  session.press(Ask{bridge()}, kStart);
  serve();
  const GlueUpId id{1};
  session.press(Go{Screen::board, {}}, kStart);
  session.press(OtherTime{id, kTen + std::chrono::hours{1}, {}}, kStart);
  session.press(Ask{Move{id, kTen + std::chrono::hours{8}}}, kStart);  // it is closed then
  serve();
  EXPECT_TRUE(session.view().other_time) << "refused: it goes on";
  session.press(Ask{Move{id, kTen + std::chrono::hours{1}}}, kStart);
  serve();
  EXPECT_FALSE(session.view().other_time);
  EXPECT_EQ(session.view().picked, id);
  EXPECT_EQ(session.view().outlook.find, Outlook::Find::bar) << "and it is looked at";
}

TEST(ViewAfter, ZoomStopsAtBothEnds) {
  View v;
  for (int i = 0; i < 9; ++i) v = after(v, Zoom{1});
  EXPECT_EQ(v.zoom, 0);
  for (int i = 0; i < 9; ++i) v = after(v, Zoom{-1});
  EXPECT_EQ(v.zoom, kZoomCount - 1);
  EXPECT_EQ(after(v, Zoom{-1, {.at = kTen}}).outlook.at, std::nullopt) << "nothing changes";
  v = after(v, Pan{1, {.at = kTen}});
  EXPECT_EQ(v.outlook.at, kTen);
  EXPECT_FALSE(after(v, Zoom{0}).outlook.at) << "back to now";
}

TEST(ViewAfter, PagesNeverGoBelowTheFirst) {
  EXPECT_EQ(after(View{}, Turn{-1}).page, 0);
  EXPECT_EQ(after(after(View{}, Turn{1}), Go{Screen::gear, {}}).page, 0);
}

TEST_F(SessionTest, AnAcceptedPlanGoesBackToTheBoardAndCanBeUndone) {
  elsewhere(bridge());
  session.press(PlanAhead{plan_ahead::Task::replan}, kStart);
  ASSERT_EQ(session.view().screen, Screen::plan);
  session.press(Ask{AdoptPlan{{{GlueUpId{1}, kTen + hours{2}, kResin}}}}, kStart);
  EXPECT_EQ(session.view().screen, Screen::plan) << "nothing is granted until the server says so";
  serve();
  EXPECT_EQ(replica.floor().glue_up(GlueUpId{1})->times.stage_begin, kTen + hours{2});
  EXPECT_EQ(session.view().screen, Screen::board);
  EXPECT_EQ(session.view().adopted, PlanId{1});
  EXPECT_EQ(desk.plans.news().state, plan_ahead::Report::State::idle) << "it is used up";
  session.press(Ask{UndoPlan{session.view().adopted}}, kStart);
  serve();
  EXPECT_EQ(replica.floor().glue_up(GlueUpId{1})->times.stage_begin, kTen);
}

TEST_F(SessionTest, APlanThatTheFloorHasOvertakenOffersToPlanAgain) {
  elsewhere(bridge());
  session.press(PlanAhead{plan_ahead::Task::replan}, kStart);
  server.reserve(kBridge, kBen, kTen + hours{2});  // unknown to this replica: the caul is promised
  session.press(Ask{AdoptPlan{{{GlueUpId{1}, kTen + hours{2}, kResin}}}}, kStart);
  serve();
  ASSERT_TRUE(session.view().message);
  EXPECT_EQ(session.view().message->tone, Message::Tone::refused);
  EXPECT_EQ(session.view().message->fix_label, "Plan again");
  EXPECT_EQ(session.view().screen, Screen::plan) << "the proposal is still there to look at";
  ASSERT_TRUE(session.view().message->fix);
  session.press(*session.view().message->fix, kStart);
  const auto* again = &desk.plans.news();
  EXPECT_EQ(again->task, plan_ahead::Task::replan);
  EXPECT_NE(again->state, plan_ahead::Report::State::idle);
}

TEST_F(SessionTest, AHolderIsAskedBeforeHisGlueUpMoves) {
  Reserve others = bridge();
  others.builder = kBen;
  elsewhere(others);
  session.press(AskHolderToMove{GlueUpId{1}, kTen + hours{3}, kTen}, kStart);
  EXPECT_TRUE(replica.take_outgoing().empty()) << "nothing is asked of the server yet";
  ASSERT_TRUE(session.view().message);
  EXPECT_EQ(session.view().message->what, "Ask Ben: bridge 10:00 → 13:00.");
  ASSERT_TRUE(session.view().message->fix);
  session.press(*session.view().message->fix, kStart);
  serve();
  EXPECT_EQ(replica.floor().glue_up(GlueUpId{1})->times.stage_begin, kTen + hours{3});
}

TEST_F(SessionTest, LookingAtWhatIfBeginsToWorkItOutOnce) {
  session.press(Go{Screen::what_if, {}}, kStart);
  EXPECT_EQ(session.view().screen, Screen::what_if);
  EXPECT_NE(desk.what_ifs.news().state, plan_ahead::Report::State::idle);
  const auto until = std::chrono::steady_clock::now() + std::chrono::seconds{20};
  while (desk.what_ifs.news().state == plan_ahead::Report::State::running &&
         std::chrono::steady_clock::now() < until)
    std::this_thread::sleep_for(std::chrono::milliseconds{1});
  ASSERT_EQ(desk.what_ifs.news().state, plan_ahead::Report::State::done);
  session.press(Go{Screen::bench, {}}, kStart);
  session.press(Go{Screen::what_if, {}}, kStart);
  EXPECT_EQ(desk.what_ifs.news().state, plan_ahead::Report::State::done) << "not again";
}

TEST_F(SessionTest, WhatSomebodyElseCancelsIsNoLongerMoved) {
  session.press(Ask{bridge()}, kStart);
  serve();
  const GlueUpId id{1};
  session.press(Go{Screen::board, id}, kStart);
  session.press(OtherTime{id, kTen + hours{1}, {}}, kStart);
  session.take_answers(kStart);
  ASSERT_TRUE(session.view().other_time);
  elsewhere(Cancel{id});
  EXPECT_FALSE(session.view().other_time) << "its strip is gone, and with it the key that leaves";
  session.press(Back{}, kStart);
  EXPECT_NE(session.view().screen, Screen::board);
}

}  // namespace
}  // namespace squeezeout::testing
