// Alarms, second by second, on a floor that is decided as a server would.

#include "client/alarm/alarm.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "client/alarm/alarm_words.h"
#include "client/words/say.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::alarm {
namespace {

using namespace squeezeout::testing;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

const Instant kTen = at("2026-11-26T10:00:00Z");  // a Thursday

// Open time of the resin 10 min. Ada's bends are held hot for 15 min, then cool for 60.
Shop shop() {
  Shop s = small_shop();
  s.recipes[3].heat = Heat{Minutes{15}, Minutes{60}, {150}};
  return s;
}

struct Played {  // one sound, and when it began
  Sound sound;
  Seconds after;  // since the run began
  friend bool operator==(const Played&, const Played&) = default;
};

class AlarmTest : public ::testing::Test {
 protected:
  AlarmTest() : bench(kTen, shop()) {}
  Heard heard() const {
    return {bench.floor(), bench.now(), device_bench, builder, link, facts_waiting};
  }
  Told look() { return alarms.look(heard()); }
  // Looks once a second for so long; what sounded.
  std::vector<Played> run(Seconds length) {
    std::vector<Played> out;
    const Instant begin = bench.now();
    for (; bench.now() < begin + length; bench.wait(Seconds{1})) {
      const Told told = look();
      if (told.sound != Sound::none) out.push_back({told.sound, bench.now() - begin});
      EXPECT_EQ(look().sound, Sound::none) << "a sound is told once";
    }
    return out;
  }
  // Spread now; the open limit is the floor's.
  GlueUpId wet(BuilderId who = kAda, RecipeId recipe = kBridge) {
    const GlueUpId id = bench.reserve(recipe, who);
    bench.set(std::max(bench.now(), bench.glue_up(id).times.stage_begin));
    EXPECT_TRUE(bench.press(Start{id}));
    return id;
  }
  GlueUpId clamped(BuilderId who = kAda, RecipeId recipe = kBridge) {
    const GlueUpId id = wet(who, recipe);
    bench.wait(Minutes{2});
    EXPECT_TRUE(bench.press(ClampsOn{id, bench.now()}));
    return id;
  }
  Instant skins(GlueUpId id) const { return *clamps_on_by(bench.glue_up(id)); }
  // Clamps of `a` are due now, and another is reserved for the minute when they are planned to be off.
  GlueUpId clamps_that_are_wanted() {
    const GlueUpId a = clamped();
    next = bench.reserve(kBridge, kBen, bench.glue_up(a).times.release_end);
    return a;
  }

