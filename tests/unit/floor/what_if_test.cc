// What-if: small floors whose replay can be worked out by hand, and two properties.

#include "common/floor/what_if.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using namespace std::chrono_literals;

const Instant kThursday = at("2026-11-26T10:00:00Z");  // the shop is open 8 to 17
const Span kAll{kThursday - 24h, kThursday + kLookAhead};

WhatIf only(const Floor& f, const Hypothesis& h) {
  const auto answers = what_if(f, kAll, {h});
  CHECK(answers.size() == 1);
  return answers.front();
}

// The caul is free again after 5 + 4 min attended, an hour of dwell and 5 min of release.
TEST(WhatIf, ASecondPieceTakesTheWaitAway) {
  Bench b{kThursday};
  b.reserve(kBridge, kAda);
  b.reserve(kBridge, kBen);
  const WhatIf caul = only(b.floor(), MoreGear{kCaul, 1});
  EXPECT_EQ(caul.glue_ups, 2);
  EXPECT_EQ(caul.waited, 74min);
  EXPECT_EQ(caul.would_wait, 0s);
  EXPECT_EQ(caul.saved(), 74min);
  EXPECT_EQ(caul.sooner, 1);
  EXPECT_EQ(caul.later, 0);
  const WhatIf deep = only(b.floor(), MoreGear{kDeep, 1});
  EXPECT_EQ(deep.waited, 74min);
  EXPECT_EQ(deep.saved(), 0s);
  EXPECT_EQ(deep.sooner, 0);
}

TEST(WhatIf, TheMostSavedIsFirstAndTiesKeepTheOrderOfTheQuestion) {
  Bench b{kThursday};
  b.reserve(kBridge, kAda);
  b.reserve(kBridge, kBen);
  const std::vector<Hypothesis> asked{MoreGear{kDeckB, 1}, MoreGear{kDeep, 1}, MoreGear{kCaul, 1},
                                      MoreGear{kDeckA, 1}};
  std::vector<Hypothesis> ranked;
  for (const WhatIf& w : what_if(b.floor(), kAll, asked)) ranked.push_back(w.change);
  EXPECT_EQ(ranked, (std::vector<Hypothesis>{asked[2], asked[0], asked[1], asked[3]}));
}

// At 16:00 the dwell ends at 17:09, after closing: the caul is free on Friday at 8:05. Open till 18:00 it is free at 17:14.
TEST(WhatIf, AnHourLaterTheClampsComeOffTheSameEvening) {
  Bench b{at("2026-11-26T16:00:00Z")};
  b.reserve(kBridge, kAda);
  ASSERT_EQ(b.glue_up(b.reserve(kBridge, kBen)).times.stage_begin, at("2026-11-27T08:05:00Z"));
  const WhatIf later = only(b.floor(), LongerHours{.later = 60min});
  EXPECT_EQ(later.waited, 16h + 5min);
  EXPECT_EQ(later.would_wait, 74min);
  EXPECT_EQ(later.sooner, 1);
  const WhatIf a_little = only(b.floor(), LongerHours{.later = 13min});
  EXPECT_EQ(a_little.saved(), 0s) << "17:13: one minute short";
  const WhatIf earlier = only(b.floor(), LongerHours{.earlier = 60min});
  EXPECT_EQ(earlier.saved(), 60min);
  const WhatIf shorter = only(b.floor(), LongerHours{.later = -55min});
  EXPECT_EQ(shorter.later, 2) << "16:05 is too early to close for a start at 16:00";
}

// On Friday at 16:00 the caul is gone until Monday 8:05, and with Saturdays until Saturday 8:05.
TEST(WhatIf, OpenOnSaturday) {
  Bench b{at("2026-11-27T16:00:00Z")};
  b.reserve(kBridge, kAda);
  ASSERT_EQ(b.glue_up(b.reserve(kBridge, kBen)).times.stage_begin, at("2026-11-30T08:05:00Z"));
  EXPECT_EQ(only(b.floor(), OpenOn{6}).saved(), 48h);
  EXPECT_EQ(only(b.floor(), OpenOn{0}).saved(), 24h);
  EXPECT_EQ(only(b.floor(), OpenOn{1}).saved(), 0h) << "Monday is open already";
}

TEST(WhatIf, MoreThanUnlimitedGearIsANegativeWait) {
  Bench b{at("2026-11-28T12:00:00Z")};  // a Saturday: closed until Monday 8:00
  b.reserve(kBridge, kAda);
  const WhatIf saturday = only(b.floor(), OpenOn{6});
  EXPECT_EQ(saturday.waited, 0s);
  EXPECT_EQ(saturday.would_wait, -44h);
  EXPECT_EQ(saturday.saved(), 44h);
}

