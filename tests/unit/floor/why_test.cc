// Why not earlier, other ways, and the chain: small cases whose answers are plain to see.

#include "common/floor/why.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "common/floor/ask.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

const Instant kMorning = at("2026-11-26T09:00:00Z");  // a Thursday

template <class T>
const T* named(const Why& why) {
  for (const Blocker& b : why.blockers)
    if (const auto* fact = std::get_if<T>(&b)) return fact;
  return nullptr;
}

Reserve wish(RecipeId recipe, BuilderId builder, Instant after = kMorning) {
  return {.recipe = recipe, .builder = builder, .after = after};
}

Why why_of(const Bench& b, const Reserve& wanted) {
  const auto why = why_not_earlier(b.floor(), wanted, b.now());
  EXPECT_TRUE(why);
  return *why;
}

TEST(Why, NothingHoldsItBack) {
  const Bench b{kMorning};
  const Why why = why_of(b, wish(kBridge, kAda));
  EXPECT_EQ(why.start, kMorning);
  EXPECT_THAT(why.blockers, IsEmpty());
  EXPECT_THAT(alternatives(b.floor(), wish(kBridge, kAda), b.now()), IsEmpty());
}

TEST(Why, NamesTheOneHolderAndNotTheOther) {
  Bench b{kMorning};
  const GlueUpId caul = b.reserve(kBridge, kAda);  // the only caul
  b.reserve(kBend, kCyd);                          // a deck: nothing to do with it
  const Why why = why_of(b, wish(kBridge, kBen));
  ASSERT_THAT(why.blockers, SizeIs(1));
  const auto* held = named<HeldGear>(why);
  ASSERT_NE(held, nullptr);
  EXPECT_EQ(held->held.holder, Holder::of(caul));
  EXPECT_EQ(held->pieces, (std::vector<Held>{{kDeep, 3}, {kCaul, 1}}));
  EXPECT_EQ(why.start, b.glue_up(caul).times.release_end);
}

TEST(Why, ABusyBuilderIsNamedWithWhat) {
  Bench b{kMorning};
  const GlueUpId first = b.reserve(kBend, kAda);
  const Why why = why_of(b, wish(kBinding, kAda));
  ASSERT_THAT(why.blockers, SizeIs(1));
  const auto* busy = named<BuilderBusy>(why);
  ASSERT_NE(busy, nullptr);
  EXPECT_EQ(busy->with, first);
  EXPECT_EQ(why.start, busy->until);
}

TEST(Why, ClosedHoursSayWhoIsNotIn) {
  Shop shop = small_shop();
  shop.builders[1].hours = shop.hours;
  shop.builders[1].hours->weekday[4] = {{13 * 60, 17 * 60}};
  const Bench b{kMorning, shop};
  const Why ben = why_of(b, wish(kBend, kBen));
  ASSERT_THAT(ben.blockers, SizeIs(1));
  EXPECT_EQ(named<ClosedHours>(ben)->builder, kBen);
  EXPECT_EQ(ben.start, at("2026-11-26T13:00:00Z"));
  const Why night = why_of(b, wish(kBend, kAda, at("2026-11-26T18:00:00Z")));
  ASSERT_THAT(night.blockers, SizeIs(1));
  EXPECT_EQ(named<ClosedHours>(night)->builder, BuilderId{});
  EXPECT_EQ(night.start, at("2026-11-27T08:00:00Z"));
}

TEST(Why, WhatTheShopDoesNotOwnIsTheOnlyFact) {
  Shop shop = small_shop();
  shop.gear[0].stock = 2;
  Bench b{kMorning, shop};
  b.reserve(kBinding, kAda);
  const Why why = why_of(b, wish(kBridge, kBen));
  EXPECT_FALSE(why.start);
  ASSERT_THAT(why.blockers, SizeIs(1));
  EXPECT_EQ(named<OwnsTooFew>(why)->wanted, 3);
  EXPECT_EQ(named<OwnsTooFew>(why)->owned, 2);
}

Shop one_bench() {
  Shop shop = small_shop();
  for (auto& bench : shop.benches) bench.one_at_a_time = bench.id == kBench1;
  for (Builder& b : shop.builders) b.bench = kBench1;
  return shop;
}

TEST(Why, WhoWorksAtABenchForOneAtATimeIsNamed) {
  Bench b{kMorning, one_bench()};
  const GlueUpId first = b.reserve(kBend, kAda);
  const Why why = why_of(b, wish(kBinding, kBen));
  ASSERT_THAT(why.blockers, SizeIs(1));
  const auto* there = named<BenchBusy>(why);
  ASSERT_NE(there, nullptr);
  EXPECT_EQ(*there, (BenchBusy{kBench1, first, b.glue_up(first).times.clamped_begin}));
  EXPECT_EQ(ends(why.blockers[0]), there->until);
  EXPECT_EQ(glue_up_of(why.blockers[0]), first);
  EXPECT_EQ(why.start, there->until);
  Reserve elsewhere = wish(kBinding, kBen);
  elsewhere.bench = kBench2;
  EXPECT_THAT(why_of(b, elsewhere).blockers, IsEmpty());
}

