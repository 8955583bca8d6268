#include "common/report/solvent.h"

#include <gtest/gtest.h>

#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using namespace std::chrono_literals;

const Date kThursday = std::chrono::year{2026} / 11 / 26;
const Instant kTen = at("2026-11-26T10:00:00Z");

// Cement gives 4 g of butanone a use into 60 m3 that are aired with 6 m3 a minute.
Shop with_solvent(std::string solvent = "butanone", Room room = {60, 6, LimitSet::niosh}) {
  Shop shop = small_shop();
  shop.sheets[1].solvent = {std::move(solvent), 4};
  shop.room = room;
  return shop;
}

std::vector<GlueUpId> ids(const SolventSheet& s) {
  std::vector<GlueUpId> out;
  for (const SolventLine& line : s.lines) out.push_back(line.glue_up);
  return out;
}

TEST(SolventSheet, CountsWhatWasSpreadAndWhatIsToBe) {
  Bench b{kTen, with_solvent()};
  const GlueUpId later = b.reserve(kBinding, kBen, kTen + 3h);
  const GlueUpId first = b.reserve(kBinding, kAda);
  b.set(kTen + 5min);
  ASSERT_TRUE(b.press(Start{first}));
  b.reserve(kBridge, kCyd);                               // no solvent
  b.reserve(kBinding, kCyd, at("2026-11-27T10:00:00Z"));  // another day
  const GlueUpId gone = b.reserve(kBinding, kCyd, kTen + 5h);
  ASSERT_TRUE(b.press(Cancel{gone}));
  const SolventSheet s = solvent_sheet(b.floor(), kThursday);
  EXPECT_EQ(ids(s), (std::vector<GlueUpId>{first, later}));
  EXPECT_EQ(s.lines[0].spread, kTen + 5min);
  EXPECT_EQ(s.lines[1].spread, kTen + 3h + 5min);  // after the stage
  EXPECT_EQ(s.span, (Span{at("2026-11-26T00:00:00Z"), at("2026-11-27T00:00:00Z")}));
}

TEST(SolventSheet, WhatWasSpreadAndSpoiledIsInTheAirAllTheSame) {
  Bench b{kTen, with_solvent()};
  const GlueUpId id = b.reserve(kBinding, kAda);
  ASSERT_TRUE(b.press(Start{id}));
  b.wait(1min);
  ASSERT_TRUE(b.press(Spoiled{id, b.now(), "slipped"}));
  EXPECT_EQ(ids(solvent_sheet(b.floor(), kThursday)), std::vector<GlueUpId>{id});
}

TEST(SolventSheet, SumsAgreeWithAHandSum) {
  Bench b{kTen, with_solvent()};
  b.reserve(kBinding, kAda);
  b.reserve(kBinding, kBen, kTen + 3h);
  const SolventSheet s = solvent_sheet(b.floor(), kThursday);
  ASSERT_TRUE(s.sums);
  // One use: 4000 mg / 60 m3 = 66.7 mg/m3; butanone, 72.11 g/mol: 22.6 ppm of 200.
  EXPECT_NEAR(s.sums->peak.value, 4000.0 / 60 * 24.45 / 72.11, 0.01);
  EXPECT_EQ(s.sums->airing, 0min);
  // Both: 8000 mg over 6 m3 a minute for 480 minutes.
  ASSERT_EQ(s.sums->averages.size(), 1U);
  const double average = 8000.0 / (6 * 480) * 24.45 / 72.11;
  EXPECT_NEAR(s.sums->averages[0].average.value, average, 0.001);
  EXPECT_NEAR(s.sums->mixture, average / 200, 1e-5);
}

TEST(SolventSheet, ADayWithoutSolventIsEmpty) {
  Bench b{kTen, with_solvent()};
  b.reserve(kBridge, kAda);
  const SolventSheet s = solvent_sheet(b.floor(), kThursday);
  EXPECT_TRUE(s.lines.empty());
  ASSERT_TRUE(s.sums);
  EXPECT_EQ(s.sums->greatest, nullptr);
  EXPECT_EQ(s.sums->mixture, 0);
}

TEST(SolventSheet, WithoutARoomTheUsesAreListedAndNoSumIsMade) {
  Bench b{kTen, with_solvent("butanone", {})};
  b.reserve(kBinding, kAda);
  const SolventSheet s = solvent_sheet(b.floor(), kThursday);
  EXPECT_EQ(s.lines.size(), 1U);
  EXPECT_FALSE(s.sums);
}

TEST(SolventSheet, ASolventThatWeDoNotKnowIsListedAndNotSummed) {
  Bench b{kTen, with_solvent("moonshine")};
  b.reserve(kBinding, kAda);
  const SolventSheet s = solvent_sheet(b.floor(), kThursday);
  ASSERT_EQ(s.lines.size(), 1U);
  EXPECT_EQ(s.lines[0].solvent, nullptr);
  ASSERT_TRUE(s.sums);
  EXPECT_EQ(s.sums->greatest, nullptr);
}

TEST(SolventSheet, ANightOfWinterTimeHas25Hours) {
  Shop shop = with_solvent();
  for (auto& day : shop.hours.weekday) day = {{0, 24 * 60}};
  Bench b{at("2026-10-24T20:00:00Z"), shop};
  const Date sunday = std::chrono::year{2026} / 10 / 25;
  b.reserve(kBinding, kAda, at("2026-10-25T23:50:00Z"));  // still Sunday in Dublin's winter time
  EXPECT_EQ(solvent_sheet(b.floor(), sunday).lines.size(), 1U);
  EXPECT_EQ(solvent_sheet(b.floor(), sunday).span.length(), 25h);
}

}  // namespace
}  // namespace squeezeout::testing