TEST(WhatIf, ABuilderAwayNeitherSpreadsNorTakesOff) {
  Bench b{kThursday};
  b.reserve(kBridge, kAda);
  b.reserve(kBridge, kBen);  // 11:14, when the caul is free
  // Three days and a bit: Ada's starts on Monday at 9:00. Ben's can start at once, as the caul is there.
  const WhatIf gone =
      only(b.floor(), BuilderAway{kAda, {kThursday - 1h, at("2026-11-30T09:00:00Z")}});
  EXPECT_EQ(gone.would_wait, 4 * 24h - 1h);
  EXPECT_EQ(gone.later, 1);
  EXPECT_EQ(gone.sooner, 1);
  // Hers stays clamped until she is back at 14:00, and Ben gets the caul at 14:05.
  const WhatIf lunch =
      only(b.floor(), BuilderAway{kAda, {kThursday + 1h, at("2026-11-26T14:00:00Z")}});
  EXPECT_EQ(lunch.would_wait, 4h + 5min);
  EXPECT_EQ(lunch.saved(), -(2h + 51min));
  EXPECT_EQ(lunch.later, 1);
  EXPECT_EQ(only(b.floor(), BuilderAway{kCyd, kAll}).saved(), 0s);
}

TEST(WhatIf, WhatHasNoPlaceAnyMoreIsCountedAndRankedLast) {
  Bench b{kThursday};
  b.reserve(kBridge, kAda, {}, kBuild14, 0);
  b.reserve(kBinding, kAda, {}, kBuild14, 1);
  b.reserve(kBend, kBen);
  ASSERT_TRUE(b.press(GearBroken{kDeckB, 1, "cracked"}));
  const auto answers =
      what_if(b.floor(), kAll, {MoreGear{kCaul, -1}, MoreGear{kDeckB, -1}, MoreGear{kShort, -99}});
  ASSERT_EQ(answers.size(), 3U);
  EXPECT_EQ(answers[0].change, Hypothesis{(MoreGear{kDeckB, -1})});
  EXPECT_EQ(answers[0].no_place, 0) << "it is broken anyway";
  EXPECT_EQ(answers[1].no_place, 0) << "binding takes deep clamps";
  EXPECT_EQ(answers[2].no_place, 2) << "the bridge, and the step that waits for it";
  EXPECT_EQ(answers[2].glue_ups, 3);
  EXPECT_EQ(answers[2].waited, 0s);
}

TEST(WhatIf, DemandIsWhatStandsInTheSpanAndIsNotCancelled) {
  Bench b{kThursday};
  b.reserve(kBridge, kAda);
  const GlueUpId other = b.reserve(kBinding, kBen);
  ASSERT_EQ(only(b.floor(), MoreGear{kDeep, 1}).glue_ups, 2);
  EXPECT_EQ(what_if(b.floor(), {kThursday + 75min, kAll.end}, {OpenOn{}}).at(0).glue_ups, 1);
  EXPECT_EQ(what_if(b.floor(), {kAll.begin, kThursday}, {OpenOn{}}).at(0).glue_ups, 0);
  ASSERT_TRUE(b.press(Cancel{other}));
  EXPECT_EQ(only(b.floor(), MoreGear{kDeep, 1}).glue_ups, 1);
  EXPECT_EQ(demand_span(kThursday, Instant::min()).begin, kThursday - kLookBack);
  EXPECT_EQ(demand_span(kThursday, kThursday - 24h).begin, kThursday - 24h);
}

TEST(WhatIf, StopsBetweenReplays) {
  Bench b{kThursday};
  b.reserve(kBridge, kAda);
  const auto usual = usual_hypotheses(b.floor());
  ASSERT_EQ(usual.size(), 5U + 2 + 2);
  EXPECT_EQ(usual[7], Hypothesis{OpenOn{6}});
  EXPECT_EQ(usual[8], Hypothesis{OpenOn{0}});
  EXPECT_EQ(what_if(b.floor(), kAll, usual).size(), usual.size());
  int asked = 0;
  EXPECT_EQ(what_if(b.floor(), kAll, usual, [&] { return ++asked == 5; }).size(), 2U)
      << "two replays for the yardstick, two changes";
  EXPECT_TRUE(what_if(b.floor(), kAll, usual, [] { return true; }).empty());
  EXPECT_TRUE(what_if(Floor{}, kAll, usual).empty());
}

// ---- a shop with one kind of gear, open round the clock ----

constexpr GearKindId kClamp{1};

Recipe holding(std::uint32_t id, Minutes attended, Minutes dwell, int clamps) {
  Recipe r{};
  r.id = {id};
  r.key = r.name = "r" + std::to_string(id);
  r.assembly = attended;
  r.dwell = dwell;
  r.wait = 0s;
  if (clamps > 0) r.needs = {{.gear_class = GearClass::clamp, .count = clamps}};
  return r;
}

Shop one_kind(std::vector<Recipe> recipes, std::uint32_t builders, int stock) {
  Shop s = small_shop("UTC");
  for (auto& day : s.hours.weekday) day = {{0, 24 * 60}};
  s.builders.clear();
  for (std::uint32_t i = 1; i <= builders; ++i)
    s.builders.push_back({{i}, "b" + std::to_string(i), "B", kBench1, {}});
  s.gear = {{.id = kClamp, .key = "clamp", .name = "Clamp", .stock = stock}};
  s.builds = {{kBuild14, "14", "No. 14", {1}, {}, 0, {}}};
  for (const Recipe& r : recipes) s.builds[0].steps.push_back(r.id);
  s.recipes = std::move(recipes);
  return s;
}