  squeezeout::testing::Bench bench;
  Alarms alarms;
  BenchId device_bench = kBench1;
  BuilderId builder = kAda;
  Link link = Link::live;
  std::size_t facts_waiting = 0;
  GlueUpId next;
};

TEST_F(AlarmTest, AJointAtRiskSoundsFromSixtySecondsBeforeItSkinsEveryFourSeconds) {
  const GlueUpId id = wet();
  (void)look();
  bench.set(skins(id) - Seconds{70});
  const std::vector<Played> played = run(Seconds{40});
  ASSERT_EQ(played.size(), 8U);
  for (std::size_t i = 0; i < played.size(); ++i)
    EXPECT_EQ(played[i], (Played{Sound::two_tones, Seconds{10 + 4 * static_cast<int>(i)}}));
  const Told told = look();
  ASSERT_EQ(told.alarms.size(), 1U);
  EXPECT_EQ(told.alarms[0], (Alarm{id, Reason::wet, skins(id), {}}));
  EXPECT_TRUE(ringing(told));
}

TEST_F(AlarmTest, ItGoesOnPastTheOpenTimeUntilTheClampsAreOn) {
  const GlueUpId id = wet();
  bench.set(skins(id) + Seconds{100});
  EXPECT_EQ(run(Seconds{20}).size(), 5U);
  ASSERT_TRUE(bench.press(ClampsOn{id, bench.now()}));
  EXPECT_THAT(run(Minutes{5}), IsEmpty());
  EXPECT_THAT(look().alarms, IsEmpty());
}

TEST_F(AlarmTest, AGlueThatIsOpenForLessThanTwoMinutesSoundsAtHalfOfIt) {
  Shop s = shop();
  for (AdhesiveSheet& sheet : s.sheets) sheet.open = Seconds{80};
  for (Recipe& r : s.recipes) r.assembly = Seconds{60};
  bench = squeezeout::testing::Bench{kTen, s};
  const GlueUpId id = wet();
  const Seconds open = bench.glue_up(id).demand.open_limit;
  ASSERT_LT(open, Minutes{2});
  ASSERT_GT(open, Seconds{40});
  const std::vector<Played> played = run(open);
  ASSERT_FALSE(played.empty());
  EXPECT_EQ(played.front().after, open - open / 2);
}

TEST_F(AlarmTest, NothingElseSounds) {
  (void)look();
  const GlueUpId id = bench.reserve(kBridge, kAda);
  EXPECT_THAT(run(Minutes{5}), IsEmpty()) << "reserved, and to be started";
  ASSERT_TRUE(bench.press(Start{id}));
  bench.wait(Minutes{3});
  ASSERT_TRUE(bench.press(ClampsOn{id, bench.now()}));
  EXPECT_THAT(run(bench.glue_up(id).times.release_end + Minutes{30} - bench.now()), IsEmpty())
      << "clamps are due, and nobody wants them";
}

TEST_F(AlarmTest, OnlyTheOwnBenchSounds) {
  const GlueUpId ben = wet(kBen);
  bench.set(skins(ben));
  ASSERT_EQ(bench.glue_up(ben).bench, kBench2);
  EXPECT_THAT(run(Seconds{10}), IsEmpty());
  builder = kBen;  // who stands at bench 1 now: his joint lies at bench 2, and sounds there
  EXPECT_THAT(run(Seconds{10}), IsEmpty());
  device_bench = kBench2;
  EXPECT_THAT(run(Seconds{10}), ::testing::SizeIs(3));
  device_bench = {};
  EXPECT_THAT(run(Seconds{8}), ::testing::SizeIs(2)) << "a device of no bench: its builder's";
}

TEST_F(AlarmTest, TwoJointsAtRiskAreOneSound) {
  const GlueUpId a = wet(kAda, kBinding);
  bench.wait(Seconds{3});
  Floor both = bench.floor();
  GlueUp b = both.glue_ups.at(a);
  b.id = GlueUpId{99};
  both.glue_ups.emplace(b.id, b);
  int sounds = 0;
  for (Instant now = skins(a) - Seconds{30}; now < skins(a); now += Seconds{1}) {
    const Told told = alarms.look({both, now, device_bench, builder});
    sounds += told.sound == Sound::two_tones ? 1 : 0;
    EXPECT_EQ(told.alarms.size(), 2U);
  }
  EXPECT_EQ(sounds, 8) << "30 s, one every 4 s";
}

TEST_F(AlarmTest, QuietEndsTheSoundAndNotTheReason) {
  const GlueUpId id = wet();
  bench.set(skins(id) - Seconds{50});
  EXPECT_EQ(look().sound, Sound::two_tones);
  alarms.quiet();
  EXPECT_THAT(run(Minutes{3}), IsEmpty());
  EXPECT_THAT(look().alarms, IsEmpty());
  EXPECT_EQ(reasons(heard()).size(), 1U);
}

TEST_F(AlarmTest, QuietIsForWhatSoundsNow) {
  const GlueUpId first = wet();
  bench.set(skins(first));
  (void)look();
  alarms.quiet();
  ASSERT_TRUE(bench.press(Undo{first}));
  (void)look();
  ASSERT_TRUE(bench.press(Start{first, Override::knowingly}));
  bench.set(skins(first) - Seconds{60});
  EXPECT_EQ(look().sound, Sound::two_tones) << "spread again: a new reason";
}

TEST_F(AlarmTest, APressEndsItAtOnceAlsoWhileItIsStillToBeSent) {
  const GlueUpId id = wet();
  bench.set(skins(id) - Seconds{50});
  EXPECT_EQ(look().sound, Sound::two_tones);
  link = Link::not_live;
  facts_waiting = 1;
  alarms.press(ClampsOn{id, bench.now()}, bench.now());
  EXPECT_THAT(run(Minutes{30}), IsEmpty());
  EXPECT_THAT(look().alarms, IsEmpty());
}

TEST_F(AlarmTest, APressThatTheFloorNeverTookLetsItBeginAnew) {
  const GlueUpId id = wet();
  bench.set(skins(id) - Seconds{50});
  (void)look();
  alarms.press(ClampsOn{id, bench.now()}, bench.now());
  const std::vector<Played> played = run(Seconds{20});
  ASSERT_FALSE(played.empty());
  EXPECT_EQ(played.front().after, kPressHolds);
}

TEST_F(AlarmTest, APressOnAnotherGlueUpEndsNothing) {
  const GlueUpId id = wet();
  bench.set(skins(id) - Seconds{50});
  (void)look();
  alarms.press(ClampsOn{GlueUpId{77}, bench.now()}, bench.now());
  alarms.press(Late{id, Minutes{10}}, bench.now());
  bench.wait(kTwoTonesEvery);
  EXPECT_EQ(look().sound, Sound::two_tones);
}

TEST_F(AlarmTest, OwnJointsSoundWhileNobodyIsHeard) {
  const GlueUpId id = wet();
  (void)look();
  link = Link::not_live;
  bench.set(skins(id) - Seconds{60});
  EXPECT_EQ(run(Seconds{8}).size(), 2U);
}

TEST_F(AlarmTest, AFormThatWasHotForLongEnoughSoundsUntilPressed) {
  const GlueUpId id = clamped(kAda, kBend);
  const Instant limit = bench.glue_up(id).times.clamped_begin + Minutes{15};
  (void)look();
  bench.set(limit - Seconds{5});
  const std::vector<Played> played = run(Seconds{15});
  ASSERT_EQ(played.size(), 3U);
  EXPECT_EQ(played.front(), (Played{Sound::two_tones, Seconds{5}}));
  ASSERT_EQ(look().alarms.size(), 1U);
  EXPECT_EQ(look().alarms[0], (Alarm{id, Reason::form, limit, {}}));
  alarms.quiet();
  EXPECT_THAT(run(Minutes{40}), IsEmpty());
}

TEST_F(AlarmTest, ClampsThatAreWantedChimeOnceAndAfterFiveAndTenMinutes) {
  const GlueUpId a = clamps_that_are_wanted();
  (void)look();
  const Instant due = bench.glue_up(a).times.release_begin;
  bench.set(due - Minutes{1});
  // The floor is left alone: nobody ticks it, so that the one who waits keeps his place.
  const std::vector<Played> played = run(Minutes{31});
  EXPECT_THAT(played,
              ElementsAre(Played{Sound::chime, Seconds{60}}, Played{Sound::chime, Seconds{360}},
                          Played{Sound::chime, Seconds{660}}));
  ASSERT_FALSE(look().alarms.empty()) << "the line stays";
  EXPECT_EQ(look().alarms[0], (Alarm{a, Reason::clamps, due, next}));
  EXPECT_FALSE(ringing(look()));
}

TEST_F(AlarmTest, WhoLostHisPlaceToTheClampsWaitsForThem) {
  const GlueUpId a = clamps_that_are_wanted();
  (void)look();
  bench.set(bench.glue_up(a).times.release_end + Minutes{1});
  bench.tick();
  ASSERT_EQ(bench.glue_up(next).progress, Progress::displaced);
  const Told told = look();
  EXPECT_EQ(told.sound, Sound::chime);
  ASSERT_EQ(told.alarms.size(), 1U);
  EXPECT_EQ(told.alarms[0].wanted_by, next);
}

TEST_F(AlarmTest, WhoWantsOtherGearOrLaterWaitsForNothing) {
  const GlueUpId a = clamped();
  (void)bench.reserve(kBend, kBen, bench.glue_up(a).times.release_end);
  (void)bench.reserve(kBridge, kBen, bench.glue_up(a).times.release_end + Minutes{40});
  bench.set(bench.glue_up(a).times.release_begin);
  EXPECT_THAT(reasons(heard()), IsEmpty());
}

TEST_F(AlarmTest, ClampsOffEndsTheChimes) {
  const GlueUpId a = clamps_that_are_wanted();
  (void)look();
  bench.set(bench.glue_up(a).times.release_begin);
  EXPECT_EQ(look().sound, Sound::chime);
  alarms.press(ClampsOff{a, bench.now()}, bench.now());
  ASSERT_TRUE(bench.press(ClampsOff{a, bench.now()}));
  EXPECT_THAT(run(Minutes{12}), IsEmpty());
}

TEST_F(AlarmTest, WhileNobodyIsHeardNobodyIsKnownToWaitAndAfterwardsNoChimeIsMadeUpFor) {
  const GlueUpId a = clamps_that_are_wanted();
  (void)look();
  bench.set(bench.glue_up(a).times.release_begin);
  EXPECT_EQ(look().sound, Sound::chime);
  link = Link::not_live;
  EXPECT_THAT(run(Minutes{6}), IsEmpty());
  EXPECT_THAT(look().alarms, IsEmpty());
  link = Link::live;
  const std::vector<Played> played = run(Minutes{7});
  EXPECT_THAT(played,
              ElementsAre(Played{Sound::chime, Seconds{0}}, Played{Sound::chime, Minutes{4}}))
      << "the one of +5 min once, that of +10 at its time";
}

TEST_F(AlarmTest, AClientThatIsStartedAgainReplaysNoChime) {
  const GlueUpId a = clamps_that_are_wanted();
  bench.set(bench.glue_up(a).times.release_begin + Minutes{6});
  EXPECT_THAT(run(Minutes{20}), ElementsAre(Played{Sound::chime, Minutes{4}}))
      << "that of +10 only";
}

TEST_F(AlarmTest, AClientThatIsStartedAgainTellsAJointAtRisk) {
  const GlueUpId id = wet();
  bench.set(skins(id) - Seconds{20});
  EXPECT_EQ(look().sound, Sound::two_tones);
}

TEST_F(AlarmTest, ChimesWithinAMinuteAreOne) {
  const GlueUpId a = clamps_that_are_wanted();
  Floor two = bench.floor();
  GlueUp b = two.glue_ups.at(a);
  b.id = GlueUpId{99};
  b.times.release_begin += Seconds{30};
  two.glue_ups.emplace(b.id, b);
  std::vector<Seconds> chimes;
  const Instant due = bench.glue_up(a).times.release_begin;
  (void)alarms.look({two, due - Minutes{5}, device_bench, builder});
  for (Instant now = due; now < due + Minutes{14}; now += Seconds{1})
    if (alarms.look({two, now, device_bench, builder}).sound == Sound::chime)
      chimes.push_back(now - due);
  EXPECT_THAT(chimes, ElementsAre(Seconds{0}, Minutes{5}, Minutes{10}));
}

TEST_F(AlarmTest, MoreThanTenInTenMinutesAreOneLineAndNoChimes) {
  const GlueUpId a = clamps_that_are_wanted();
  Floor many = bench.floor();
  const Instant due = bench.glue_up(a).times.release_begin;
  for (std::uint32_t i = 0; i < 11; ++i) {
    GlueUp b = many.glue_ups.at(a);
    b.id = GlueUpId{100 + i};
    b.times.release_begin = due + Seconds{61 * static_cast<int>(i)} / 2;
    many.glue_ups.emplace(b.id, b);
  }
  (void)alarms.look({many, due - Minutes{1}, device_bench, builder});
  Told last;
  std::vector<Seconds> after_the_tenth;
  for (Instant now = due; now < due + Seconds{61 * 5 + 30}; now += Seconds{1}) {
    last = alarms.look({many, now, device_bench, builder});
    if (last.sound != Sound::none && last.lately > kMost) after_the_tenth.push_back(now - due);
  }
  EXPECT_TRUE(too_many(last));
  EXPECT_EQ(last.lately, 12);
  EXPECT_THAT(after_the_tenth, IsEmpty());
  const Line line = line_of({many, due + Minutes{6}}, last);
  EXPECT_EQ(line.what, "12 alarms within 10 min.");
}

TEST_F(AlarmTest, AClockThatWasSetBackDoesNotSilenceAJoint) {
  const GlueUpId id = wet();
  bench.set(skins(id) + Minutes{20});
  EXPECT_EQ(look().sound, Sound::two_tones);
  const Told told = alarms.look({bench.floor(), skins(id), device_bench, builder});
  EXPECT_EQ(told.sound, Sound::two_tones);
}

TEST_F(AlarmTest, APressBeforeTheClockWasSetBackHoldsNoLongerThanAnother) {
  const GlueUpId id = wet();
  bench.set(skins(id) + Minutes{20});
  (void)look();
  alarms.press(ClampsOn{id, bench.now()}, bench.now());
  EXPECT_EQ(look().sound, Sound::none);
  const auto at_limit = [&](Seconds after) {
    return alarms.look({bench.floor(), skins(id) + after, device_bench, builder}).sound;
  };
  EXPECT_EQ(at_limit(Seconds{0}), Sound::none);
  EXPECT_EQ(at_limit(kPressHolds - Seconds{1}), Sound::none);
  EXPECT_EQ(at_limit(kPressHolds), Sound::two_tones);
}

TEST_F(AlarmTest, WhatBeganBeforeTheClockWasSetBackIsForgottenAfterTenMinutes) {
  const GlueUpId id = wet();
  bench.set(skins(id) + Minutes{20});
  EXPECT_EQ(look().lately, 1);
  const auto lately = [&](Seconds after) {
    return alarms.look({bench.floor(), skins(id) + after, device_bench, builder}).lately;
  };
  EXPECT_EQ(lately(Seconds{0}), 1);
  EXPECT_EQ(lately(kLately + Seconds{1}), 0);
}

TEST_F(AlarmTest, BeforeAFloorIsKnownNothingSounds) {
  EXPECT_EQ(alarms.look({Floor{}, kTen, device_bench, builder}), Told{});
  const GlueUpId id = wet();
  bench.set(skins(id));
  link = Link::connecting;
  EXPECT_EQ(look(), Told{});
}

// --- words ---

TEST_F(AlarmTest, TheLineSaysWhatAndWhatToDo) {
  const GlueUpId id = wet();
  bench.set(skins(id) - Seconds{48});
  const Line before = line_of({bench.floor(), bench.now()}, look());
  EXPECT_THAT(before.what, HasSubstr("48 s left"));
  EXPECT_THAT(before.what, HasSubstr("bridge"));
  EXPECT_EQ(before.next, "Put the clamps on now.");
  bench.set(skins(id) + Seconds{5});
  const Line past = line_of({bench.floor(), bench.now()}, look());
  EXPECT_THAT(past.what, HasSubstr("clamps were due on by"));
  EXPECT_THAT(past.next, HasSubstr("Skinned"));
}

TEST_F(AlarmTest, AHotFormSaysHeatGlovesAndBurns) {
  const GlueUpId id = clamped(kAda, kBend);
  bench.set(bench.glue_up(id).times.clamped_begin + Minutes{15});
  const Line line = line_of({bench.floor(), bench.now()}, look());
  EXPECT_THAT(line.next, HasSubstr("Heat off"));
  EXPECT_THAT(line.next, HasSubstr("let it cool"));
  EXPECT_THAT(line.next, HasSubstr("gloves"));
  EXPECT_THAT(line.next, HasSubstr("48"));
}

TEST_F(AlarmTest, ClampsThatAreWantedNameWhoWaits) {
  const GlueUpId a = clamps_that_are_wanted();
  bench.set(bench.glue_up(a).times.release_begin);
  const Line line = line_of({bench.floor(), bench.now()}, look());
  EXPECT_THAT(line.what, HasSubstr("can come off since"));
  EXPECT_THAT(line.next, HasSubstr(words::builder({bench.floor(), bench.now()}, kBen)));
}

TEST_F(AlarmTest, EverySentenceIsKeyed) {
  const GlueUpId id = wet();
  bench.set(skins(id));
  words::speak(words::Language::pseudo);
  const Line line = line_of({bench.floor(), bench.now()}, look());
  words::speak(words::Language::english);
  EXPECT_THAT(line.what, ::testing::Not(HasSubstr("clamps")));
  EXPECT_THAT(line.next, ::testing::Not(HasSubstr("clamps")));
}

}  // namespace
}  // namespace squeezeout::alarm
