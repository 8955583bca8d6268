// AdoptPlan and UndoPlan: all or nothing, nobody else gives way, one press takes it back.
#include <gtest/gtest.h>

#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using namespace std::chrono_literals;

const Instant kNine = at("2026-11-26T09:00:00Z");  // a Thursday

// But for the press itself.
GlueUp without_press(GlueUp g) {
  g.pressed_at = {};
  g.plan = {};
  return g;
}

struct Replayed {
  explicit Replayed(const Bench& b) {
    for (const Event& e : b.events()) squeezeout::apply(floor, e);
  }
  Floor floor;
};

TEST(AdoptPlan, TwoSwapTheirPlaces) {
  Bench b{kNine};
  const GlueUpId first = b.reserve(kBridge, kAda, kNine + 1h);
  const GlueUpId second = b.reserve(kBridge, kBen, kNine + 3h);  // there is one caul
  ASSERT_FALSE(b.press(Move{first, kNine + 3h}));
  const auto done = b.press(AdoptPlan{{{first, kNine + 3h, {}}, {second, kNine + 1h, {}}}});
  ASSERT_TRUE(done);
  EXPECT_EQ(b.glue_up(first).times.stage_begin, kNine + 3h);
  EXPECT_EQ(b.glue_up(second).times.stage_begin, kNine + 1h);
  EXPECT_EQ(b.glue_up(first).promised, b.glue_up(first).times);
  EXPECT_EQ(b.glue_up(first).pressed_at, kNine);
  EXPECT_EQ(over_stock(b.floor()), "");
  ASSERT_EQ(b.floor().plans.size(), 1u);
  const PlanRecord& plan = b.floor().plans.at(PlanId{1});
  EXPECT_EQ(plan, (PlanRecord{PlanId{1}, kNine, {second, first}, false}));
  EXPECT_EQ(floor_hash(Replayed(b).floor), floor_hash(b.floor()));
  EXPECT_EQ(Replayed(b).floor.before, b.floor().before);
}

TEST(AdoptPlan, IsRefusedWholeWhenAPlaceIsTaken) {
  Bench b{kNine};
  const GlueUpId one = b.reserve(kBridge, kAda, kNine + 1h);
  const GlueUpId other = b.reserve(kBend, kAda, kNine + 3h);
  b.reserve(kBridge, kBen, kNine + 5h);
  const auto hash = floor_hash(b.floor());
  const auto no = b.press(AdoptPlan{{{other, kNine + 4h, {}}, {one, kNine + 5h, {}}}});
  const auto* stale = refused<PlanStale>(no);
  ASSERT_TRUE(stale);
  EXPECT_EQ(stale->glue_up, one);
  ASSERT_EQ(stale->why.size(), 1u);
  EXPECT_TRUE(std::holds_alternative<GearShort>(stale->why.front().fact));
  EXPECT_EQ(floor_hash(b.floor()), hash);
}

TEST(AdoptPlan, MovesNothingThatHasStarted) {
  Bench b{kNine};
  const GlueUpId id = b.reserve(kBridge, kAda);
  ASSERT_TRUE(b.press(Start{id}));
  const auto no = b.press(AdoptPlan{{{id, kNine + 4h, {}}}});
  ASSERT_TRUE(refused<WrongProgress>(no));
  EXPECT_EQ(refused<WrongProgress>(no)->is, Progress::open);
}

TEST(AdoptPlan, WrongMovesAreRefused) {
  Bench b{kNine};
  const GlueUpId id = b.reserve(kBridge, kAda, kNine + 1h);
  EXPECT_TRUE(refused<BadCount>(b.press(AdoptPlan{})));
  EXPECT_TRUE(refused<BadCount>(
      b.press(AdoptPlan{std::vector<Adopted>(kMaxMoves + 1, {id, kNine + 2h, {}})})));
  EXPECT_TRUE(refused<NoSuch>(b.press(AdoptPlan{{{GlueUpId{99}, kNine + 2h, {}}}})));
  EXPECT_TRUE(refused<NoSuch>(b.press(AdoptPlan{{{id, kNine + 2h, SheetId{99}}}})));
  EXPECT_TRUE(refused<NotPossible>(b.press(AdoptPlan{{{id, kNine + 2h, kCement}}})));
  EXPECT_TRUE(refused<BadTime>(b.press(AdoptPlan{{{id, kNine - 1h, {}}}})));
  EXPECT_TRUE(
      refused<AlreadyReserved>(b.press(AdoptPlan{{{id, kNine + 2h, {}}, {id, kNine + 3h, {}}}})));
  EXPECT_EQ(b.glue_up(id).times.stage_begin, kNine + 1h);
}