Reserve wanted(std::uint32_t recipe, std::uint32_t builder, Instant after) {
  Reserve r;
  r.recipe = {recipe};
  r.builder = {builder};
  r.after = after;
  return r;
}

// Graham's anomaly. One clamp, held till 11:01: Ada's own work from 10:00 stands before what needs it, and the step behind it
// can start at 11:00. With a second clamp what needs it comes first, and her own work and the step behind it an hour later.
TEST(WhatIf, MoreGearCanMakeTheSumLarger) {
  Bench b{kThursday, one_kind({holding(1, 60min, 0min, 0), holding(2, 60min, 0min, 0),
                               holding(3, 1min, 60min, 1), holding(4, 60min, 0min, 1)},
                              3, 1)};
  ASSERT_TRUE(b.press(wanted(3, 3, kThursday)));
  ASSERT_TRUE(b.press(wanted(4, 1, kThursday)));
  b.reserve({1}, {1}, {}, kBuild14, 0);
  b.reserve({2}, {2}, {}, kBuild14, 1);
  const WhatIf more = only(b.floor(), MoreGear{kClamp, 1});
  EXPECT_EQ(more.waited, 61min - 60min - 60min);
  EXPECT_EQ(more.would_wait, 0s);
  EXPECT_EQ(more.saved(), -59min);
  EXPECT_EQ(more.sooner, 1);
  EXPECT_EQ(more.later, 2);
}

// First come, first served for one kind, one piece each, nobody in common: more of it makes nobody later.
RC_GTEST_PROP(WhatIfProperty, MorePiecesOfTheOnlyKindMakeNobodyLater, ()) {
  const auto jobs = *rc::gen::container<std::vector<std::pair<int, int>>>(
      *rc::gen::inRange<std::size_t>(2, 14),
      rc::gen::pair(rc::gen::inRange(0, 90),
                    rc::gen::inRange(1, 6)));  // after the one before; dwell
  const int stock = *rc::gen::inRange(1, 4);
  std::vector<Recipe> recipes;
  for (std::uint32_t i = 1; i <= 5; ++i)
    recipes.push_back(holding(i, 3min, Minutes{i * i * 15}, 1));
  Bench b{kThursday, one_kind(recipes, static_cast<std::uint32_t>(jobs.size()), stock)};
  Instant after = kThursday;
  std::uint32_t builder = 0;
  for (const auto& [gap, recipe] : jobs) {
    after += Minutes{gap};
    RC_ASSERT(b.press(wanted(static_cast<std::uint32_t>(recipe), ++builder, after)).has_value());
  }
  const int plenty = static_cast<int>(jobs.size());
  std::map<int, Seconds> waits;  // pieces more -> sum
  for (const WhatIf& w : what_if(b.floor(), kAll,
                                 {MoreGear{kClamp, 1}, MoreGear{kClamp, 2}, MoreGear{kClamp, 3},
                                  MoreGear{kClamp, 3 + plenty}})) {
    RC_ASSERT(w.later == 0);
    waits[0] = w.waited;
    waits[std::get<MoreGear>(w.change).more] = w.would_wait;
  }
  RC_ASSERT(waits.size() == 5U);
  for (auto it = std::next(waits.begin()); it != waits.end(); ++it)
    RC_ASSERT(it->second <= std::prev(it)->second);
  RC_ASSERT(waits.at(3 + plenty) == 0s);
}

// What was reserved at its earliest is replayed where it stands: build steps, outages, all kinds, and hours.
RC_GTEST_PROP(WhatIfProperty, TheReplayWithoutAChangeIsTheRecord, ()) {
  Bench b{kThursday};
  const int broken = *rc::gen::inRange(0, 3);
  if (broken > 0) RC_ASSERT(b.press(GearBroken{kDeep, broken, "rust"}).has_value());
  const auto asked =
      *rc::gen::container<std::vector<std::tuple<std::uint32_t, std::uint32_t, int>>>(
          *rc::gen::inRange<std::size_t>(1, 25),
          rc::gen::tuple(rc::gen::inRange(1U, 6U), rc::gen::inRange(1U, 4U),
                         rc::gen::inRange(0, 3000)));
  for (const auto& [recipe, builder, minutes] : asked) {
    Reserve r = wanted(recipe, builder, kThursday + Minutes{minutes});
    const int next = static_cast<int>(b.floor().chain[kBuild14].size());
    if (recipe == 5) {  // the build's next step
      if (next == 3) continue;
      r.build = kBuild14;
      r.step = next;
      r.recipe = b.floor().shop->builds[0].steps[static_cast<std::size_t>(next)];
    }
    RC_ASSERT(b.press(r).has_value());
  }
  std::map<GlueUpId, Instant> record;
  for (const auto& [id, g] : b.floor().glue_ups) record[id] = g.times.stage_begin;
  RC_ASSERT(replayed(b.floor(), kAll) == record);
}

}  // namespace
}  // namespace squeezeout::testing
