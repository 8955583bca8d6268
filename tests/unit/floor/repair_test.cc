// What a repair proposes: the fewest, the least, and never what has started.
#include <gtest/gtest.h>

#include <algorithm>

#include "common/floor/as_problem.h"
#include "common/floor/replan.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using namespace std::chrono_literals;

const Instant kNine = at("2026-11-26T09:00:00Z");  // a Thursday

schedule::Budget budget() { return {.seed = 1, .work = 100'000}; }

AdoptPlan adopt(const Proposal& p) {
  AdoptPlan plan;
  for (const Shift& s : p.shifts) plan.moves.push_back({s.glue_up, s.to.stage_begin, s.sheet});
  return plan;
}

TEST(Repair, OfASoundFloorIsNothing) {
  Bench b{kNine};
  b.reserve(kBridge, kAda, kNine + 1h);
  const Proposal p = repair(b.floor(), b.now(), budget());
  EXPECT_TRUE(p.shifts.empty() && p.no_place.empty());
  EXPECT_TRUE(p.optimal);
  EXPECT_EQ(p.before, p.after);
}

// Clamps off one second after the planned end: the next in line waits for a minute, and nobody else is touched.
TEST(Repair, ASecondTooLateIsANudgeOfAMinute) {
  Bench b{kNine};
  const GlueUpId runs = b.reserve(kBridge, kAda);
  const Instant end = b.glue_up(runs).times.release_end;
  const GlueUpId next = b.reserve(kBridge, kBen, end);
  const GlueUpId after_next = b.reserve(kBridge, kAda, b.glue_up(next).times.release_end + 5min);
  const Instant stood = b.glue_up(after_next).times.stage_begin;
  b.set(b.glue_up(runs).times.open_begin);
  ASSERT_TRUE(b.press(Start{runs}));
  b.set(b.glue_up(runs).times.clamped_begin);
  ASSERT_TRUE(b.press(ClampsOn{runs, b.now()}));
  b.set(end + 1s);
  ASSERT_TRUE(b.press(ClampsOff{runs, b.now()}));
  ASSERT_EQ(b.glue_up(next).progress, Progress::displaced);

  const Proposal p = repair(b.floor(), b.now(), budget());
  ASSERT_EQ(p.shifts.size(), 1u);
  EXPECT_EQ(p.shifts[0].glue_up, next);
  EXPECT_FALSE(p.shifts[0].from);
  EXPECT_EQ(p.shifts[0].to.stage_begin, end + 1min);
  EXPECT_TRUE(p.optimal);
  EXPECT_LT(p.after, p.before);
  ASSERT_TRUE(b.press(adopt(p)));
  EXPECT_EQ(b.glue_up(after_next).times.stage_begin, stood);
}

TEST(Repair, GoesBackWhereItStoodWhenThatIsFree) {
  Bench b{kNine};
  const GlueUpId one = b.reserve(kBend, kAda, kNine + 2h);
  const GlueUpId two = b.reserve(kBend, kBen, kNine + 2h);
  ASSERT_TRUE(b.press(GearBroken{kDeckA, 1, ""}));
  ASSERT_EQ(b.floor().displaced.size(), 1u);
  ASSERT_TRUE(b.press(GearMended{kDeckA, 1}));
  const Proposal p = repair(b.floor(), b.now(), budget());
  ASSERT_EQ(p.shifts.size(), 1u);
  EXPECT_EQ(p.shifts[0].to.stage_begin, kNine + 2h);
  EXPECT_EQ(p.after.disturbed, 0);
  EXPECT_TRUE(p.optimal);
  ASSERT_TRUE(b.press(adopt(p)));
  EXPECT_EQ(b.glue_up(one).times.stage_begin, b.glue_up(two).times.stage_begin);
}

// One deck is left for two at eleven o'clock, and another has it at one: whichever of the two starts later, one moves.
TEST(Repair, MovesTheFewest) {
  Bench b{kNine};
  const GlueUpId one = b.reserve(kBend, kAda, kNine + 2h);
  const GlueUpId two = b.reserve(kBend, kBen, kNine + 2h);
  const GlueUpId later = b.reserve(kBend, kCyd, kNine + 4h);
  ASSERT_TRUE(b.press(GearBroken{kDeckA, 1, "warped"}));
  const Proposal p = repair(b.floor(), b.now(), budget());
  EXPECT_TRUE(p.optimal);
  ASSERT_TRUE(b.press(adopt(p)));
  int moved = 0;
  for (const auto& [id, start] :
       {std::pair{one, kNine + 2h}, {two, kNine + 2h}, {later, kNine + 4h}}) {
    EXPECT_EQ(b.glue_up(id).progress, Progress::reserved);
    moved += b.glue_up(id).times.stage_begin != start;
  }
  EXPECT_EQ(moved, 1);
  EXPECT_EQ(over_stock(b.floor()), "");
}

TEST(Repair, LaterStepsComeBackWithTheEarlier) {
  Bench b{kNine};
  const GlueUpId bridge = b.reserve(kBridge, kAda, kNine + 1h, kBuild14, 0);
  const GlueUpId binding = b.reserve(kBinding, kAda, std::nullopt, kBuild14, 1);
  b.set(kNine + 1h + 21min);
  b.tick();  // not started
  ASSERT_EQ(b.glue_up(bridge).progress, Progress::displaced);
  ASSERT_EQ(b.glue_up(binding).progress, Progress::displaced);
  const Proposal p = repair(b.floor(), b.now(), budget());
  ASSERT_EQ(p.shifts.size(), 2u);
  ASSERT_TRUE(b.press(adopt(p)));
  EXPECT_GE(b.glue_up(binding).times.stage_begin, b.glue_up(bridge).times.ready_at);
}

TEST(Repair, WhatHasNoPlaceIsNamed) {
  Bench b{kNine};
  const GlueUpId id = b.reserve(kBridge, kAda, kNine + 1h);
  ASSERT_TRUE(b.press(GearBroken{kCaul, 1, "split"}));
  ASSERT_EQ(b.glue_up(id).progress, Progress::displaced);
  const Proposal p = repair(b.floor(), b.now(), budget());
  EXPECT_TRUE(p.shifts.empty());
  EXPECT_EQ(p.no_place, std::vector<GlueUpId>{id});
}

TEST(Repair, CutShortItStillProposesWhatTheFloorTakes) {
  Bench b{kNine};
  const GlueUpId id = b.reserve(kBend, kAda, kNine + 1h);
  b.reserve(kBend, kBen, kNine + 1h);
  ASSERT_TRUE(b.press(GearBroken{kDeckA, 1, ""}));
  (void)id;
  schedule::Budget cut = budget();
  cut.stop = [] { return true; };
  const Proposal p = repair(b.floor(), b.now(), cut);
  EXPECT_TRUE(p.cancelled);
  EXPECT_FALSE(p.optimal);
  ASSERT_EQ(p.shifts.size(), 1u);
  EXPECT_TRUE(b.press(adopt(p)));
}

// More than a dozen lose their places at once: whatever the budget, each of them gets another or is named.
std::vector<GlueUpId> displaced_of(const Floor& f) {
  return {f.displaced.begin(), f.displaced.end()};
}
std::vector<GlueUpId> spoken_of(const Floor& f, const Proposal& p) {
  std::vector<GlueUpId> out = p.no_place;
  for (const Shift& s : p.shifts)
    if (f.displaced.contains(s.glue_up)) out.push_back(s.glue_up);
  std::sort(out.begin(), out.end());
  return out;
}
Bench many_displaced() {
  Bench b{kNine};
  for (int i = 0; i < 40; ++i) b.reserve(kBend, BuilderId{1 + static_cast<unsigned>(i % 3)});
  for (int i = 0; i < 6; ++i) b.reserve(kBridge, BuilderId{1 + static_cast<unsigned>(i % 3)});
  EXPECT_TRUE(b.press(GearBroken{kDeckA, 1, "warped"}));
  EXPECT_GE(b.floor().displaced.size(), 15u);
  return b;
}

TEST(Repair, ManyThatLostTheirPlacesAreAllSpokenOf) {
  const Bench b = many_displaced();
  for (const std::int64_t work : {1, 1'000, 40'000}) {
    const Proposal p = repair(b.floor(), b.now(), {.seed = 1, .work = work});
    EXPECT_EQ(spoken_of(b.floor(), p), displaced_of(b.floor())) << "each once";
    EXPECT_TRUE(p.no_place.empty()) << "there is room behind all of them";
    EXPECT_LT(p.after, p.before);
    Bench taken = b;
    ASSERT_TRUE(taken.press(adopt(p)));
    EXPECT_TRUE(taken.floor().displaced.empty());
    EXPECT_EQ(over_stock(taken.floor()), "");
  }
}

// More than one plan may move: the others are named, and come with the next one.
TEST(Repair, MoreThanOnePlanMovesArePutOff) {
  Shop shop = small_shop();
  for (GearKind& kind : shop.gear) kind.stock = 3'000;
  for (unsigned i = 0; i < 27; ++i)
    shop.builders.push_back({BuilderId{4 + i}, "b" + std::to_string(i), "B", kBench1, {}});
  Bench b{kNine, shop};
  for (unsigned i = 0; i < kMaxMoves + 2; ++i) b.reserve(kBend, BuilderId{1 + i % 30});
  const GlueUpId last = b.reserve(kBend, kAda, kNine + 24h * 14);
  ASSERT_TRUE(b.press(GearBroken{kDeckA, 3'000, "all"}));
  ASSERT_TRUE(b.press(GearBroken{kDeckB, 3'000, "all"}));
  ASSERT_EQ(b.floor().displaced.size(), kMaxMoves + 3);
  ASSERT_TRUE(b.press(GearMended{kDeckA, 3'000}));
  const Proposal p = repair(b.floor(), b.now(), {.seed = 1, .work = 1});
  EXPECT_EQ(p.shifts.size(), kMaxMoves);
  EXPECT_TRUE(p.no_place.empty());
  ASSERT_EQ(p.put_off.size(), 3u);
  EXPECT_EQ(p.put_off.back(), last);
  EXPECT_FALSE(p.optimal);
  ASSERT_TRUE(b.press(adopt(p)));
  const Proposal rest = repair(b.floor(), b.now(), {.seed = 1, .work = 1});
  EXPECT_EQ(rest.shifts.size(), 3u);
  EXPECT_TRUE(rest.put_off.empty());
}

// Ada spreads a bend just when the bridge's clamps could come off: so they hold the caul into Ben's hour. Either the bend or Ben
// moves, by five minutes: no other way disturbs as little.
TEST(Repair, MovesWhoeverPutsAReleaseOff) {
  Bench b{kNine};
  const GlueUpId runs = b.reserve(kBridge, kCyd);
  const GlueUpId bridge = b.reserve(kBridge, kAda, kNine + 2h);
  const Instant ben_from = b.glue_up(bridge).times.release_end;
  const GlueUpId ben = b.reserve(kBridge, kBen, ben_from);
  b.wait(5min);
  ASSERT_TRUE(b.press(Start{runs}));
  b.wait(4min);
  ASSERT_TRUE(b.press(ClampsOn{runs, b.now()}));
  ASSERT_TRUE(b.press(Late{runs, 60min}));
  ASSERT_EQ(b.glue_up(bridge).progress, Progress::displaced);
  b.wait(61min);
  ASSERT_TRUE(b.press(ClampsOff{runs, b.now()}));
  const GlueUpId bend = b.reserve(kBend, kAda, kNine + 2h + 65min);  // the release: 69 to 74

  const Proposal p = repair(b.floor(), b.now(), budget());
  EXPECT_TRUE(p.optimal);
  EXPECT_EQ(p.after.disturbed, schedule::kMoved + 5);
  ASSERT_TRUE(b.press(adopt(p)));
  EXPECT_EQ(b.glue_up(bridge).times.stage_begin, kNine + 2h);
  const auto moved = [&](GlueUpId id, Instant from) {
    return std::chrono::abs(b.glue_up(id).times.stage_begin - from);
  };
  EXPECT_EQ(moved(bend, kNine + 2h + 65min) + moved(ben, ben_from), 5min);
  EXPECT_GE(b.glue_up(ben).times.stage_begin, b.glue_up(bridge).times.release_end);
}

TEST(Repair, MoreWorkIsNoWorse) {
  const Bench b = many_displaced();
  const auto moved = [&](std::int64_t work) {
    return repair(b.floor(), b.now(), {.seed = 1, .work = work}).after.disturbed;
  };
  EXPECT_LE(moved(40'000), moved(1));
}

// Asked to stop at once, a big repair still is what the floor takes, and asks no more often than it must.
TEST(Repair, ManyCutShortAreStillAllSpokenOf) {
  const Bench b = many_displaced();
  int asked = 0;
  schedule::Budget cut = budget();
  cut.stop = [&] { return ++asked > 0; };
  const Proposal p = repair(b.floor(), b.now(), cut);
  EXPECT_TRUE(p.cancelled);
  EXPECT_LT(asked, 8) << "nothing is begun behind it";
  EXPECT_EQ(spoken_of(b.floor(), p), displaced_of(b.floor()));
  Bench taken = b;
  EXPECT_TRUE(taken.press(adopt(p)));
}

// At a bench for one at a time nobody is put beside another.
Shop one_at_a_time() {
  Shop shop = small_shop();
  for (auto& bench : shop.benches) bench.one_at_a_time = bench.id == kBench1;
  for (Builder& b : shop.builders) b.bench = kBench1;
  return shop;
}
bool share_the_bench(const Floor& f) {
  for (const auto& [a, x] : f.glue_ups)
    for (const auto& [b, y] : f.glue_ups) {
      if (x.builder == y.builder || x.bench != kBench1 || y.bench != kBench1) continue;
      if (x.progress != Progress::reserved || y.progress != Progress::reserved) continue;
      for (const Span& s : attended_of(x))
        for (const Span& t : attended_of(y))
          if (s.overlaps(t)) return true;
    }
  return false;
}

TEST(Repair, KeepsToABenchForOneAtATime) {
  Bench b{kNine, one_at_a_time()};
  for (int i = 0; i < 9; ++i) b.reserve(kBend, BuilderId{1 + static_cast<unsigned>(i % 3)});
  b.reserve(kBridge, kBen);
  ASSERT_FALSE(share_the_bench(b.floor()));
  ASSERT_TRUE(b.press(GearBroken{kDeckA, 1, ""}));
  ASSERT_GE(b.floor().displaced.size(), 2u);
  for (const auto& propose : {repair, replan}) {
    Bench mended = b;
    const Proposal p = propose(b.floor(), b.now(), {.seed = 1, .work = 2'000});
    EXPECT_TRUE(p.no_place.empty());
    ASSERT_TRUE(mended.press(adopt(p)));
    EXPECT_TRUE(mended.floor().displaced.empty());
    EXPECT_FALSE(share_the_bench(mended.floor()));
  }
}

// Another builder took the bench where it stood: one of the two has to move.
TEST(Repair, WhoIsAtTheBenchMovesOrItDoes) {
  Bench b{kNine, one_at_a_time()};
  const GlueUpId first = b.reserve(kBend, kAda, kNine + 2h);
  b.set(b.glue_up(first).times.open_begin + 16min);
  b.tick();  // not started
  ASSERT_EQ(b.glue_up(first).progress, Progress::displaced);
  b.reserve(kBridge, kBen, b.now());
  const Proposal p = repair(b.floor(), b.now(), budget());
  ASSERT_EQ(p.shifts.size(), 1u);
  EXPECT_TRUE(p.optimal);
  ASSERT_TRUE(b.press(adopt(p)));
  EXPECT_FALSE(share_the_bench(b.floor()));
}

// The mix is there and sets: who is to spread from it cannot make room for others.
TEST(Repair, NobodyIsMovedBehindTheEndOfHisPot) {
  Shop shop = small_shop();
  for (AdhesiveSheet& sheet : shop.sheets) sheet.open = sheet.working_life = 40min;
  Bench b{kNine, shop};
  ASSERT_TRUE(b.press(MixPot{kResin, {}, {}}));
  const Pot pot = b.floor().pots.begin()->second;
  ASSERT_TRUE(b.press(Reserve{.recipe = kBridge, .builder = kAda, .after = kNine, .pot = pot.id}));
  const GlueUpId from_pot{b.floor().last_glue_up};
  const Floor f = b.floor();
  const AsProblem as = as_problem(f, {from_pot}, b.now(), Glues::as_they_are);
  ASSERT_EQ(as.problem.tasks.size(), 1u);
  const auto& starts = as.problem.tasks[0].modes[0].starts;
  ASSERT_FALSE(starts.empty());
  const GlueUp& g = b.glue_up(from_pot);
  EXPECT_EQ(starts.back().end - 1, as.tick(pot.until - g.demand.stage - g.demand.assembly));
  const auto move = b.press(Move{from_pot, pot.until});
  ASSERT_NE(refused<DoesNotFit>(move), nullptr);
  EXPECT_NE(refused<PlanStale>(b.press(AdoptPlan{{{from_pot, pot.until, {}}}})), nullptr);
}

TEST(Repair, TheSameSeedProposesTheSame) {
  Bench b{kNine};
  for (const BuilderId who : {kAda, kBen}) b.reserve(kBend, who, kNine + 2h);
  b.reserve(kBend, kCyd, kNine + 4h);
  ASSERT_TRUE(b.press(GearBroken{kDeckB, 1, ""}));
  EXPECT_EQ(repair(b.floor(), b.now(), budget()).shifts,
            repair(b.floor(), b.now(), budget()).shifts);
}

}  // namespace
}  // namespace squeezeout::testing
