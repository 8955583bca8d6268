// What is planned ahead, on the screens: proposals with their progress, what-ifs, builds at risk, undo of a plan. Reports are made
// by hand.

#include <gtest/gtest.h>

#include "client/panels/plan_model.h"
#include "tests/ui/hands.h"

namespace squeezeout::testing {
namespace {

using plan_ahead::Report;
using plan_ahead::Task;
using std::chrono::hours;
const Instant kTen = at("2026-11-26T10:00:00Z");  // a Thursday

class PlanFrames : public ::testing::Test {
 protected:
  PlanFrames() : bench(kTen), hands(stage) {
    bridge = bench.reserve(kBridge, kAda, kTen + hours{1});
    binding = bench.reserve(kBinding, kBen, kTen + hours{2});
    stage.view.screen = Screen::plan;
    stage.view.plan = Task::replan;
  }
  Shift shift(GlueUpId id, Instant to) const {
    const GlueUp& g = bench.glue_up(id);
    Shift s{id, g.times.stage_begin, g.times, g.sheet};
    const Seconds by = to - g.times.stage_begin;
    s.to.stage_begin += by, s.to.open_begin += by, s.to.clamped_begin += by;
    s.to.release_begin += by, s.to.release_end += by, s.to.ready_at += by;
    return s;
  }
  Report found(std::vector<Shift> shifts) const {
    Report r;
    r.task = Task::replan;
    r.state = Report::State::done;
    r.revision = stage.revision;
    r.asked_at = kTen;
    r.progress.work = r.progress.tried = 12'400;
    r.proposal.emplace();
    r.proposal->shifts = std::move(shifts);
    return r;
  }
  Report running() const {
    Report r;
    r.task = Task::replan;
    r.state = Report::State::running;
    r.progress.work = r.progress.tried = 12'400;
    r.work_most = 100'000;
    return r;
  }
  look::Frame frame() { return stage.frame(bench.floor(), bench.now()); }
  template <class I>
  std::optional<I> pressed(const std::optional<look::Pressed>& p) const {
    const I* meant = p ? std::get_if<I>(&p->intent) : nullptr;
    return meant == nullptr ? std::nullopt : std::optional<I>{*meant};
  }

