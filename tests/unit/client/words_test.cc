// Sentences. Each alternative of a fact, snag and phase is said here as a builder reads it.

#include <set>

#include "tests/unit/client/words_fixture.h"

namespace squeezeout::words {
namespace {

using namespace squeezeout::testing;
using namespace std::chrono_literals;
using ::testing::HasSubstr;

TEST_F(Words, NamesAreSmallInsideASentence) {
  EXPECT_EQ(small("Deep clamp"), "deep clamp");
  EXPECT_EQ(small("Go-bar deck A"), "go-bar deck A");
  EXPECT_EQ(small("PVA glue"), "PVA glue");
  EXPECT_EQ(small("No. 14"), "No. 14");
  EXPECT_EQ(small("A"), "A");
  EXPECT_EQ(small(""), "");
}

TEST_F(Words, PluralsAreOfTheThingItself) {
  EXPECT_EQ(plural("deep clamp"), "deep clamps");
  EXPECT_EQ(plural("radius dish 15 ft"), "radius dishes 15 ft");
  EXPECT_EQ(plural("bar clamp, 600 mm"), "bar clamps, 600 mm");
  EXPECT_EQ(plural("caul with cork"), "cauls with cork");
  EXPECT_EQ(plural("clamp (long)"), "clamps (long)");
  EXPECT_EQ(plural("box"), "boxes");
  EXPECT_EQ(plural("assembly"), "assemblies");
  EXPECT_EQ(plural("tray"), "trays");
}

TEST_F(Words, OneHasNoPlural) {
  EXPECT_EQ(number(1, "Deep clamp"), "1 deep clamp");
  EXPECT_EQ(number(10, "Deep clamp"), "10 deep clamps");
  EXPECT_EQ(number(0, "Deep clamp"), "0 deep clamps");
}

TEST_F(Words, GearCountsCountedKindsAndNamesTaggedOnes) {
  EXPECT_EQ(gear(here(), {{kDeep, 4}, {kDeck, 1}}), "4 deep clamps, go-bar deck A");
  EXPECT_EQ(gear(here(), {}), "no gear");
  EXPECT_EQ(gear(here(), {{GearKindId{99}, 1}}), "1 piece of gear no longer listed");
}

TEST_F(Words, PeopleAndThings) {
  const Context c = here();
  EXPECT_EQ(builder(c, kIda), "Ida");
  EXPECT_EQ(builder(c, {}), "nobody");
  EXPECT_EQ(initials(c, kIda), "I.");
  EXPECT_EQ(initials(c, kOla), "O.N.");
  EXPECT_EQ(initials(c, {}), "-");
  EXPECT_EQ(bench(c, BenchId{2}), "Bench 2");
  EXPECT_EQ(bench(c, {}), "no bench");
  EXPECT_EQ(recipe(c, kBraces), "top braces");
}

TEST_F(Words, ATitleSaysBuildAndRecipe) {
  const GlueUpId of_build = played.reserve(kBraces, kIda, BuildId{1}, 0);
  const GlueUpId alone = played.reserve(kBridge, kOla);
  EXPECT_EQ(title(here(), glue_up(of_build)), "No. 14 · top braces");
  EXPECT_EQ(title(here(), glue_up(alone)), "Bridge");
  EXPECT_EQ(glue(here(), glue_up(alone)), "aliphatic resin");
  GlueUp dry = glue_up(alone);
  dry.sheet = {};
  EXPECT_EQ(glue(here(), dry), "no glue");
}

TEST_F(Words, ANeedSaysWhatItAsks) {
  GearNeed n = need_of(GearClass::clamp, 12);
  EXPECT_EQ(need(here(), n), "12 clamps");
  n.opening = {100};
  n.throat = {60};
  n.force = {200};
  n.style = "cam";
  EXPECT_EQ(need(here(), n), "12 cam clamps, at least 100 mm opening, 60 mm throat, 200 N each");
  GearNeed form = need_of(GearClass::form, 1);
  form.outline = "parlour";
  EXPECT_EQ(need(here(), form), "1 form for the parlour outline");
  GearNeed straps = need_of(GearClass::other, 4);
  straps.style = "strap";
  EXPECT_EQ(need(here(), straps), "4 straps");
}

// ---- phases: a glue-up from reserved to done ----

TEST_F(Words, EachPhaseOfALife) {
  const GlueUpId g = played.reserve(kBridge, kIda);
  played.now -= 1min;
  EXPECT_EQ(phase_of(g), "starts 9:00");
  played.now += 1min;
  EXPECT_EQ(phase_of(g), "lay out the gear, start by 9:10");
  played.now += 11min;
  EXPECT_EQ(phase_of(g), "to be started, since 9:10");
  ASSERT_FALSE(played.press(Start{g}));
  EXPECT_EQ(phase_of(g), "glue wet, clamps on by 9:16");
  played.now += 6min;
  EXPECT_EQ(phase_of(g), "glue wet, clamps should have been on by 9:16");
  ASSERT_FALSE(played.press(ClampsOn{g, played.now - 2min}));
  EXPECT_EQ(phase_of(g), "off 9:55");
  played.now = at("2026-11-26T09:56:00Z");
  EXPECT_EQ(phase_of(g), "clamps can come off since 9:55");
  ASSERT_FALSE(played.press(ClampsOff{g, played.now}));
  EXPECT_EQ(phase_of(g), "wait till 12:15");
  played.now = at("2026-11-26T12:15:00Z");
  EXPECT_EQ(phase_of(g), "ready: string up");
  ASSERT_FALSE(played.press(Scraped{g, played.now}));
  EXPECT_EQ(phase_of(g), "done 12:15");
}

TEST_F(Words, PhasesOffTheStraightWay) {
  const GlueUpId cancelled = played.reserve(kBridge, kIda);
  ASSERT_FALSE(played.press(Cancel{cancelled}));
  EXPECT_EQ(phase_of(cancelled), "cancelled 9:00");

  const GlueUpId spoiled = played.reserve(kBridge, kIda);
  played.now += 10min;
  ASSERT_FALSE(played.press(Start{spoiled}));
  ASSERT_FALSE(played.press(Spoiled{spoiled, played.now, "slipped"}));
  EXPECT_EQ(phase_of(spoiled), "spoiled 9:10");

  const GlueUpId idle = played.reserve(kBridge, kIda);
  const Instant start = glue_up(idle).times.open_begin;
  played.now = start + kStartGrace + 1min;
  (void)played.press(Tick{});
  EXPECT_EQ(phase_of(idle), "needs a new time: lost its place: not started by " +
                                clock(here(), start + kStartGrace));
}

TEST_F(Words, OverTimeSaysByHowMuch) {
  const GlueUpId g = played.reserve(kBridge, kIda);
  played.now += 10min;
  ASSERT_FALSE(played.press(Start{g}));
  ASSERT_FALSE(played.press(ClampsOn{g, played.now}));
  const Instant off = off_from(glue_up(g));
  EXPECT_EQ(phase_of(g), "off " + clock(here(), off));
  played.now = off + 12min;
  (void)played.press(Tick{});
  ASSERT_TRUE(over_time(glue_up(g), played.now));
  EXPECT_EQ(phase_of(g), "12 min over, off was " + clock(here(), off));
}

TEST_F(Words, WorkWithoutGlueHasNoOpenTime) {
  const GlueUpId id = played.reserve(kBridge, kIda);
  GlueUp g = glue_up(id);
  g.progress = Progress::open;
  g.demand.open_limit = {};
  EXPECT_EQ(phase(here(), g), "under way since 9:10");
}

TEST_F(Words, EachSnag) {
  const GlueUpId other = played.reserve(kBridge, kOla);
  GlueUp g = glue_up(played.reserve(kBridge, kIda));
  g.progress = Progress::displaced;
  g.snag_by = other;
  std::set<std::string> said;
  for (int i = 1; i < kSnags; ++i) {
    g.snag = static_cast<Snag>(i);
    EXPECT_THAT(snag(here(), g), ::testing::StartsWith("lost its place: ")) << i;
    said.insert(snag(here(), g));
  }
  EXPECT_EQ(said.size(), static_cast<std::size_t>(kSnags - 1)) << "no two alike";
  g.snag = Snag::none;
  EXPECT_EQ(snag(here(), g), "");
  g.snag = Snag::other_overran;
  EXPECT_EQ(snag(here(), g), "lost its place: Bridge (Ola Nord) ran over");
  g.snag = Snag::gear_broken;
  EXPECT_EQ(snag(here(), g), "lost its place: gear broke");
  ASSERT_FALSE(played.press(GearBroken{kDeep, 2, "screw bent"}));
  EXPECT_EQ(snag(here(), g), "lost its place: 2 deep clamps broke");
}

TEST_F(Words, EachProgressHasItsWord) {
  std::set<std::string_view> said;
  for (int i = 0; i < kProgresses; ++i) said.insert(progress_word(static_cast<Progress>(i)));
  EXPECT_EQ(said.size(), static_cast<std::size_t>(kProgresses));
  EXPECT_EQ(progress_word(Progress::waiting), "waiting");
}

// ---- why not ----

TEST_F(Words, HoldersAreNamed) {
  const GlueUpId g = played.reserve(kBridge, kIda);
  const Context c = here();
  EXPECT_EQ(holder(c, {Holder::of(g), 4, {c.now - 1h, at("2026-11-26T15:40:00Z")}}),
            "Ida has 4 till 15:40 (bridge)");
  EXPECT_EQ(holder(c, {Holder::of(g), 4, {c.now + 1h, at("2026-11-26T15:40:00Z")}}),
            "Ida has 4 from 10:00 till 15:40 (bridge)");
  ASSERT_FALSE(played.press(GearBroken{kDeep, 1, "jaw bent"}));
  EXPECT_EQ(holder(c, {Holder::of(OutageId{1}), 1, {c.now, c.now + kMaxClaim}}),
            "1 out of use (jaw bent)");
  EXPECT_EQ(holder(c, {Holder::of(OutageId{9}), 2, {c.now, kNever}}), "2 out of use");
}

TEST_F(Words, GearThatIsShort) {
  const GlueUpId g = played.reserve(kBridge, kIda);
  const HeldBy ida{Holder::of(g), 4, {played.now, at("2026-11-26T15:40:00Z")}};
  GearShort s;
  s.need = need_of(GearClass::clamp, 4);
  s.kinds = {kDeep};
  s.wanted = 4;
  s.free = 2;
  s.owned = 6;
  s.holders = {ida};
  EXPECT_EQ(fact(here(), s), "Deep clamps: 4 wanted, 2 of 6 free; Ida has 4 till 15:40 (bridge).");
  s.holders = {ida, ida, ida, ida};
  EXPECT_THAT(fact(here(), s), HasSubstr(", +2 more."));
  s.owned = 3;
  EXPECT_EQ(fact(here(), s), "Deep clamps: 4 wanted, the shop owns 3.");
  s.kinds = {};
  EXPECT_EQ(fact(here(), s), "The shop has nothing that would do for 4 clamps.");
  s = {};
  s.kinds = {kDeck};
  s.wanted = s.owned = 1;
  s.holders = {ida};
  EXPECT_THAT(fact(here(), s), HasSubstr("Go-bar deck A: 1 wanted, 0 of 1 free; Ida has"));
}

TEST_F(Words, OtherFacts) {
  const GlueUpId g = played.reserve(kBraces, kIda, BuildId{1}, 0);
  const Context c = here();
  EXPECT_EQ(fact(c, ShopClosed{at("2026-11-27T08:00:00Z")}), "Closed till Fri 8:00.");
  EXPECT_EQ(fact(c, BuilderBusy{kIda, g, at("2026-11-26T15:40:00Z")}),
            "Ida is busy till 15:40 (top braces).");
  EXPECT_EQ(fact(c, NotReadyYet{g, at("2026-11-27T09:30:00Z")}),
            "Waits for No. 14 · top braces, ready Fri 9:30.");
}

TEST_F(Words, FactsOfTheHour) {
  GlueUpId g = played.reserve(kBraces, kIda);
  const Context c = here();
  EXPECT_EQ(
      fact(c, TooCold{kHide, {9.44}, {10}, at("2026-11-26T23:10:00Z"), at("2026-11-27T08:00:00Z")}),
      "Too cold from 23:10: the wood would be at 9.4 °C, hide glue wants 10 °C. Fri 8:00 at "
      "the earliest.");
  EXPECT_EQ(fact(c, TooCold{kHide, {-0.04}, {10}, c.now, {}}),
            "Too cold: the wood is at -0.1 °C, hide glue wants 10 °C. No warmer time is in sight.");
  EXPECT_EQ(fact(c, SkinsFirst{kHide, 4min, 2min, {30}}),
            "At 30 °C hide glue stays open 2 min, you take 4 min.");
  EXPECT_EQ(fact(c, SkinsFirst{kHide, 4min, 3min + 50s, {30}}),
            "At 30 °C hide glue stays open 3 m 50 s, you take 4 min.")
      << "what is less is not rounded to the same";
  EXPECT_EQ(fact(c, BesideHeat{g, at("2026-11-26T15:40:00Z")}),
            "A hot form never beside solvent: vapour is in the air till 15:40 (Top braces).");
  for (Recipe& r : played.floor.shop->recipes) r.heat = Heat{};
  EXPECT_EQ(fact(c, BesideHeat{g, at("2026-11-26T15:40:00Z")}),
            "Solvent never beside a hot form: the form is in use till 15:40 (Top braces).");
}

TEST_F(Words, WhyMergesAndEnds) {
  const GlueUpId a = played.reserve(kBridge, kIda);
  GearShort early;
  early.kinds = {kDeep};
  early.wanted = 4;
  early.free = 2;
  early.owned = 6;
  early.holders = {{Holder::of(a), 4, {played.now, played.now + 1h}}};
  GearShort late = early;
  late.free = 0;
  const Span any{played.now, played.now + 1h};
  EXPECT_EQ(why(here(), {{any, early}, {any, ShopClosed{played.now + 1h}}, {any, late}}),
            (std::vector<std::string>{
                "Deep clamps: 4 wanted, 0 of 6 free; Ida has 4 till 10:00 (bridge).",
                "Closed till 10:00."}));
  std::vector<Hindrance> many;
  for (int i = 1; i <= 9; ++i)
    many.push_back({any, ShopClosed{played.now + std::chrono::hours{i}}});
  const auto lines = why(here(), many);
  ASSERT_EQ(lines.size(), 6U);
  EXPECT_EQ(lines.back(), "And 4 more of the kind.");
}

}  // namespace
}  // namespace squeezeout::words
