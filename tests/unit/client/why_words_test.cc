// Why not earlier, other ways and the chain, in words.

#include "client/words/say.h"
#include "client/words/why.h"
#include "tests/unit/client/words_fixture.h"

namespace squeezeout::words {
namespace {

using namespace std::chrono_literals;
using namespace squeezeout::testing;
using ::testing::ElementsAre;

struct WhyWords : Words {
  GlueUpId ida = played.reserve(kBridge, kIda);
  const Instant then = at("2026-11-26T14:10:00Z");
  HeldGear held(int count, Instant end) const {
    return {{{kDeep, count}}, {Holder::of(ida), count, {played.now, end}}};
  }
  std::string told(std::vector<Blocker> blockers) const {
    return not_before(here(), {played.now, then, std::move(blockers)});
  }
};

TEST_F(WhyWords, OneHolder) {
  EXPECT_EQ(told({held(4, then)}),
            "Not before 14:10: Ida has 4 of the 6 deep clamps until then (bridge).");
  HeldGear deck = held(1, then);
  deck.pieces = {{kDeep, 2}, {kDeck, 1}};
  EXPECT_EQ(told({deck}),
            "Not before 14:10: Ida has 2 of the 6 deep clamps and go-bar deck A until then "
            "(bridge).");
  HeldGear later = held(4, then);
  later.held.span.begin = at("2026-11-26T10:00:00Z");
  EXPECT_EQ(told({later}),
            "Not before 14:10: Ida has 4 of the 6 deep clamps from 10:00 until then (bridge).");
}

TEST_F(WhyWords, WhatIsSaidIsKeyedWhole) {
  const BuilderBusy busy{kIda, ida, then};
  speak(Language::pseudo);
  const std::string text = told({busy, ClosedHours{{played.now, then}, {}}});
  speak(Language::english);
  const std::string clause = pseudo("{} is busy until then"), closed = pseudo("closed until then");
  EXPECT_THAT(text, ::testing::HasSubstr(clause.substr(clause.find('}') + 1)));
  EXPECT_THAT(text, ::testing::HasSubstr(closed));
}

TEST_F(WhyWords, NoneAndForGood) {
  EXPECT_EQ(told({}), "Nothing holds it back: 14:10 can be had.");
  OwnsTooFew few{need_of(GearClass::clamp, 9), 9, 6};
  EXPECT_EQ(not_before(here(), {played.now, {}, {few}}),
            "Not within 60 d: it takes 9 clamps, the shop owns 6 that would do.");
  few.owned = 0;
  EXPECT_EQ(not_before(here(), {played.now, {}, {few}}),
            "Not within 60 d: the shop has nothing that would do for 9 clamps.");
  EXPECT_EQ(not_before(here(), {played.now, {}, {ClosedHours{{then, then + 14h}, {}}}}),
            "Not at all: no opening is long enough for it.");
  ASSERT_FALSE(played.press(GearBroken{kDeep, 2, "jaw bent"}));
  EXPECT_EQ(
      blocker(here(), HeldGear{{{kDeep, 2}}, {Holder::of(OutageId{1}), 2, {played.now, kNever}}}),
      "2 of the 6 deep clamps are out of use (jaw bent)");
}

TEST_F(WhyWords, SeveralAreJoinedAndNightsToldOnce) {
  const Instant noon = at("2026-11-26T12:00:00Z");
  EXPECT_EQ(told({ClosedHours{{noon, then}, {}}, BuilderBusy{kIda, ida, noon}}),
            "Not before 14:10: closed until then; Ida is busy until 12:00 (bridge).");
  EXPECT_EQ(told({ClosedHours{{noon, then}, kOla}}),
            "Not before 14:10: Ola Nord is not in until then.");
  const ClosedHours night{{noon, noon + 1h}, {}};
  EXPECT_EQ(told({held(4, then), night, night, night}),
            "Not before 14:10: Ida has 4 of the 6 deep clamps until then (bridge); closed until "
            "13:00; closed 2 times before.");
  const BuilderBusy busy{kIda, ida, noon};
  EXPECT_EQ(told({busy, busy, busy, busy, busy}),
            "Not before 14:10: Ida is busy until 12:00 (bridge); Ida is busy until 12:00 (bridge); "
            "Ida is busy until 12:00 (bridge); and 2 more.");
}

TEST_F(WhyWords, FactsOfStepAndHour) {
  const GlueUpId braces = played.reserve(kBraces, kIda, BuildId{1}, 0);
  EXPECT_EQ(told({NotReadyYet{braces, then}}),
            "Not before 14:10: No. 14 · top braces is not ready until then.");
  EXPECT_EQ(
      told({TooCold{kHide, {9.44}, {10}, played.now, then}}),
      "Not before 14:10: too cold for hide glue until then (the wood at 9.4 °C, it wants 10 °C).");
  EXPECT_EQ(told({SkinsFirst{kHide, 4min, 2min, {30}}}),
            "Not before 14:10: at 30 °C hide glue stays open 2 min, you take 4 min.");
  EXPECT_EQ(told({BesideHeat{ida, then}}),
            "Not before 14:10: no hot form beside solvent: Ida leaves vapour until then "
            "(bridge).");
}

TEST_F(WhyWords, BenchAndPot) {
  EXPECT_EQ(
      told({BenchBusy{BenchId{1}, ida, then}}),
      "Not before 14:10: bench 1 is for one at a time, and Ida is on it until then (bridge).");
  EXPECT_EQ(not_before(here(), {played.now, {}, {PotGels{PotId{1}, kHide, then}}}),
            "Not with this pot: the pot of hide glue sets at 14:10.");
}

TEST_F(WhyWords, OtherWays) {
  const Instant ready = at("2026-11-27T09:30:00Z");
  EXPECT_EQ(alternative(here(), {OtherGlue{kYellow}, then, ready}),
            "With aliphatic resin: 14:10, ready Fri 9:30.");
  EXPECT_EQ(alternative(here(), {FewerPieces{need_of(GearClass::clamp, 4), 6}, then, ready}),
            "With 4 clamps instead of 6: 14:10.");
  EXPECT_EQ(alternative(here(), {AskHolder{ida, played.now, then + 1h}, then, ready}),
            "With Ida's bridge moved 9:00 -> 15:10: 14:10.");
}

TEST_F(WhyWords, TheChainGoesBack) {
  const GlueUpId ola = played.reserve(kBridge, kOla);
  const auto lines = chain(here(), critical_chain(played.floor, ola, played.now));
  const std::string start = clock(here(), glue_up(ola).times.stage_begin);
  EXPECT_THAT(lines,
              ElementsAre(start + " Ola Nord's bridge: Ida has 4 of the 6 deep clamps until then "
                                  "(bridge).",
                          "9:00 Ida's bridge: as it was wanted."));
}

TEST_F(WhyWords, AStartThatWasChosenIsNotCalledWanted) {
  EXPECT_THAT(chain(here(), {{ida, {}}}), ElementsAre("9:00 Ida's bridge: as it was wanted."));
  ASSERT_FALSE(played.press(Move{ida, at("2026-11-26T11:00:00Z")}).has_value());
  EXPECT_THAT(chain(here(), {{ida, {}}}),
              ElementsAre("11:00 Ida's bridge: a start that was chosen."));
}

}  // namespace
}  // namespace squeezeout::words