TEST(AdoptPlan, NobodyElseGivesWay) {
  Bench b{kNine};
  const GlueUpId bridge = b.reserve(kBridge, kAda, kNine + 1h, kBuild14, 0);
  const GlueUpId binding = b.reserve(kBinding, kAda, std::nullopt, kBuild14, 1);
  const Instant stood = b.glue_up(binding).times.stage_begin;
  const auto no = b.press(AdoptPlan{{{bridge, kNine + 3h, {}}}});
  const auto* stale = refused<PlanStale>(no);
  ASSERT_TRUE(stale);
  EXPECT_EQ(stale->glue_up, binding);
  ASSERT_EQ(stale->why.size(), 1u);
  ASSERT_TRUE(std::holds_alternative<NotReadyYet>(stale->why.front().fact));
  EXPECT_EQ(std::get<NotReadyYet>(stale->why.front().fact).waits_for, bridge);
  EXPECT_EQ(b.glue_up(bridge).times.stage_begin, kNine + 1h);
  EXPECT_EQ(b.glue_up(binding).times.stage_begin, stood);
  // Both together go; in whichever order they are named.
  const Instant later = at("2026-11-27T10:00:00Z");
  ASSERT_TRUE(b.press(AdoptPlan{{{binding, later, {}}, {bridge, kNine + 3h, {}}}}));
  EXPECT_EQ(b.glue_up(binding).times.stage_begin, later);
}

TEST(AdoptPlan, KeepsTheLeaveToWorkOutsideHours) {
  Bench b{kNine};
  const Instant evening = kNine + 10h;
  ASSERT_TRUE(b.press(Reserve{.recipe = kBend,
                              .builder = kAda,
                              .after = kNine,
                              .start = evening,
                              .hours = Override::knowingly}));
  ASSERT_TRUE(b.press(AdoptPlan{{{GlueUpId{1}, evening + 1h, {}}}}));
  EXPECT_TRUE(b.glue_up(GlueUpId{1}).outside_hours);
  const GlueUpId other = b.reserve(kBend, kBen);
  EXPECT_TRUE(refused<PlanStale>(b.press(AdoptPlan{{{other, evening, {}}}})));
}

TEST(AdoptPlan, AnotherGlueHasItsOwnLengths) {
  Bench b{kNine};
  const GlueUpId id = b.reserve(kLining, kAda, kNine + 1h);
  ASSERT_TRUE(b.press(AdoptPlan{{{id, kNine + 1h, kCement}}}));
  EXPECT_EQ(b.glue_up(id).sheet, kCement);
  EXPECT_EQ(b.glue_up(id).demand.wait, Seconds{24h});
}

TEST(AdoptPlan, GivesAPlaceToWhatLostIt) {
  Bench b{kNine};
  const GlueUpId id = b.reserve(kBridge, kAda);
  b.wait(30min);
  b.tick();
  ASSERT_EQ(b.glue_up(id).progress, Progress::displaced);
  ASSERT_TRUE(b.press(AdoptPlan{{{id, kNine + 1h, {}}}}));
  EXPECT_EQ(b.glue_up(id).progress, Progress::reserved);
  EXPECT_EQ(b.glue_up(id).snag, Snag::none);
  ASSERT_TRUE(b.press(UndoPlan{PlanId{1}}));
  EXPECT_EQ(b.glue_up(id).progress, Progress::displaced);
  EXPECT_EQ(b.glue_up(id).snag, Snag::not_started);
}

struct Swapped {
  Bench b{kNine};
  GlueUpId first = b.reserve(kBridge, kAda, kNine + 1h);
  GlueUpId second = b.reserve(kBridge, kBen, kNine + 3h);
  GlueUp was_first = b.glue_up(first), was_second = b.glue_up(second);
  Swapped() {
    b.wait(1min);
    CHECK(b.press(AdoptPlan{{{first, kNine + 3h, {}}, {second, kNine + 1h, {}}}}).has_value());
    b.wait(1min);
  }
};

TEST(UndoPlan, BringsTheVeryRecordsBack) {
  Swapped s;
  ASSERT_TRUE(s.b.press(UndoPlan{PlanId{1}}));
  EXPECT_EQ(without_press(s.b.glue_up(s.first)), without_press(s.was_first));
  EXPECT_EQ(without_press(s.b.glue_up(s.second)), without_press(s.was_second));
  EXPECT_TRUE(s.b.floor().plans.at(PlanId{1}).undone);
  EXPECT_EQ(over_stock(s.b.floor()), "");
  EXPECT_EQ(floor_hash(Replayed(s.b).floor), floor_hash(s.b.floor()));
  EXPECT_TRUE(refused<NothingToUndo>(s.b.press(UndoPlan{PlanId{1}})));
}

