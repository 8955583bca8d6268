// A shop file loaded over a running floor.

#include <gtest/gtest.h>

#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

const Instant kThursday = at("2026-11-26T10:00:00Z");

TEST(Reload, KeysKeepTheirIdsWhateverTheOrder) {
  Bench b{kThursday};
  Shop s = small_shop();
  std::swap(s.gear[0], s.gear[1]);
  for (std::size_t i = 0; i < s.gear.size(); ++i)
    s.gear[i].id = GearKindId{static_cast<std::uint32_t>(i + 1)};
  GearKind fresh = s.gear[2];
  fresh.id = GearKindId{6};
  fresh.key = "new";
  s.gear.insert(s.gear.begin(), fresh);
  ASSERT_TRUE(b.press(LoadShop{s}));
  EXPECT_EQ(b.floor().kind(kDeep)->key, "deep");
  EXPECT_EQ(b.floor().kind(kShort)->key, "short");
  EXPECT_EQ(b.floor().kind(GearKindId{6})->key, "new");
  EXPECT_EQ(b.floor().gear.stock(kDeep), 6);
}

TEST(Reload, WhatIsInUseCannotBeDropped) {
  Bench b{kThursday};
  b.reserve(kBridge, kAda);
  Shop s = small_shop();
  s.gear.erase(s.gear.begin());              // deep clamps, held
  s.builders.erase(s.builders.begin() + 1);  // Ben has nothing: fine
  const auto answer = b.press(LoadShop{s});
  ASSERT_FALSE(answer);
  const auto& bad = std::get<BadShop>(answer.error());
  ASSERT_EQ(bad.mistakes.size(), 1U);
  EXPECT_EQ(bad.mistakes[0].where, "gear \"deep\"");
}

TEST(Reload, StockBelowPromisesIsRefusedWithTheClashes) {
  Bench b{kThursday};
  b.reserve(kBridge, kAda);
  Shop s = small_shop();
  s.gear[0].stock = 2;
  const auto answer = b.press(LoadShop{s});
  ASSERT_FALSE(answer);
  EXPECT_EQ(std::get<BelowClaims>(answer.error()).kind, kDeep);
  EXPECT_EQ(std::get<BelowClaims>(answer.error()).clashes.size(), 1U);
}

TEST(Reload, AnUnknownZoneIsRefused) {
  Floor f;
  Shop s = small_shop("Europe/Nowhere");
  const auto answer = decide(f, {{}, {}, kThursday, LoadShop{s}});
  ASSERT_FALSE(answer);
  EXPECT_EQ(std::get<BadShop>(answer.error()).mistakes.at(0).where, "zone");
}

}  // namespace
}  // namespace squeezeout::testing