TEST(Why, TheLinkOfTheChainIsWhoWasAtTheBench) {
  Bench b{kMorning, one_bench()};
  const GlueUpId first = b.reserve(kBend, kAda);
  const GlueUpId second = b.reserve(kBinding, kBen);
  const auto chain = critical_chain(b.floor(), second, b.now());
  ASSERT_THAT(chain, SizeIs(2));
  ASSERT_THAT(chain[0].because, SizeIs(1));
  EXPECT_TRUE(std::holds_alternative<BenchBusy>(chain[0].because[0]));
  EXPECT_EQ(chain[1].glue_up, first);
}

TEST(Why, APotThatSetsIsNamed) {
  Shop shop = small_shop();
  for (AdhesiveSheet& sheet : shop.sheets) sheet.open = sheet.working_life = Minutes{40};
  Bench b{kMorning, shop};
  ASSERT_TRUE(b.press(MixPot{kResin, {}, {}}));
  const Pot pot = b.floor().pots.begin()->second;
  Reserve late = wish(kBridge, kAda, kMorning + Minutes{60});
  late.pot = pot.id;
  const Why why = why_of(b, late);
  EXPECT_FALSE(why.start);
  ASSERT_THAT(why.blockers, SizeIs(1));
  const auto* sets = named<PotGels>(why);
  ASSERT_NE(sets, nullptr);
  EXPECT_EQ(*sets, (PotGels{pot.id, kResin, pot.until}));
  EXPECT_FALSE(ends(why.blockers[0]));
  EXPECT_EQ(glue_up_of(why.blockers[0]), GlueUpId{});
}

// The caul comes back only when the pot has set: both are named, either alone would do no harm.
TEST(Why, AHolderAndAPotTogether) {
  Shop shop = small_shop();
  for (AdhesiveSheet& sheet : shop.sheets) sheet.open = sheet.working_life = Minutes{40};
  Bench b{kMorning, shop};
  b.reserve(kBridge, kBen);
  ASSERT_TRUE(b.press(MixPot{kResin, {}, {}}));
  Reserve wanted = wish(kBridge, kAda);
  wanted.pot = b.floor().pots.begin()->first;
  const Why why = why_of(b, wanted);
  EXPECT_FALSE(why.start);
  EXPECT_THAT(why.blockers, SizeIs(2));
  EXPECT_NE(named<PotGels>(why), nullptr);
  EXPECT_NE(named<HeldGear>(why), nullptr);
}

TEST(Alternatives, WhoIsAtTheBenchIsAskedAndBothFit) {
  Bench b{kMorning, one_bench()};
  const GlueUpId first = b.reserve(kBend, kAda, kMorning + Minutes{5});
  const Reserve wanted = wish(kBinding, kBen);
  const auto others = alternatives(b.floor(), wanted, b.now());
  ASSERT_THAT(others, SizeIs(1));
  const auto* ask = std::get_if<AskHolder>(&others[0].by);
  ASSERT_NE(ask, nullptr);
  EXPECT_EQ(ask->glue_up, first);
  ASSERT_TRUE(b.press(Move{first, ask->to}));
  Reserve exactly = wanted;
  exactly.start = others[0].start;
  EXPECT_TRUE(b.press(exactly));
}

TEST(Why, AGlueUpOnRecordIsAskedSinceItWasWanted) {
  Bench b{kMorning};
  const GlueUpId first = b.reserve(kBridge, kAda);
  const GlueUpId second = b.reserve(kBridge, kBen);
  const auto why = why_not_earlier(b.floor(), second, b.now());
  ASSERT_TRUE(why);
  EXPECT_EQ(why->start, b.glue_up(second).times.stage_begin);
  ASSERT_THAT(why->blockers, SizeIs(1));
  EXPECT_EQ(glue_up_of(why->blockers[0]), first);
  EXPECT_FALSE(why_not_earlier(b.floor(), GlueUpId{99}, b.now()));
}

// What is offered is there: the holder moves, then the wish has its place, and nobody else gives way.
TEST(Alternatives, AHolderWhoIsAskedCanMoveAndTheWishThenStarts) {
  Bench b{kMorning};
  const GlueUpId holder = b.reserve(kBridge, kAda, kMorning + Minutes{30});
  const Reserve wanted = wish(kBridge, kBen);
  const auto plain = earliest(b.floor(), wanted, b.now());
  ASSERT_TRUE(plain);
  const auto others = alternatives(b.floor(), wanted, b.now());
  ASSERT_THAT(others, SizeIs(1));
  const auto* ask = std::get_if<AskHolder>(&others[0].by);
  ASSERT_NE(ask, nullptr);
  EXPECT_EQ(ask->glue_up, holder);
  EXPECT_EQ(ask->from, b.glue_up(holder).times.stage_begin);
  EXPECT_LT(others[0].start, plain->slot.times.stage_begin);
  ASSERT_TRUE(b.press(Move{holder, ask->to}));
  Reserve exactly = wanted;
  exactly.start = others[0].start;
  ASSERT_TRUE(b.press(exactly));
  EXPECT_EQ(b.glue_up(holder).progress, Progress::reserved);
  EXPECT_EQ(b.glue_up(GlueUpId{b.floor().last_glue_up}).times.ready_at, others[0].ready);
}