TEST(UndoPlan, IsOpenForAnHour) {
  Swapped s;
  s.b.set(kNine + kUndoWindow + 2min);
  EXPECT_TRUE(refused<NothingToUndo>(s.b.press(UndoPlan{PlanId{1}})));
}

TEST(UndoPlan, NotAfterAPressOnOneOfThem) {
  Swapped s;
  ASSERT_TRUE(s.b.press(Move{s.first, kNine + 4h}));
  const auto no = s.b.press(UndoPlan{PlanId{1}});
  ASSERT_TRUE(refused<PlanStale>(no));
  EXPECT_EQ(refused<PlanStale>(no)->glue_up, s.first);
  EXPECT_TRUE(refused<PlanStale>(no)->why.empty());
  EXPECT_EQ(s.b.glue_up(s.second).times.stage_begin, kNine + 1h);
}

TEST(UndoPlan, NotWhenAnotherPlanCameSince) {
  Swapped s;
  ASSERT_TRUE(s.b.press(AdoptPlan{{{s.first, kNine + 4h, {}}}}));
  EXPECT_TRUE(refused<PlanStale>(s.b.press(UndoPlan{PlanId{1}})));
  ASSERT_TRUE(s.b.press(UndoPlan{PlanId{2}}));
  EXPECT_EQ(s.b.glue_up(s.first).times.stage_begin, kNine + 3h);
  EXPECT_TRUE(refused<PlanStale>(s.b.press(UndoPlan{PlanId{1}})));
}

TEST(UndoPlan, NotWhenThePlaceIsTaken) {
  Bench b{kNine};
  const GlueUpId id = b.reserve(kBridge, kAda, kNine + 1h);
  ASSERT_TRUE(b.press(AdoptPlan{{{id, kNine + 4h, {}}}}));
  const GlueUpId came = b.reserve(kBridge, kBen, kNine + 1h);
  const auto no = b.press(UndoPlan{PlanId{1}});
  const auto* stale = refused<PlanStale>(no);
  ASSERT_TRUE(stale);
  EXPECT_EQ(stale->glue_up, id);
  const auto* gear = std::get_if<GearShort>(&stale->why.at(0).fact);
  ASSERT_TRUE(gear);
  EXPECT_EQ(gear->holders.at(0).holder, Holder::of(came));
}

TEST(UndoPlan, NotWhenTheBuilderHasOtherWorkSince) {
  Bench b{kNine};
  const GlueUpId id = b.reserve(kBridge, kAda, kNine + 1h);
  ASSERT_TRUE(b.press(AdoptPlan{{{id, kNine + 4h, {}}}}));
  const GlueUpId came = b.reserve(kBend, kAda, kNine + 1h);
  const auto no = b.press(UndoPlan{PlanId{1}});
  ASSERT_TRUE(refused<PlanStale>(no));
  const auto* busy = std::get_if<BuilderBusy>(&refused<PlanStale>(no)->why.at(0).fact);
  ASSERT_TRUE(busy);
  EXPECT_EQ(busy->with, came);
}

// The caul was Ben's, or broken, in between: that is over by now, and yet it was not free from ten o'clock on.
struct TenIsTakenAgain {
  Bench b{kNine};
  GlueUpId moved = b.reserve(kBridge, kAda, kNine + 1h);
  GlueUpId other{};
  TenIsTakenAgain() {
    b.set(kNine + 30min);
    CHECK(b.press(AdoptPlan{{{moved, kNine + 4h, {}}}}).has_value());
  }
  void ben_starts_at_ten() {
    other = b.reserve(kBridge, kBen, kNine + 1h);
    b.set(kNine + 1h);
    ASSERT_TRUE(b.press(Start{other, Override::knowingly}));
  }
  void is_refused(const Result<std::vector<Event>, Refusal>& answer) const {
    const auto* stale = refused<PlanStale>(answer);
    ASSERT_TRUE(stale);
    EXPECT_EQ(stale->glue_up, moved);
    ASSERT_FALSE(stale->why.empty());
    EXPECT_TRUE(std::holds_alternative<GearShort>(stale->why.front().fact));
    EXPECT_EQ(b.glue_up(moved).times.stage_begin, kNine + 4h);
    EXPECT_EQ(over_stock(b.floor()), "");
  }
};

