#include "common/plan/slot.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "common/time/rfc3339.h"

namespace squeezeout {
namespace {

using namespace std::chrono_literals;

Instant at(const char* text) { return *parse_rfc3339(text); }
Holder who(std::uint32_t id) { return Holder::of(GlueUpId{id}); }

constexpr GearKindId kDeep{1}, kShort{2}, kCaul{3};
constexpr BuilderId kAda{1};

struct Shop {
  std::vector<GearKind> kinds;
  GearLedger gear;
  BuilderLedger builders;
  Hours hours;

  explicit Shop(WeekHours week = weekdays())
      : hours(*Zone::find("Europe/Dublin"), std::move(week)) {
    GearKind deep{.id = kDeep, .key = "deep", .name = "Deep", .stock = 6};
    deep.throat = {120};
    GearKind shallow{.id = kShort, .key = "short", .name = "Short", .stock = 10};
    shallow.throat = {50};
    const GearKind caul{
        .id = kCaul, .key = "caul", .name = "Caul", .gear_class = GearClass::caul, .stock = 1};
    kinds = {deep, shallow, caul};
    for (const GearKind& k : kinds) gear.set_stock(k.id, k.stock);
  }
  static WeekHours weekdays() {
    WeekHours w;
    for (unsigned d = 1; d <= 5; ++d) w.weekday[d] = {{8 * 60, 17 * 60}};
    return w;
  }
  std::map<GlueUpId, Span> fumes;
  SlotView view() const { return {gear, builders, kinds, hours, fumes}; }
};

GearNeed clamps(int count, double throat = 0) {
  GearNeed n{.gear_class = GearClass::clamp, .count = count};
  n.throat = {throat};
  return n;
}

SlotQuery query(Instant after, std::vector<GearNeed> needs, Seconds dwell = 60min) {
  SlotQuery q;
  q.demand = {.stage = 5min,
              .assembly = 5min,
              .dwell = dwell,
              .release = 5min,
              .wait = 3h,
              .open_limit = 10min};
  q.demand.needs = std::move(needs);
  q.builder = kAda;
  q.after = after;
  return q;
}

TEST(EarliestSlot, AnEmptyShopStartsAtOnce) {
  const Shop shop;
  const auto slot = earliest_slot(shop.view(), query(at("2026-11-26T10:00:30Z"), {clamps(4)}));
  ASSERT_TRUE(slot);
  EXPECT_EQ(slot->times.stage_begin, at("2026-11-26T10:01:00Z"));  // at a whole minute
  EXPECT_EQ(slot->times.open_begin, at("2026-11-26T10:06:00Z"));
  EXPECT_EQ(slot->times.clamped_begin, at("2026-11-26T10:11:00Z"));
  EXPECT_EQ(slot->times.release_begin, at("2026-11-26T11:11:00Z"));
  EXPECT_EQ(slot->times.release_end, at("2026-11-26T11:16:00Z"));
  EXPECT_EQ(slot->times.ready_at, at("2026-11-26T13:11:00Z"));  // the wait counts from clamps on
  EXPECT_EQ(slot->held, (std::vector<Held>{{kShort, 4}}));      // least capable first
  EXPECT_TRUE(slot->why_not_earlier.empty());
}

TEST(EarliestSlot, DwellThatEndsAfterClosingHoldsTheGearUntilOpening) {
  const Shop shop;
  const auto slot = earliest_slot(shop.view(), query(at("2026-11-26T16:00:00Z"), {clamps(4)}, 6h));
  ASSERT_TRUE(slot);
  EXPECT_EQ(slot->times.clamped_begin + 6h, at("2026-11-26T22:10:00Z"));
  EXPECT_EQ(slot->times.release_begin, at("2026-11-27T08:00:00Z"));
  EXPECT_EQ(slot->times.release_end, at("2026-11-27T08:05:00Z"));
}

TEST(EarliestSlot, WaitsForGearAndSaysWhoHoldsIt) {
  Shop shop;
  shop.gear.put(who(7), {{kDeep, 5, {at("2026-11-26T09:00:00Z"), at("2026-11-26T12:30:00Z")}}});
  const auto slot = earliest_slot(shop.view(), query(at("2026-11-26T10:00:00Z"), {clamps(3, 100)}));
  ASSERT_TRUE(slot);
  EXPECT_EQ(slot->times.stage_begin, at("2026-11-26T12:30:00Z"));
  ASSERT_EQ(slot->why_not_earlier.size(), 1U);
  EXPECT_EQ(slot->why_not_earlier[0].starts,
            (Span{at("2026-11-26T10:00:00Z"), at("2026-11-26T12:30:00Z")}));
  const auto& fact = std::get<GearShort>(slot->why_not_earlier[0].fact);
  EXPECT_EQ(fact.wanted, 3);
  EXPECT_EQ(fact.free, 1);
  EXPECT_EQ(fact.owned, 6);
  ASSERT_EQ(fact.holders.size(), 1U);
  EXPECT_EQ(fact.holders[0].holder, who(7));
}

TEST(EarliestSlot, MustFinishBeforeGearThatIsPromisedLater) {
  Shop shop;
  shop.gear.put(who(7), {{kDeep, 6, {at("2026-11-26T11:00:00Z"), at("2026-11-26T12:00:00Z")}}});
  const auto slot = earliest_slot(shop.view(), query(at("2026-11-26T10:00:00Z"), {clamps(3, 100)}));
  ASSERT_TRUE(slot);
  EXPECT_EQ(slot->times.stage_begin, at("2026-11-26T12:00:00Z"));
  const auto before =
      earliest_slot(shop.view(), query(at("2026-11-26T09:45:00Z"), {clamps(3, 100)}));
  EXPECT_EQ(before->times.release_end, at("2026-11-26T11:00:00Z"));  // half-open: it just fits
}

TEST(EarliestSlot, BuilderClosedAndEarlierStepAreFacts) {
  Shop shop;
  shop.builders.put(kAda, GlueUpId{9}, {{at("2026-11-26T09:50:00Z"), at("2026-11-26T10:20:00Z")}});
  SlotQuery q = query(at("2026-11-26T06:00:00Z"), {clamps(4)});
  q.waits_for = NotReadyYet{GlueUpId{3}, at("2026-11-26T09:55:00Z")};
  const auto slot = earliest_slot(shop.view(), q);
  ASSERT_TRUE(slot);
  EXPECT_EQ(slot->times.stage_begin, at("2026-11-26T10:20:00Z"));
  ASSERT_EQ(slot->why_not_earlier.size(), 2U);
  EXPECT_TRUE(std::holds_alternative<NotReadyYet>(slot->why_not_earlier[0].fact));
  EXPECT_EQ(std::get<BuilderBusy>(slot->why_not_earlier[1].fact).with, GlueUpId{9});
  q.waits_for.reset();
  const auto early = earliest_slot(shop.view(), q);
  EXPECT_EQ(early->times.stage_begin, at("2026-11-26T08:00:00Z"));
  EXPECT_EQ(std::get<ShopClosed>(early->why_not_earlier[0].fact).until, at("2026-11-26T08:00:00Z"));
}

TEST(EarliestSlot, GearThatTheShopDoesNotOwnIsNeverFound) {
  const Shop shop;
  const auto slot = earliest_slot(shop.view(), query(at("2026-11-26T10:00:00Z"), {clamps(7, 100)}));
  ASSERT_FALSE(slot);
  EXPECT_EQ(std::get<GearShort>(slot.error().why.back().fact).owned, 6);
}

// Over a DST night the dwell is the elapsed time: 12 h from 16:40 on, clocks going forward or back.
TEST(EarliestSlot, DwellOverDstNightsIsElapsedTime) {
  struct Night {
    const char *zone, *after, *off;
  };
  WeekHours all;
  for (auto& day : all.weekday) day = {{0, 24 * 60}};
  for (const Night& n :
       {Night{"Europe/Dublin", "2026-03-28T16:30:00+00:00", "2026-03-29T05:40:00+01:00"},
        Night{"Europe/Dublin", "2026-10-24T16:30:00+01:00", "2026-10-25T03:40:00+00:00"},
        Night{"America/New_York", "2026-03-07T16:30:00-05:00", "2026-03-08T05:40:00-04:00"},
        Night{"America/New_York", "2026-10-31T16:30:00-04:00", "2026-11-01T03:40:00-05:00"}}) {
    Shop shop{all};
    shop.hours = Hours{*Zone::find(n.zone), all};
    const auto slot = earliest_slot(shop.view(), query(at(n.after), {clamps(4)}, 12h));
    ASSERT_TRUE(slot);
    EXPECT_EQ(slot->times.release_begin, at(n.off)) << n.zone << " " << n.after;
    EXPECT_EQ(slot->times.release_begin - slot->times.clamped_begin, 12h);
  }
}

TEST(ChooseGear, NeedsArePushedOnToOtherKindsWhenThatHelps) {
  const Shop shop;
  const Span span{at("2026-11-26T10:00:00Z"), at("2026-11-26T11:00:00Z")};
  // Any 13 clamps would take 10 short and 3 deep; 3 deep are then left for the need that can use nothing else.
  const std::vector<GearNeed> needs{clamps(13), clamps(3, 100)};
  EXPECT_EQ(choose_gear(shop.view(), needs, span, {}),
            (std::vector<Held>{{kDeep, 6}, {kShort, 10}}));
  const std::vector<GearNeed> reversed{clamps(3, 100), clamps(13)};
  EXPECT_TRUE(choose_gear(shop.view(), reversed, span, {}));
  const std::vector<GearNeed> too_many{clamps(14), clamps(3, 100)};
  EXPECT_FALSE(choose_gear(shop.view(), too_many, span, {}));
}

// The earliest slot against trying every minute, on random small shops.
RC_GTEST_PROP(EarliestSlot, AgreesWithTryingEveryMinute, ()) {
  WeekHours week;
  for (auto& day : week.weekday)
    day = {{8 * 60, 12 * 60}, {13 * 60, *rc::gen::inRange(14, 24) * 60}};
  Shop shop{week};
  const Instant day = at("2026-11-26T00:00:00Z");
  const int holders = *rc::gen::inRange(0, 12);
  for (int i = 0; i < holders; ++i) {
    const auto kind = shop.kinds[static_cast<std::size_t>(*rc::gen::inRange(0, 3))];
    const Instant begin = day + Minutes{*rc::gen::inRange(0, 36 * 60)};
    const Span span{begin, begin + Minutes{*rc::gen::inRange(1, 600)}};
    const int count = std::min(*rc::gen::inRange(1, 7), shop.gear.free_over(kind.id, span));
    if (count > 0) shop.gear.put(who(static_cast<std::uint32_t>(i + 1)), {{kind.id, count, span}});
  }
  const int attended = *rc::gen::inRange(0, 4);
  for (int i = 0; i < attended; ++i) {
    const Instant begin = day + Minutes{*rc::gen::inRange(0, 36 * 60)};
    shop.builders.put(kAda, GlueUpId{static_cast<std::uint32_t>(100 + i)},
                      {{begin, begin + Minutes{*rc::gen::inRange(1, 90)}}});
  }
  SlotQuery q = query(day + Minutes{*rc::gen::inRange(0, 24 * 60)},
                      {clamps(*rc::gen::inRange(1, 7), *rc::gen::element(0.0, 100.0)),
                       clamps(*rc::gen::inRange(1, 5))},
                      Minutes{*rc::gen::inRange(1, 400)});
  if (*rc::gen::arbitrary<bool>())
    q.demand.needs.push_back({.gear_class = GearClass::caul, .count = 1});
  const auto found = earliest_slot(shop.view(), q);
  for (Instant s = q.after;; s += 1min) {
    const auto here = slot_at(shop.view(), q, s);
    if (!here && s > day + 24h * 9) RC_FAIL("nothing within nine days");
    if (!here) continue;
    RC_ASSERT(found.has_value());
    RC_ASSERT(found->times == here->times);
    // The reasons cover every rejected start, without a gap.
    Instant covered = q.after;
    for (const Hindrance& h : found->why_not_earlier) {
      RC_ASSERT(h.starts.begin == covered);
      covered = h.starts.end;
    }
    if (found->why_not_earlier.size() < kMaxWhy) RC_ASSERT(covered == found->times.stage_begin);
    break;
  }
}

}  // namespace
}  // namespace squeezeout
