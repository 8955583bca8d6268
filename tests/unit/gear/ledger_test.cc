#include "common/gear/ledger.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>

namespace squeezeout {
namespace {

constexpr GearKindId kKind{1};
Instant t(int s) { return Instant{Seconds{s}}; }
Holder who(std::uint32_t id) { return Holder::of(GlueUpId{id}); }

TEST(GearLedger, SpansAreHalfOpen) {
  GearLedger l;
  l.set_stock(kKind, 4);
  l.put(who(1), {{kKind, 4, {t(10), t(20)}}});
  EXPECT_EQ(l.free_over(kKind, {t(0), t(10)}), 4);
  EXPECT_EQ(l.free_over(kKind, {t(0), t(11)}), 0);
  EXPECT_EQ(l.free_over(kKind, {t(19), t(30)}), 0);
  EXPECT_EQ(l.free_over(kKind, {t(20), t(30)}), 4);
  EXPECT_EQ(l.free_over(kKind, {t(0), t(30)}, who(1)), 4);
  l.put(who(2), {{kKind, 4, {t(20), t(30)}}});  // freed at an instant, taken at it
  EXPECT_EQ(l.size(), 2U);
}

TEST(GearLedger, PutReplacesAndEmptiesGo) {
  GearLedger l;
  l.set_stock(kKind, 4);
  l.put(who(1), {{kKind, 3, {t(0), t(10)}}});
  l.put(who(1), {{kKind, 1, {t(5), t(15)}}});
  EXPECT_EQ(l.free_over(kKind, {t(0), t(5)}), 4);
  EXPECT_EQ(l.free_over(kKind, {t(5), t(15)}), 3);
  l.put(who(1), {{kKind, 1, {t(5), t(5)}}});
  EXPECT_EQ(l.size(), 0U);
  EXPECT_TRUE(l.claims_of(who(1)).empty());
}

TEST(GearLedger, HoldersAreOrderedByEnd) {
  GearLedger l;
  l.set_stock(kKind, 10);
  l.put(who(1), {{kKind, 1, {t(0), t(50)}}});
  l.put(who(2), {{kKind, 2, {t(0), t(20)}}});
  l.put(who(3), {{kKind, 3, {t(30), t(40)}}});
  const auto h = l.holders(kKind, {t(10), t(31)});
  ASSERT_EQ(h.size(), 3U);
  EXPECT_EQ(h[0].holder, who(2));
  EXPECT_EQ(h[1].holder, who(3));
  EXPECT_EQ(h[2].holder, who(1));
  EXPECT_EQ(l.holders(kKind, {t(20), t(30)}).size(), 1U);
}

TEST(GearLedger, AStockThatIsCutCountsFromItsInstant) {
  GearLedger l;
  l.set_stock(kKind, 4, t(0));
  l.put(who(1), {{kKind, 4, {t(0), t(10)}}});
  l.put(who(2), {{kKind, 2, {t(10), t(30)}}});
  l.set_stock(kKind, 2, t(20));
  l.put(who(2), {{kKind, 2, {t(10), t(40)}}});  // the past had its own stock
  EXPECT_EQ(l.free_over(kKind, {t(20), t(40)}), 0);
}

TEST(GearLedgerDeathTest, OverStockIsABug) {
  GearLedger l;
  l.set_stock(kKind, 4);
  l.put(who(1), {{kKind, 3, {t(0), t(10)}}});
  EXPECT_DEATH(l.put(who(2), {{kKind, 2, {t(9), t(12)}}}), "does not hold");
}

TEST(GearLedger, PeakSaysWhenTheHighestLevelIsLeftForGood) {
  GearLedger l;
  l.set_stock(kKind, 9);
  l.put(who(1), {{kKind, 3, {t(0), t(10)}}});
  l.put(who(2), {{kKind, 3, {t(20), t(60)}}});
  const auto peak = l.peak(kKind, {t(5), t(30)});
  EXPECT_EQ(peak.level, 3);
  EXPECT_EQ(peak.last_end, t(60));
}

TEST(GearLedger, WhereOnesOwnClaimMeetsAnEqualOneBothAreSeen) {
  GearLedger l;
  l.set_stock(kKind, 1);
  l.put(who(1), {{kKind, 1, {t(0), t(10)}}});
  l.put(who(2), {{kKind, 1, {t(10), t(20)}}});
  EXPECT_EQ(l.free_over(kKind, {t(0), t(10)}, who(1)), 1);
  EXPECT_EQ(l.free_over(kKind, {t(0), t(11)}, who(1)), 0);
  EXPECT_EQ(l.free_over(kKind, {t(9), t(20)}, who(2)), 0);
}

// Against an array of seconds.
RC_GTEST_PROP(GearLedger, AgreesWithCountingEverySecond, ()) {
  constexpr int kSeconds = 16, kStock = 3;
  GearLedger ledger;
  ledger.set_stock(kKind, kStock);
  std::array<int, kSeconds> taken{};
  std::map<std::uint32_t, std::array<int, 3>> claims;
  const int steps = *rc::gen::inRange(1, 60);
  for (int i = 0; i < steps; ++i) {
    const auto id = *rc::gen::inRange<std::uint32_t>(1, 8);
    const int begin = *rc::gen::inRange(0, kSeconds), end = *rc::gen::inRange(0, kSeconds),
              count = *rc::gen::inRange(0, 4);
    const auto mine = [&](int s) {
      const auto it = claims.find(id);
      return it != claims.end() && it->second[0] <= s && s < it->second[1] ? it->second[2] : 0;
    };
    int most = 0;
    for (int s = begin; s < end; ++s)
      most = std::max(most, taken[static_cast<std::size_t>(s)] - mine(s));
    RC_ASSERT(ledger.free_over(kKind, {t(begin), t(end)}, who(id)) == kStock - most);
    if (most + count > kStock) continue;
    for (int s = 0; s < kSeconds; ++s) {
      taken[static_cast<std::size_t>(s)] += (begin <= s && s < end ? count : 0) - mine(s);
    }
    claims[id] = {begin, end, count};
    ledger.put(who(id), {{kKind, count, {t(begin), t(end)}}});
    for (int s = 0; s < kSeconds; ++s)
      RC_ASSERT(ledger.usage(kKind).level(t(s)) == taken[static_cast<std::size_t>(s)]);
  }
}

}  // namespace
}  // namespace squeezeout