TEST(UndoPlan, NotWhenAnotherThatSpoiledHeldItsGearInBetween) {
  TenIsTakenAgain t;
  t.ben_starts_at_ten();
  t.b.set(kNine + 62min);
  ASSERT_TRUE(t.b.press(Spoiled{t.other, t.b.now(), "slipped"}));
  t.b.set(kNine + 65min);
  t.is_refused(t.b.press(UndoPlan{PlanId{1}}));
}

TEST(UndoPlan, NotWhenAnotherThatIsOffHeldItsGearInBetween) {
  TenIsTakenAgain t;
  t.ben_starts_at_ten();
  t.b.wait(1min);
  ASSERT_TRUE(t.b.press(ClampsOn{t.other, t.b.now()}));
  t.b.wait(1min);
  ASSERT_TRUE(t.b.press(ClampsOff{t.other, t.b.now(), Override::knowingly}));
  t.b.set(kNine + 65min);
  t.is_refused(t.b.press(UndoPlan{PlanId{1}}));
}

TEST(UndoPlan, NotWhenItsGearWasBrokenInBetween) {
  TenIsTakenAgain t;
  t.b.set(kNine + 61min);
  ASSERT_TRUE(t.b.press(GearBroken{kCaul, 1, "cracked"}));
  t.b.wait(1min);
  ASSERT_TRUE(t.b.press(GearMended{kCaul, 1}));
  t.b.set(kNine + 65min);
  t.is_refused(t.b.press(UndoPlan{PlanId{1}}));
}

TEST(AdoptPlan, NotFromBeforeAnotherLetGo) {
  TenIsTakenAgain t;
  t.ben_starts_at_ten();
  t.b.set(kNine + 64min);
  ASSERT_TRUE(t.b.press(Spoiled{t.other, t.b.now(), "slipped"}));
  t.b.wait(1min);
  t.is_refused(t.b.press(AdoptPlan{{{t.moved, t.b.now() - kAskSlack, {}}}}));
  EXPECT_TRUE(t.b.press(AdoptPlan{{{t.moved, t.b.now() - 1min, {}}}}));
}

TEST(AdoptPlan, NotFromBeforeItsGearWasMended) {
  TenIsTakenAgain t;
  t.b.set(kNine + 61min);
  ASSERT_TRUE(t.b.press(GearBroken{kCaul, 1, "cracked"}));
  t.b.set(kNine + 64min);
  ASSERT_TRUE(t.b.press(GearMended{kCaul, 1}));
  t.b.wait(1min);
  t.is_refused(t.b.press(AdoptPlan{{{t.moved, t.b.now() - kAskSlack, {}}}}));
  EXPECT_TRUE(t.b.press(AdoptPlan{{{t.moved, t.b.now() - 1min, {}}}}));
}

// The cold moves Ada's bridge into the hour from which a plan had moved her bend.
TEST(UndoPlan, NotWhenTheWeatherMovedAnotherThere) {
  Bench b{kNine};
  const Instant stood = kNine + 130min;
  const GlueUpId moved = b.reserve(kBend, kAda, stood);
  const GlueUpId runs = b.reserve(kBridge, kBen, kNine);
  const GlueUpId pushed = b.reserve(kBridge, kAda, kNine + 75min);  // when the caul is free
  b.set(kNine + 5min);
  ASSERT_TRUE(b.press(Start{runs}));
  b.set(kNine + 9min);
  ASSERT_TRUE(b.press(ClampsOn{runs, b.now()}));
  ASSERT_TRUE(b.press(AdoptPlan{{{moved, kNine + 6h, {}}}}));
  b.wait(1min);
  ASSERT_TRUE(b.press(SetForecast{{{b.now() + 1min, {10}, {50}}, {b.now() + 30h, {10}, {50}}}}));
  ASSERT_TRUE(b.glue_up(pushed).weather && b.glue_up(pushed).weather->moved_from);
  ASSERT_LT(b.glue_up(pushed).pressed_at, b.now());
  const Span spread{b.glue_up(pushed).times.stage_begin, b.glue_up(pushed).times.clamped_begin};
  ASSERT_TRUE(spread.overlaps({stood, stood + 9min})) << "the old place of the bend";
  const auto no = b.press(UndoPlan{PlanId{1}});
  ASSERT_TRUE(refused<PlanStale>(no));
  const auto* busy = std::get_if<BuilderBusy>(&refused<PlanStale>(no)->why.at(0).fact);
  ASSERT_TRUE(busy);
  EXPECT_EQ(busy->with, pushed);
}