  Stage stage;
  Bench bench;
  Hands hands;
  GlueUpId bridge, binding;
};

TEST_F(PlanFrames, AProposalSaysFromWhenToWhenAndMovesNothing) {
  stage.plan = found({shift(bridge, kTen + hours{3}), shift(binding, kTen + hours{1})});
  const look::Frame f = frame();
  EXPECT_TRUE(says(f, "11:00 → 13:00")) << all_texts(f);
  EXPECT_TRUE(says(f, "2 h later"));
  EXPECT_TRUE(says(f, "1 h sooner"));
  EXPECT_TRUE(says(f, "The best of 12 400 schedules tried.")) << all_texts(f);
  EXPECT_EQ(bench.glue_up(bridge).times.stage_begin, kTen + hours{1});
}

TEST_F(PlanFrames, WhatIsLeftForTheNextPlanIsSaid) {
  stage.plan = found({shift(bridge, kTen + hours{3})});
  EXPECT_FALSE(says(frame(), "at most")) << all_texts(frame());
  stage.plan.proposal->put_off.assign(12, binding);
  EXPECT_TRUE(says(frame(), "12 more are left as they are: one plan moves 500 at most."))
      << all_texts(frame());
}

TEST_F(PlanFrames, AMultitudeWithoutAPlaceIsNamedAsFarAsItStandsThere) {
  stage.plan = found({});
  stage.plan.proposal->no_place.assign(600, binding);
  const look::Frame f = frame();
  EXPECT_TRUE(says(f, "No place was found: binding")) << all_texts(f);
  EXPECT_TRUE(says(f, " more")) << all_texts(f);
  for (const look::Words& w : texts(f)) EXPECT_FALSE(w.cut) << w.text;
}

TEST_F(PlanFrames, TheNextKeyOfPagesTurnsFromThePageThatIsShown) {
  std::vector<Shift> many(25, shift(bridge, kTen + hours{3}));
  stage.plan = found(many);
  stage.view.page = 9;  // a longer list stood here
  const auto back = pressed<Turn>(hands.key(frame(), 'P'));
  ASSERT_TRUE(back);
  const std::string last = all_texts(frame());
  stage.view = after(stage.view, *back);
  EXPECT_NE(all_texts(frame()), last) << "one press, one page";
  EXPECT_NE(find(frame(), "page.next"), nullptr);
}

TEST_F(PlanFrames, SpaceAcceptsAllOfIt) {
  stage.plan = found({shift(bridge, kTen + hours{3}), shift(binding, kTen + hours{1})});
  const auto ask = pressed<Ask>(hands.key(frame(), ' '));
  ASSERT_TRUE(ask);
  const auto* adopt = std::get_if<AdoptPlan>(&ask->body);
  ASSERT_NE(adopt, nullptr);
  ASSERT_EQ(adopt->moves.size(), 2U);
  EXPECT_EQ(adopt->moves[0], (Adopted{bridge, kTen + hours{3}, kResin}));
  EXPECT_EQ(adopt->moves[1], (Adopted{binding, kTen + hours{1}, kCement}));
}

TEST_F(PlanFrames, RefusePutsItAwayAndGoesBackWhereItCameFrom) {
  stage.plan = found({shift(bridge, kTen + hours{3})});
  const auto refuse = pressed<RefusePlan>(hands.key(frame(), 'X'));
  ASSERT_TRUE(refuse);
  EXPECT_EQ(after(stage.view, *refuse).screen, Screen::board);
  stage.view.plan = Task::repair;
  EXPECT_EQ(after(stage.view, *refuse).screen, Screen::snags);
}

TEST_F(PlanFrames, EscapeKeepsThePlanAndItIsSeenAgainFromTheSnags) {
  stage.plan = found({shift(bridge, kTen + hours{3})});
  const auto back = pressed<Back>(hands.key(frame(), look::kEscape));
  ASSERT_TRUE(back);
  EXPECT_EQ(after(stage.view, *back).screen, Screen::board);
  stage.view.screen = Screen::snags;
  const auto again = pressed<Go>(hands.key(frame(), 'V'));
  ASSERT_TRUE(again);
  stage.view = after(stage.view, *again);
  EXPECT_TRUE(says(frame(), "11:00 → 13:00")) << all_texts(frame());
  stage.plan = {};
  stage.view.screen = Screen::snags;
  EXPECT_FALSE(hands.key(frame(), 'V')) << "put away";
}

TEST_F(PlanFrames, TheBoardShowsAReplanThatIsThereInsteadOfBeginningAnother) {
  stage.plan = found({shift(bridge, kTen + hours{3})});
  stage.view.screen = Screen::board;
  const auto again = pressed<Go>(hands.key(frame(), 'R'));
  ASSERT_TRUE(again);
  EXPECT_EQ(again->screen, Screen::plan);
}

TEST_F(PlanFrames, CancelStandsWhereRefuseWillStandAndNeverWhereAcceptWill) {
  stage.plan = running();
  const look::Rect cancel = find(frame(), "stop")->at;
  stage.plan = found({shift(bridge, kTen + hours{3})});
  EXPECT_EQ(cancel, find(frame(), "refuse")->at);
  EXPECT_FALSE(cancel.overlaps(find(frame(), "accept")->at));
}

TEST_F(PlanFrames, NotLiveNothingCanBeAccepted) {
  stage.plan = found({shift(bridge, kTen + hours{3})});
  stage.link = Link::not_live;
  EXPECT_FALSE(hands.key(frame(), ' '));
}

TEST_F(PlanFrames, WhatIsProvenIsSaidToBe) {
  stage.plan = found({shift(bridge, kTen + hours{3})});
  stage.plan.proposal->optimal = true;
  EXPECT_TRUE(says(frame(), "Proven best."));
  stage.plan.state = Report::State::stopped;
  stage.plan.proposal->optimal = false;
  EXPECT_TRUE(says(frame(), "Stopped: the best of 12 400 schedules tried.")) << all_texts(frame());
}

TEST_F(PlanFrames, AFloorThatHasChangedSinceIsTold) {
  stage.plan = found({shift(bridge, kTen + hours{3})});
  EXPECT_FALSE(says(frame(), "has changed"));
  stage.revision = 9;
  EXPECT_TRUE(says(frame(), "The floor has changed since 10:00.")) << all_texts(frame());
  EXPECT_TRUE(pressed<PlanAhead>(hands.key(frame(), 'R')));
}

TEST_F(PlanFrames, ProgressCountsAndEscapeCancels) {
  stage.plan = running();
  look::Frame f = frame();
  EXPECT_TRUE(says(f, "12 400") || says(f, "400")) << all_texts(f);
  EXPECT_TRUE(says(f, "schedules tried"));
  EXPECT_TRUE(says(f, "none yet"));
  EXPECT_TRUE(pressed<StopPlanning>(hands.key(f, look::kEscape)));
  EXPECT_FALSE(hands.key(f, ' ')) << "nothing can be accepted yet";

  stage.plan.progress.best = schedule::Cost{200, 3 * schedule::kMoved + 370, 900};
  stage.plan.progress.lower_bound = schedule::Cost{200, 0, 900};
  f = frame();
  EXPECT_TRUE(says(f, "late 3 h 20 in all · 3 moved, by 6 h 10 in all")) << all_texts(f);
  EXPECT_TRUE(says(f, "late 3 h 20 in all · nothing moved"));
  stage.plan.progress.lower_bound = *stage.plan.progress.best;
  EXPECT_TRUE(says(frame(), "proven best"));
}

TEST_F(PlanFrames, NothingToMoveHasNothingToAccept) {
  stage.plan = found({});
  EXPECT_TRUE(says(frame(), "The plan stands")) << all_texts(frame());
  EXPECT_FALSE(hands.key(frame(), ' '));
  EXPECT_TRUE(pressed<RefusePlan>(hands.key(frame(), 'X')));
  stage.plan.proposal->no_place = {binding};
  EXPECT_TRUE(says(frame(), "No place was found: binding")) << all_texts(frame());
  stage.plan.proposal->optimal = true;
  EXPECT_TRUE(says(frame(), "No place within 60 days: binding")) << "only when it is proven";
}

TEST_F(PlanFrames, AReplanIsNotShownAsARepair) {
  stage.plan = found({shift(bridge, kTen + hours{3})});
  stage.view.plan = Task::repair;
  EXPECT_FALSE(says(frame(), "11:00 → 13:00"));
}

TEST_F(PlanFrames, AnotherGlueIsTold) {
  Shift s = shift(binding, kTen + hours{3});
  s.sheet = kResin;
  stage.plan = found({s});
  EXPECT_TRUE(says(frame(), "with resin")) << all_texts(frame());
}

TEST_F(PlanFrames, WhatIfIsRankedWithItsWords) {
  stage.view.screen = Screen::what_if;
  EXPECT_TRUE(says(frame(), "Press R")) << all_texts(frame());
  EXPECT_TRUE(pressed<PlanAhead>(hands.key(frame(), 'R')));

  stage.what_if.state = Report::State::running;
  stage.what_if.steps = 3, stage.what_if.steps_most = 9;
  EXPECT_TRUE(says(frame(), "3 of 9")) << all_texts(frame());

  stage.what_if.state = Report::State::done;
  WhatIf caul;
  caul.change = MoreGear{kCaul, 1};
  caul.waited = hours{6}, caul.would_wait = Minutes{40};
  caul.glue_ups = 31, caul.sooner = 9, caul.later = 1;
  WhatIf sunday = caul;
  sunday.change = OpenOn{0};
  sunday.would_wait = sunday.waited;
  stage.what_if.what_if = {caul, sunday};
  stage.what_if.demand = {kTen - hours{48}, kTen + hours{48}};
  const look::Frame f = frame();
  EXPECT_TRUE(says(f, "1 more bridge caul")) << all_texts(f);
  EXPECT_TRUE(says(f, "5 h 20 less waiting"));
  EXPECT_TRUE(says(f, "over 31 glue-ups: 9 sooner, 1 later"));
  EXPECT_TRUE(says(f, "Open on Sundays"));
  EXPECT_TRUE(says(f, "no less waiting"));
  EXPECT_TRUE(says(f, "Tue 24 Nov"));
}

TEST_F(PlanFrames, WithoutDemandThereIsNothingToRank) {
  stage.view.screen = Screen::what_if;
  stage.what_if.state = Report::State::done;
  stage.what_if.what_if = {WhatIf{}};
  EXPECT_TRUE(says(frame(), "Nothing is on record yet")) << all_texts(frame());
}

TEST_F(PlanFrames, WhatIfThatWasStoppedSaysSo) {
  stage.view.screen = Screen::what_if;
  stage.what_if.state = Report::State::stopped;
  EXPECT_TRUE(says(frame(), "Stopped before the first change")) << all_texts(frame());
  stage.what_if.state = Report::State::out_of_time;
  EXPECT_TRUE(says(frame(), "The time was over")) << all_texts(frame());
}

TEST_F(PlanFrames, RepairIsTheNextKeyWhereSomethingLostItsPlace) {
  ASSERT_TRUE(bench.press(GearBroken{kCaul, 1, "cracked"}));
  ASSERT_EQ(bench.glue_up(bridge).progress, Progress::displaced);
  stage.view.screen = Screen::snags;
  const auto repair = pressed<PlanAhead>(hands.key(frame(), ' '));
  ASSERT_TRUE(repair);
  EXPECT_EQ(repair->task, Task::repair);
  EXPECT_EQ(after(stage.view, *repair).screen, Screen::plan);
  const auto replan = pressed<PlanAhead>(hands.key(frame(), 'R'));
  ASSERT_TRUE(replan);
  EXPECT_EQ(replan->task, Task::replan);
}

TEST_F(PlanFrames, WithoutSnagsThereIsNothingToRepair) {
  stage.view.screen = Screen::snags;
  EXPECT_FALSE(hands.key(frame(), ' '));
  EXPECT_TRUE(says(frame(), "No snags"));
}

TEST_F(PlanFrames, TheBoardReplansByKeyAndButton) {
  stage.view.screen = Screen::board;
  const auto by_key = pressed<PlanAhead>(hands.key(frame(), 'R'));
  ASSERT_TRUE(by_key);
  EXPECT_EQ(by_key->task, Task::replan);
  EXPECT_TRUE(pressed<PlanAhead>(hands.click(frame(), "replan")));
}

TEST_F(PlanFrames, AnAcceptedPlanIsTakenBackInOnePress) {
  ASSERT_TRUE(bench.press(AdoptPlan{{{bridge, kTen + hours{3}, kResin}}}));
  ASSERT_EQ(bench.glue_up(bridge).times.stage_begin, kTen + hours{3});
  stage.view.screen = Screen::snags;
  const auto undo = pressed<Ask>(hands.key(frame(), 'U'));
  ASSERT_TRUE(undo);
  ASSERT_TRUE(std::holds_alternative<UndoPlan>(undo->body));
  stage.view.screen = Screen::bench;
  EXPECT_EQ(find(frame(), "undo"), nullptr) << "somebody else's plan is not undone from a bench";
  stage.view.adopted = PlanId{bench.floor().last_plan};
  EXPECT_NE(find(frame(), "undo"), nullptr);

  ASSERT_TRUE(bench.press(undo->body));
  EXPECT_EQ(bench.glue_up(bridge).times.stage_begin, kTen + hours{1});
  EXPECT_EQ(find(frame(), "undo"), nullptr);
}

TEST_F(PlanFrames, APlanCanBeTakenBackForAnHour) {
  ASSERT_TRUE(bench.press(AdoptPlan{{{bridge, kTen + hours{3}, kResin}}}));
  stage.view.screen = Screen::board;
  bench.wait(kUndoWindow);
  EXPECT_TRUE(says(frame(), "Undo plan")) << all_texts(frame());
  bench.wait(Seconds{1});
  EXPECT_FALSE(says(frame(), "Undo plan"));
}

TEST_F(PlanFrames, AskingAHolderToMoveIsOnePress) {
  stage.view.screen = Screen::reserve;
  stage.view.wanted = {.recipe = kBridge, .builder = kBen, .bench = kBench2, .after = kTen};
  const look::Frame f = frame();  // the only caul is Ada's from 11:00 till 12:14
  EXPECT_TRUE(says(f, "Ask Ada: 10:00")) << all_texts(f);
  const auto ask = pressed<AskHolderToMove>(hands.key(f, 'G'));
  ASSERT_TRUE(ask);
  EXPECT_EQ(ask->glue_up, bridge);
  EXPECT_EQ(ask->then, kTen);
  EXPECT_GE(ask->to, kTen + Minutes{74});
  EXPECT_EQ(bench.glue_up(bridge).times.stage_begin, kTen + hours{1}) << "it is asked, not moved";
  EXPECT_NE(find(f, "reserve"), nullptr) << "and may be left alone";
}

TEST(Thousands, AreSetApart) {
  EXPECT_EQ(panels::in_thousands(0), "0");
  EXPECT_EQ(panels::in_thousands(999), "999");
  EXPECT_EQ(panels::in_thousands(12'400), "12 400");
  EXPECT_EQ(panels::in_thousands(2'000'000), "2 000 000");
}

}  // namespace
}  // namespace squeezeout::testing
