// Longest paths: bounds that no schedule leaves, and proofs of impossibility that hold.

#include "common/schedule/lags.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/schedule/exhaustive.h"
#include "tests/support/schedule/random_problem.h"

namespace squeezeout::schedule::testing {
namespace {

using ::testing::ElementsAre;

Task lasting(Tick length, int calendar = -1) {
  return {.modes = {Mode{.parts = {Part{.length = length, .calendar = calendar}}}}};
}
Lag least(int from, int to, Tick ticks) { return {.from = from, .to = to, .ticks = ticks}; }
Lag most(int from, int to, Tick ticks) { return {.from = to, .to = from, .ticks = -ticks}; }
Lag after(int from, int to, Tick ticks) {
  return {.from = from, .to = to, .ticks = ticks, .after = Lag::After::ready};
}

// What a lag asks at the least, whatever is chosen and when.
std::int64_t asks(const Problem& problem, const Lag& lag) {
  if (lag.after == Lag::After::start) return lag.ticks;
  Tick least = kFar;
  for (const Mode& mode : problem.tasks[static_cast<std::size_t>(lag.from)].modes) {
    Tick sum = 0, waited = 0;
    for (std::size_t p = 0; p < mode.parts.size(); ++p) {
      const Part& part = mode.parts[p];
      if (mode.wait && !mode.wait->by_begin && mode.wait->from_part == static_cast<int>(p))
        waited = sum + mode.wait->length;
      Tick shortest = part.length;
      for (Tick t = 0; part.by_begin && t <= problem.horizon; ++t)
        shortest = t == 0 ? part.by_begin->at(t) : std::min(shortest, part.by_begin->at(t));
      sum += shortest;
    }
    least = std::min(least, std::max(sum, waited));
  }
  return least + lag.ticks;
}

void expect_proof(const Problem& problem, const Cycle& cycle) {
  ASSERT_FALSE(cycle.lags.empty());
  std::int64_t sum = 0;
  for (std::size_t k = 0; k < cycle.lags.size(); ++k) {
    const Lag& lag = cycle.lags[k];
    EXPECT_EQ(lag.to, cycle.lags[(k + 1) % cycle.lags.size()].from);
    EXPECT_TRUE(std::any_of(problem.lags.begin(), problem.lags.end(), [&](const Lag& l) {
      return l.from == lag.from && l.to == lag.to && l.ticks == lag.ticks && l.after == lag.after;
    })) << "a lag that the problem has not";
    sum += asks(problem, lag);
  }
  EXPECT_GT(sum, 0);
}

TEST(Lags, StartAsEarlyAndAsLateAsTheyCan) {
  Problem p{.tasks = {lasting(3), lasting(4), lasting(2)},
            .lags = {after(0, 1, 1), least(1, 2, 2), most(1, 2, 5)}};
  p.tasks[2].latest = 20;
  const auto bounds = std::get<Bounds>(bounds_of(p));
  EXPECT_THAT(bounds.earliest, ElementsAre(0, 4, 6));
  EXPECT_THAT(bounds.latest, ElementsAre(14, 18, 20));
}

TEST(Lags, MostLagPullsTheFirstTaskAfterALateSecond) {
  Problem p{.tasks = {lasting(1), lasting(1)}, .lags = {least(0, 1, 2), most(0, 1, 5)}};
  p.tasks[1].earliest = 30;
  EXPECT_THAT(std::get<Bounds>(bounds_of(p)).earliest, ElementsAre(25, 30));
}

TEST(Lags, NameTheCycleThatCannotBe) {
  const Problem p{.tasks = {lasting(3), lasting(4), lasting(2), lasting(9)},
                  .lags = {after(3, 0, 0), after(0, 1, 0), after(1, 2, 0), most(0, 2, 6)}};
  const auto bounds = bounds_of(p);
  ASSERT_TRUE(std::holds_alternative<Cycle>(bounds));
  expect_proof(p, std::get<Cycle>(bounds));
  EXPECT_EQ(std::get<Cycle>(bounds).lags.size(), 3U);
}

TEST(Lags, NameTheCycleThroughAWait) {
  Problem p{.tasks = {{.modes = {Mode{.parts = {Part{.length = 2}, Part{.length = 3}},
                                      .wait = Wait{.from_part = 1, .length = 10}}}},
                      lasting(1)},
            .lags = {after(0, 1, 0), most(0, 1, 11)}};
  const auto bounds = bounds_of(p);
  ASSERT_TRUE(std::holds_alternative<Cycle>(bounds))
      << "12 of its parts' begin and its wait, 11 at the most";
  expect_proof(p, std::get<Cycle>(bounds));
  EXPECT_EQ(std::get<Cycle>(bounds).lags.size(), 2U);
  p.lags[1] = most(0, 1, 12);
  EXPECT_THAT(std::get<Bounds>(bounds_of(p)).earliest, ElementsAre(0, 12));
}

TEST(Lags, LatestCountsTheWait) {
  Problem p{.tasks = {{.modes = {Mode{.parts = {Part{.length = 2}}, .wait = Wait{.length = 10}}}},
                      lasting(1)},
            .lags = {after(0, 1, 0)}};
  p.tasks[1].latest = 15;
  EXPECT_THAT(std::get<Bounds>(bounds_of(p)).latest, ElementsAre(5, 15));
}

TEST(Lags, LagToItselfIsACycle) {
  const Problem p{.tasks = {lasting(3)}, .lags = {least(0, 0, 1)}};
  ASSERT_TRUE(std::holds_alternative<Cycle>(bounds_of(p)));
  expect_proof(p, std::get<Cycle>(bounds_of(p)));
}

TEST(Lags, CycleOfNoSlackIsNone) {
  const Problem p{.tasks = {lasting(3), lasting(4)}, .lags = {after(0, 1, 0), most(0, 1, 3)}};
  EXPECT_THAT(std::get<Bounds>(bounds_of(p)).earliest, ElementsAre(0, 3));
}

// The first task can only start when its shop is open, and so can the second; each push sets the other's start anew, so that the
// walk back meets a task twice. The lags alone ask nothing impossible, and a later day has room.
TEST(Lags, CalendarsThatPushInTurnAreNoProof) {
  Problem p{
      .calendars = {{.open = {{0, 2}, {10, 12}, {23, 27}}}, {.open = {{5, 8}, {16, 19}, {24, 30}}}},
      .tasks = {lasting(1, 0), lasting(1, 1)},
      .lags = {least(0, 1, 1), most(0, 1, 2)},
      .horizon = 60};
  EXPECT_THAT(std::get<Bounds>(bounds_of(p)).earliest, ElementsAre(23, 24));
  p.calendars[0].open.pop_back();  // no later day
  const auto none = bounds_of(p);
  EXPECT_TRUE(std::holds_alternative<NoRoom>(none));
}

TEST(Lags, ElasticPartWaitsSoThatTheNextCanJoinAtOnce) {
  const Part first{.length = 1}, last{.length = 2, .calendar = 0};
  const Part between{.length = 1, .joins = Part::Joins::elastic};
  const Problem p{.calendars = {{.open = {{10, 12}}}},
                  .tasks = {{.modes = {Mode{.parts = {first, between, last}}}}},
                  .horizon = 20};
  EXPECT_THAT(std::get<Bounds>(bounds_of(p)).earliest, ElementsAre(0));
}

// Three ticks at night, two by day: too long for the second window as seen from the first, but not once it has begun.
class ShorterLater final : public Length {
 public:
  Tick at(Tick begin) const override { return begin < 5 ? 3 : 2; }
};

TEST(Lags, LengthIsThatOfTheWindowItFallsInto) {
  Part part{.by_begin = std::make_shared<ShorterLater>(), .calendar = 0};
  const Problem p{.calendars = {{.open = {{0, 2}, {10, 12}}}},
                  .tasks = {{.modes = {Mode{.parts = {part}}}}},
                  .horizon = 20};
  const auto bounds = bounds_of(p);
  ASSERT_TRUE(std::holds_alternative<Bounds>(bounds));
  EXPECT_THAT(std::get<Bounds>(bounds).earliest, ElementsAre(10));
}

TEST(Lags, MomentAtTheHorizonIsNotBeyondIt) {
  Problem p{.tasks = {lasting(3), lasting(0)}, .lags = {after(0, 1, 0)}, .horizon = 3};
  EXPECT_THAT(std::get<Bounds>(bounds_of(p)).earliest, ElementsAre(0, 3));
  p.horizon = 2;
  EXPECT_TRUE(std::holds_alternative<NoRoom>(bounds_of(p)));
}

TEST(Lags, NoRoomNamesTheTask) {
  Problem p{.calendars = {{.open = {{0, 4}}}}, .tasks = {lasting(3), lasting(5, 0)}, .horizon = 90};
  EXPECT_EQ(std::get<NoRoom>(bounds_of(p)).task, 1);
  p.tasks[1] = lasting(91);
  EXPECT_EQ(std::get<NoRoom>(bounds_of(p)).task, 1);
  p.tasks[1] = lasting(3, 0);
  p.tasks[1].earliest = 2;
  EXPECT_EQ(std::get<NoRoom>(bounds_of(p)).task, 1);
}

// Against trying everything: what is called impossible is; no schedule starts a task outside its bounds.
TEST(Lags, HoldOnRandomProblems) {
  int cycles = 0, no_rooms = 0, feasible = 0;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Problem p = random_problem(seed, {.tasks = 3, .horizon = 16});
    const auto bounds = bounds_of(p);
    const Exhausted all = try_everything(p);
    ASSERT_NE(all.status, Exhausted::Status::too_large);
    if (const auto* cycle = std::get_if<Cycle>(&bounds)) {
      ++cycles;
      expect_proof(p, *cycle);
      EXPECT_EQ(all.status, Exhausted::Status::infeasible);
    } else if (std::holds_alternative<NoRoom>(bounds)) {
      ++no_rooms;
      EXPECT_EQ(all.status, Exhausted::Status::infeasible);
    } else if (all.best) {
      ++feasible;
      const auto& [earliest, latest] = std::get<Bounds>(bounds);
      for (std::size_t i = 0; i < p.tasks.size(); ++i) {
        EXPECT_GE(all.best->tasks[i].start(), earliest[i]) << "task " << i;
        EXPECT_LE(all.best->tasks[i].start(), latest[i]) << "task " << i;
      }
    }
  }
  EXPECT_GT(cycles, 0);
  EXPECT_GT(no_rooms, 30);
  EXPECT_GT(feasible, 100);
}

}  // namespace
}  // namespace squeezeout::schedule::testing