TEST(UndoPlan, NotWhenAPressOnOneOfThemWasTakenBack) {
  Swapped s;
  ASSERT_TRUE(s.b.press(Move{s.first, kNine + 5h}));
  ASSERT_TRUE(s.b.press(Undo{s.first}));
  ASSERT_EQ(s.b.glue_up(s.first).times.stage_begin, kNine + 3h);
  const auto no = s.b.press(UndoPlan{PlanId{1}});
  ASSERT_TRUE(refused<PlanStale>(no));
  EXPECT_EQ(refused<PlanStale>(no)->glue_up, s.first);
  EXPECT_EQ(s.b.glue_up(s.first).times.stage_begin, kNine + 3h) << "not five o'clock again";
}

// A mix that was stirred for one glue, or for a place that is lost, binds no more.
struct FromAPot {
  Bench b{kNine, with_long_pots()};
  GlueUpId id{};
  FromAPot() {
    CHECK(b.press(MixPot{kResin, {}, {}}).has_value());
    CHECK(b.press(Reserve{.recipe = kLining, .builder = kAda, .after = kNine, .pot = PotId{1}})
              .has_value());
    id = GlueUpId{b.floor().last_glue_up};
    CHECK(b.glue_up(id).pot == PotId{1});
  }
  static Shop with_long_pots() {
    Shop shop = small_shop();
    for (AdhesiveSheet& sheet : shop.sheets) sheet.open = sheet.working_life = 2h;
    return shop;
  }
};

TEST(Pots, AnotherGlueForgetsTheMix) {
  FromAPot t;
  ASSERT_TRUE(t.b.press(AdoptPlan{{{t.id, kNine + 10min, kCement}}}));
  EXPECT_EQ(t.b.glue_up(t.id).pot, PotId{});
  ASSERT_TRUE(t.b.press(AdoptPlan{{{t.id, kNine + 10min, kResin}}}));
  EXPECT_EQ(t.b.glue_up(t.id).pot, PotId{});
  EXPECT_TRUE(t.b.press(Move{t.id, kNine + 4h})) << "long after that mix has set";
}

TEST(Pots, ALostPlaceForgetsTheMix) {
  FromAPot t;
  EXPECT_FALSE(t.b.press(Move{t.id, kNine + 4h}));
  t.b.set(t.b.glue_up(t.id).times.open_begin + kStartGrace);
  t.b.tick();
  ASSERT_EQ(t.b.glue_up(t.id).progress, Progress::displaced);
  ASSERT_TRUE(t.b.press(Move{t.id, kNine + 4h}));
  EXPECT_EQ(t.b.glue_up(t.id).pot, PotId{});
  EXPECT_TRUE(t.b.press(Move{t.id, kNine + 3h})) << "before that mix sets it was bound again";
}

TEST(UndoPlan, OfNoPlan) {
  Bench b{kNine};
  const auto no = b.press(UndoPlan{PlanId{7}});
  ASSERT_TRUE(refused<NoSuch>(no));
  EXPECT_EQ(refused<NoSuch>(no)->what, Thing::plan);
}

TEST(Undo, TakesOneOfAPlanBack) {
  Bench b{kNine};
  const GlueUpId id = b.reserve(kBridge, kAda, kNine + 1h);
  ASSERT_TRUE(b.press(AdoptPlan{{{id, kNine + 4h, {}}}}));
  ASSERT_TRUE(b.press(Undo{id}));
  EXPECT_EQ(b.glue_up(id).times.stage_begin, kNine + 1h);
  EXPECT_TRUE(refused<PlanStale>(b.press(UndoPlan{PlanId{1}})));
}

TEST(Plans, TheLast32AreKept) {
  Bench b{kNine};
  const GlueUpId id = b.reserve(kBridge, kAda, kNine + 1h);
  for (int i = 0; i < 40; ++i)
    ASSERT_TRUE(b.press(AdoptPlan{{{id, kNine + 1h + Minutes{i + 1}, {}}}}));
  EXPECT_EQ(b.floor().plans.size(), kPlansKept);
  EXPECT_EQ(b.floor().plans.begin()->first, PlanId{9});
  EXPECT_EQ(b.floor().last_plan, 40u);
}

TEST(Reserve, SaysFromWhenItWasWanted) {
  Bench b{kNine};
  ASSERT_TRUE(b.press(Reserve{.recipe = kBend, .builder = kAda, .after = kNine + 2h}));
  EXPECT_EQ(b.glue_up(GlueUpId{1}).wanted_from, kNine + 2h);
  ASSERT_TRUE(b.press(Reserve{.recipe = kBend, .builder = kBen, .after = kNine - 2h}));
  EXPECT_EQ(b.glue_up(GlueUpId{2}).wanted_from, kNine);
}

}  // namespace
}  // namespace squeezeout::testing