TEST(Alternatives, WhatHasStartedIsNotAsked) {
  Bench b{kMorning};
  const GlueUpId holder = b.reserve(kBridge, kAda);
  ASSERT_TRUE(b.press(Start{holder}));
  EXPECT_THAT(alternatives(b.floor(), wish(kBridge, kBen), b.now()), IsEmpty());
}

TEST(Alternatives, AnotherGlueWhereTheUsualOneIsTooCold) {
  Shop shop = small_shop();
  shop.sheets[1].floor = {2};
  shop.sheets[1].dwell = {{{2}, Minutes{120}}, {{10}, Minutes{120}}};
  shop.recipes[2].joint = {};
  shop.daily = {{0, {5}, {50}}, {13 * 60, {5}, {50}}, {14 * 60, {20}, {50}}};
  const Bench b{kMorning, shop};
  const Reserve wanted = wish(kLining, kAda);
  const Why why = why_of(b, wanted);
  ASSERT_NE(named<TooCold>(why), nullptr);
  const auto others = alternatives(b.floor(), wanted, b.now());
  ASSERT_THAT(others, SizeIs(1));
  EXPECT_EQ(std::get<OtherGlue>(others[0].by).sheet, kCement);
  EXPECT_EQ(others[0].start, kMorning);
}

TEST(Alternatives, FewerPiecesWhereTheJointAsksForLess) {
  Shop shop = small_shop();
  Recipe& lining = shop.recipes[2];
  lining.joint.length = {200};
  lining.joint.width = {8};
  lining.joint.under = {25};
  lining.joint.a.material = lining.joint.b.material = "sitka-spruce";
  for (GearKind& k : shop.gear) k.force = {400};
  Bench b{kMorning, shop};
  b.reserve(kLining, kAda);  // 8 of 16 clamps
  b.reserve(kBinding, kBen);
  const Reserve wanted = wish(kLining, kCyd);
  const auto others = alternatives(b.floor(), wanted, b.now());
  const auto fewer = std::find_if(others.begin(), others.end(), [](const Alternative& a) {
    return std::holds_alternative<FewerPieces>(a.by);
  });
  ASSERT_NE(fewer, others.end());
  const auto& by = std::get<FewerPieces>(fewer->by);
  EXPECT_EQ(by.usual, 8);
  EXPECT_LE(by.need.count, 4);  // that many are free
  EXPECT_EQ(fewer->start, kMorning);
}

TEST(CriticalChain, GoesBackToWhatRuns) {
  Bench b{kMorning};
  const GlueUpId runs = b.reserve(kBridge, kAda);
  ASSERT_TRUE(b.press(Start{runs}));
  const GlueUpId second = b.reserve(kBridge, kBen);
  const GlueUpId third = b.reserve(kBridge, kCyd);
  const auto chain = critical_chain(b.floor(), b.now());
  ASSERT_THAT(chain, SizeIs(3));
  EXPECT_EQ(chain[0].glue_up, third);
  EXPECT_EQ(chain[1].glue_up, second);
  EXPECT_EQ(chain[2].glue_up, runs);
  EXPECT_THAT(chain[2].because, IsEmpty());
  ASSERT_THAT(chain[0].because, SizeIs(1));  // only who frees the caul just then
  EXPECT_EQ(glue_up_of(chain[0].because[0]), second);
}

TEST(CriticalChain, AChosenStartIsItsEnd) {
  Bench b{kMorning};
  b.reserve(kBridge, kAda);
  const GlueUpId later = b.reserve(kBridge, kBen, at("2026-11-27T10:00:00Z"));
  const auto chain = critical_chain(b.floor(), later, b.now());
  ASSERT_THAT(chain, SizeIs(1));
  EXPECT_THAT(chain[0].because, IsEmpty());
}

TEST(CriticalChain, BeforeClosingTimeCountsWhereTheNightIsBetween) {
  Bench b{at("2026-11-26T15:45:00Z")};
  const GlueUpId evening = b.reserve(kBridge, kAda);  // to 16:59
  const GlueUpId morning = b.reserve(kBridge, kBen);
  ASSERT_EQ(b.glue_up(morning).times.stage_begin, at("2026-11-27T08:00:00Z"));
  const auto chain = critical_chain(b.floor(), morning, b.now());
  ASSERT_THAT(chain, SizeIs(2));
  EXPECT_EQ(chain[1].glue_up, evening);
}

TEST(CriticalChain, AnEmptyFloorHasNone) {
  const Bench b{kMorning};
  EXPECT_THAT(critical_chain(b.floor(), b.now()), IsEmpty());
}

}  // namespace
}  // namespace squeezeout::testing
