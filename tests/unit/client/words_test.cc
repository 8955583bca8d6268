// Sentences. Each alternative of a refusal, fact, snag, phase and command is said here as a builder reads it.

#include "client/words/words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "tests/unit/client/small_shop.h"

namespace squeezeout::words {
namespace {

using namespace squeezeout::testing;
using namespace std::chrono_literals;
using ::testing::HasSubstr;

struct Words : ::testing::Test {
  PlayedFloor played;
  Context here() const { return {played.floor, played.now}; }
  const GlueUp& glue_up(GlueUpId id) const { return *played.floor.glue_up(id); }
  std::string phase_of(GlueUpId id) const { return phase(here(), glue_up(id)); }
  Told told(const Body& asked, const Refusal& r) const { return refusal(here(), asked, r); }
};

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
  EXPECT_EQ(need(n), "12 clamps");
  n.opening = {100};
  n.throat = {60};
  n.force = {200};
  n.style = "cam";
  EXPECT_EQ(need(n), "12 cam clamps, at least 100 mm opening, 60 mm throat, 200 N each");
  GearNeed form = need_of(GearClass::form, 1);
  form.outline = "parlour";
  EXPECT_EQ(need(form), "1 form for the parlour outline");
  GearNeed straps = need_of(GearClass::other, 4);
  straps.style = "strap";
  EXPECT_EQ(need(straps), "4 straps");
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
      "Too cold from 23:10: the wood would be at 9.4 C, hide glue wants 10 C. Fri 8:00 at "
      "the earliest.");
  EXPECT_EQ(fact(c, TooCold{kHide, {-0.04}, {10}, c.now, {}}),
            "Too cold: the wood is at -0.1 C, hide glue wants 10 C. No warmer time is in sight.");
  EXPECT_EQ(fact(c, SkinsFirst{kHide, 4min, 2min, {30}}),
            "At 30 C hide glue stays open 2 min, you take 4 min.");
  EXPECT_EQ(fact(c, SkinsFirst{kHide, 4min, 3min + 50s, {30}}),
            "At 30 C hide glue stays open 3 m 50 s, you take 4 min.")
      << "what is less is not rounded to the same";
  EXPECT_EQ(fact(c, BesideHeat{g, at("2026-11-26T15:40:00Z")}),
            "A hot form never beside solvent: vapour is in the air till 15:40 (Top braces).");
  for (Recipe& r : played.floor.shop->recipes) r.heat = Heat{};
  EXPECT_EQ(fact(c, BesideHeat{g, at("2026-11-26T15:40:00Z")}),
            "Solvent never beside a hot form: the form is in use till 15:40 (Top braces).");
}

// ---- weather ----

TEST_F(Words, WhatTheWeatherDid) {
  const GlueUpId by = played.reserve(kBraces, kOla);
  GlueUp g = glue_up(played.reserve(kBridge, kIda));
  const Context c = here();
  EXPECT_EQ(weather(c, g), "") << "nothing";
  g.weather = WeatherNote{30min, 60min, {13.2}, {}, {}};
  EXPECT_EQ(weather(c, g), "dwell 30 -> 60 min: 13 C");
  EXPECT_EQ(weather_short(c, g), "dwell 30 -> 60 min");
  g.weather = WeatherNote{150min, 24h, {13.2}, {}, {}};
  EXPECT_EQ(weather(c, g), "dwell 2 h 30 -> 24 h: 13 C");

  // Another stays clamped longer, or is itself only later.
  g.weather = WeatherNote{30min, 30min, {12.6}, c.now - 30min, by};
  g.times.stage_begin = c.now;
  const std::string moved = "moved 8:30 -> 9:00";
  EXPECT_EQ(weather(c, g), moved + ": Ola Nord's top braces is later, 13 C");
  GlueUp& other = played.floor.glue_ups.at(by);
  other.weather = WeatherNote{30min, 60min, {13}, {}, {}};
  EXPECT_EQ(weather(c, g), moved + ": Ola Nord's top braces stays clamped longer, 13 C");
  EXPECT_EQ(weather_short(c, g), moved);

  // A day is said once.
  g.weather = WeatherNote{30min, 30min, {9}, c.now + 24h, {}};
  g.times.stage_begin = c.now + 25h;
  EXPECT_EQ(weather_short(c, g), "moved Fri 9:00 -> 10:00");
  g.times.stage_begin = c.now + 4 * 24h;
  EXPECT_EQ(weather_short(c, g), "moved Fri 9:00 -> Mon 9:00");
  g.times.stage_begin = c.now;

  // Its own weather: too cold for the glue, or so warm that it would skin.
  g.weather = WeatherNote{30min, 45min, {9}, c.now - 30min, {}};
  EXPECT_EQ(weather(c, g),
            moved + ", dwell 30 -> 45 min: too cold before for aliphatic resin, 9 C");
  g.weather = WeatherNote{30min, 30min, {31}, c.now - 30min, {}};
  EXPECT_EQ(weather(c, g), moved + ": aliphatic resin would skin too soon before, 31 C");
}

TEST_F(Words, ClampsThatAreOnBelowTheFloorAreWorthATest) {
  GlueUp g = glue_up(played.reserve(kBridge, kIda));
  g.weather = WeatherNote{30min, 60min, {9.96}, {}, {}};
  EXPECT_EQ(weather(here(), g), "dwell 30 -> 60 min: 10 C") << "it will be moved";
  const std::string told =
      "9.9 C, below its floor of 10 C: the film may not form, test it before you trust it";
  for (const Progress p : {Progress::open, Progress::clamped, Progress::waiting}) {
    g.progress = p;
    EXPECT_EQ(weather(here(), g), "dwell 30 -> 60 min: " + told);
  }
  g.weather->dwell = g.weather->dwell_before;  // a recipe that asks for longer anyway
  EXPECT_EQ(weather(here(), g), told);
  played.floor.shop->sheets.at(1).chemistry = Chemistry::epoxy_slow;
  EXPECT_EQ(weather(here(), g),
            "9.9 C, below its floor of 10 C: it may not set, test it before you trust it");
  g.weather->coldest = {10};
  EXPECT_EQ(weather(here(), g), "");
}

TEST_F(Words, WhatTheWeatherTookAway) {
  GlueUp g = glue_up(played.reserve(kBridge, kIda));
  g.progress = Progress::displaced;
  g.weather = WeatherNote{30min, 30min, {8.5}, {}, {}};
  g.snag = Snag::too_cold;
  EXPECT_EQ(snag(here(), g),
            "lost its place: too cold for aliphatic resin, the wood would be at 8.5 C");
  EXPECT_EQ(weather(here(), g), snag(here(), g));
  g.snag = Snag::weather;
  EXPECT_EQ(snag(here(), g),
            "lost its place: aliphatic resin would skin before the clamps are on, the wood would "
            "be at 8.5 C");
}

TEST_F(Words, DegreesAndDates) {
  EXPECT_EQ(degrees({13}), "13 C");
  EXPECT_EQ(degrees({13.04}), "13 C");
  EXPECT_EQ(degrees({-0.01}), "0 C");
  EXPECT_EQ(degrees_below({9.96}), "9.9 C");
  EXPECT_EQ(date(here(), at("2026-11-03T10:00:00Z")), "Tue 3 Nov");
  EXPECT_EQ(date(here(), at("2025-11-03T10:00:00Z")), "Mon 3 Nov 2025");
  EXPECT_EQ(exact(59s), "59 s");
  EXPECT_EQ(exact(4min), "4 min");
  EXPECT_EQ(exact(3min + 5s), "3 m 05 s");
  EXPECT_EQ(exact(12min + 20s), "12 min");
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

// ---- refusals ----

TEST_F(Words, EachRefusalSaysWhatWhyNext) {
  const GlueUpId g = played.reserve(kBraces, kIda, BuildId{1}, 0);
  ASSERT_FALSE(played.press(PutLot{{.sheet = kHide, .label = "A 12"}}));
  const Context c = here();
  const Instant t = at("2026-11-26T15:40:00Z");
  Slot next;
  next.times.stage_begin = at("2026-11-26T15:05:00Z");
  const Span any{c.now, t};
  const HeldBy ida{Holder::of(g), 1, {c.now, t}};
  struct Row {
    Body asked;
    Refusal refused;
    Told told;
  };
  const std::vector<Row> rows = {
      {Cancel{},
       NoSuch{Thing::glue_up, 7},
       {"Not cancelled.", "There is no glue-up 7 here.", "Look again: it may have been removed."}},
      {Reserve{},
       DoesNotFit{{{any, ShopClosed{t}}}, next},
       {"Not reserved.", "Closed till 15:40.", "15:05 can be had."}},
      {Start{},
       DoesNotFit{{{any, ShopClosed{t}}}, {}},
       {"Not started.", "Closed till 15:40.", "Wait for it, or start anyway."}},
      {Reserve{},
       NotPossible{BelowFloor{kHide, {13}, {22}}},
       {"Not reserved.", "13 C is too cold for hide glue: it needs 22 C.",
        "Warm the wood and the shop, or take another glue."}},
      {Reserve{},
       NotPossible{OpenTooShort{kHide, 7min, 5min}},
       {"Not reserved.", "Hide glue stays open 5 min, but the clamps usually take 7 min.",
        "Slower glue, a helper, a dry run."}},
      {Reserve{.recipe = kBridge,
               .build = {},
               .step = 0,
               .builder = {},
               .bench = {},
               .sheet = {},
               .after = {},
               .start = {}},
       NotPossible{GlueNotInRecipe{SheetId{9}}},
       {"Not reserved.", "This recipe does not take this glue.",
        "It takes aliphatic resin or hide glue."}},
      {ClampsOff{g, t},
       WrongProgress{g, Progress::reserved},
       {"Clamps off: not taken.", "No. 14 · top braces is reserved and not started yet.",
        "Start comes next."}},
      {ClampsOff{g, t},
       TooEarly{g, c.now + 28min},
       {"Clamps off: not taken.", "Clamps can come off from 9:28, in 28 min.",
        "Wait for it, or do it anyway."}},
      {Scraped{g, t},
       TooEarly{g, t},
       {"Scraped: not taken.", "It can be worked from 15:40, in 6 h 40.",
        "Wait for it, or do it anyway."}},
      {ClampsOn{g, t},
       BadTime{t, c.now - 1h, c.now},
       {"Clamps on: not taken.", "15:40 cannot be.", "Give a time from 8:00 to 9:00."}},
      {GearBroken{kDeep, 9, ""},
       BadCount{9, 1, 6},
       {"Broken gear: not taken.", "9 cannot be.", "It can be 1 to 6."}},
      {GearBroken{kDeep, 1, ""},
       BadCount{1, 1, 0},
       {"Broken gear: not taken.",
        "None of them is loose: each is in a joint or out of use already.",
        "Look at the gear list."}},
      {GearMended{kDeep, 1},
       BadCount{1, 1, 0},
       {"Mended gear: not taken.", "None of them is out of use.", "Look at the gear list."}},
      {Late{g, 48h},
       BadCount{2880, 1, 1440},
       {"Late: not taken.", "2880 min cannot be.", "It can be 1 to 1440 min."}},
      {ClimateReading{},
       BadCount{90, -40, 60},
       {"Climate: not taken.", "90 C cannot be.", "It can be -40 to 60 C."}},
      {Reserve{},
       AlreadyReserved{g},
       {"Not reserved.",
        "No. 14 · top braces has its glue-up already (lay out the gear, start by 9:10).",
        "Move that one, or cancel it first."}},
      {Reserve{},
       StepMissing{BuildId{1}, 0},
       {"Not reserved.", "Top braces comes first on No. 14 and is not reserved yet.",
        "Reserve top braces first."}},
      {SetStock{},
       BelowClaims{kDeck, 0, {ida}},
       {"Stock not changed.",
        "0 go-bar deck As are fewer than are promised: Ida has 1 till 15:40 (top braces).",
        "Move or cancel those first, or tell it as broken gear."}},
      {Undo{g},
       NothingToUndo{g},
       {"Nothing undone.", "No. 14 · top braces has no press of the last 1 h to take back.",
        "Press what is true now."}},
      {LoadShop{},
       BadShop{{{"gear[1]", "is in use", "keep it"}}},
       {"Shop not loaded.", "Gear[1]: is in use. keep it",
        "Mend the shop file and load it again."}},
      {Reserve{},
       TooMany{Thing::glue_up, 20000},
       {"Not reserved.", "The floor holds at most 20000 of its glue-ups.",
        "Finish or cancel some first."}},
      {SetForecast{},
       TooMany{Thing::air_point, 2000},
       {"Forecast: not taken.", "The floor holds at most 2000 of its points of air.",
        "Give fewer, further apart."}},
      {PutLot{},
       NoSuch{Thing::lot, 7},
       {"Bottle: not taken.", "There is no bottle 7 here.",
        "Look again: it may have been removed."}},
      {MixPot{},
       NoSuch{Thing::sheet, 7},
       {"Not mixed.", "There is no glue 7 here.", "Look again: it may have been removed."}},
      {Start{g},
       PotSpent{PotId{1}, c.now + 3min},
       {"Not started.", "That mix sets in the pot 9:03, before the clamps would be on.",
        "Mix a new pot."}},
      {Start{g},
       PotSpent{PotId{1}, c.now - 3min},
       {"Not started.", "That mix has set in the pot, 8:57.", "Mix a new pot."}},
      {ReadClimate{},
       BadAir{BadAir::What::celsius, t, 90, -40, 60},
       {"Readings: not taken.", "90 C at 15:40 cannot be.", "It can be -40 to 60 C."}},
      {ReadClimate{},
       BadAir{BadAir::What::humidity, t, 101, 0, 100},
       {"Readings: not taken.", "101 % at 15:40 cannot be.", "It can be 0 to 100 %."}},
      {SetForecast{},
       BadAir{.what = BadAir::What::instant, .at = t, .from = c.now, .to = c.now + 1h},
       {"Forecast: not taken.", "The time 15:40 cannot be.",
        "Give times from 9:00 to 10:00, each later than the one before."}},
      {Reserve{},
       NotPossible{Unsuited{kHide, {{Rule::oily_wood, Verdict::unfit}}}},
       {"Not reserved.",
        "Hide glue does not suit: oily wood wants epoxy, or a solvent wipe just before.",
        "Take another glue, or say why it shall be this one."}},
      {Reserve{},
       NotPossible{Unsuited{
           kHide,
           {{Rule::banned_solvent, Verdict::blocked}, {Rule::gap_too_wide, Verdict::unfit}}}},
       {"Not reserved.",
        "Hide glue does not suit: its solvent is not allowed; the gap is too wide, only epoxy "
        "fills.",
        "Take another glue."}},
      {Reserve{},
       NotPossible{StaleLot{kHide, LotId{1}, at("2025-11-03T10:00:00Z")}},
       {"Not reserved.",
        "Bottle A 12 of hide glue is stale since Mon 3 Nov 2025, and this joint carries load.",
        "Open a fresh bottle, or take another glue."}},
      {Reserve{},
       NotPossible{BelowFloor{kHide, {21.96}, {22}}},
       {"Not reserved.", "21.9 C is too cold for hide glue: it needs 22 C.",
        "Warm the wood and the shop, or take another glue."}},
      {Reserve{},
       DoesNotFit{{{any, TooCold{kHide, {9}, {10}, t, {}}}}, {}},
       {"Not reserved.",
        "Too cold from 15:40: the wood would be at 9 C, hide glue wants 10 C. No warmer time is in "
        "sight.",
        "Warm the wood and the shop, or take another glue."}},
  };
  std::set<std::size_t> kinds;
  for (const Row& row : rows) {
    kinds.insert(row.refused.index());
    const Told said = told(row.asked, row.refused);
    EXPECT_EQ(said.what, row.told.what);
    EXPECT_EQ(said.why, row.told.why);
    EXPECT_EQ(said.next, row.told.next);
  }
  EXPECT_EQ(kinds.size(), std::variant_size_v<Refusal>) << "a kind of refusal is not said here";
}

TEST_F(Words, EachProgressSaysWhatComesNext) {
  const GlueUpId g = played.reserve(kBridge, kIda);
  std::set<std::string> next;
  for (int i = 0; i < kProgresses; ++i) {
    const Told said = told(Start{g}, WrongProgress{g, static_cast<Progress>(i)});
    EXPECT_THAT(said.why, ::testing::StartsWith("Bridge ")) << i;
    next.insert(said.why);
  }
  EXPECT_EQ(next.size(), static_cast<std::size_t>(kProgresses));
}

TEST_F(Words, RealRefusalsNameTheHolders) {
  played.reserve(kBraces, kIda);
  const Reserve same{.recipe = kBraces,
                     .build = {},
                     .step = 0,
                     .builder = kOla,
                     .bench = {},
                     .sheet = {},
                     .after = played.now,
                     .start = played.now};
  const auto no = played.press(same);
  ASSERT_TRUE(no.has_value());
  const Told said = told(same, *no);
  EXPECT_EQ(said.what, "Not reserved.");
  EXPECT_THAT(said.why,
              HasSubstr("Go-bar deck A: 1 wanted, 0 of 1 free; Ida has 1 till 9:59 (top braces)."));
  EXPECT_EQ(said.next, "9:59 can be had.");
}

// ---- done ----

TEST_F(Words, EachCommandSaysWhatIsDone) {
  const GlueUpId g = played.reserve(kBridge, kIda);
  ASSERT_FALSE(played.press(MixPot{.sheet = kYellow, .bench = BenchId{1}}));
  const Context c = here();
  const std::string stands = "Bridge: lay out the gear, start by 9:10.";
  const std::string planned = "Start 9:00, glue 9:10, off about 9:54, ready 12:14.";
  const std::vector<std::pair<Body, std::string>> rows = {
      {LoadShop{small_shop()}, "Shop \"Small shop\" loaded."},
      {Reserve{}, "Reserved. " + planned},
      {Move{}, "Moved. " + planned},
      {Cancel{}, "Cancelled. Its gear is free."},
      {Start{}, "Started. " + stands},
      {ClampsOn{}, "Clamps on. " + stands},
      {ClampsOff{}, "Clamps off, its gear is free. " + stands},
      {Scraped{}, "Scraped. " + stands},
      {Late{g, 10min}, "Late by 10 min. " + stands},
      {Spoiled{}, "Spoiled. " + stands},
      {Undo{}, "Last press taken back. " + stands},
      {GearBroken{kDeep, 2, ""}, "2 deep clamps out of use."},
      {GearMended{kDeep, 1}, "1 deep clamp back in use."},
      {SetStock{kDeep, 8}, "Stock: 8 deep clamps."},
      {ClimateReading{{19.5}, {48}}, "Climate 19.5 C, 48 % taken."},
      {Tick{}, "The clock moved on."},
      {ReadClimate{{{c.now, {19}, {48}}}}, "1 reading of the air taken."},
      {SetForecast{}, "The forecast is taken away."},
      {SetForecast{{{c.now + 24h, {9}, {48}}}}, "Forecast taken, till Fri 9:00."},
      {PutLot{{.sheet = kHide, .label = "A 12"}}, "Hide glue, bottle A 12: on record."},
      {PutLot{{.sheet = kHide, .used_up = true}}, "Hide glue: used up."},
      {MixPot{.sheet = kYellow, .bench = BenchId{1}},
       "Aliphatic resin mixed. It sets in the pot 9:05."},
  };
  std::set<std::size_t> kinds;
  for (const auto& [asked, words] : rows) {
    kinds.insert(asked.index());
    EXPECT_EQ(done(c, asked, g), words);
  }
  EXPECT_EQ(kinds.size(), std::variant_size_v<Body>) << "a command is not said here";
  EXPECT_EQ(done(c, Start{}, GlueUpId{99}), "Started.")
      << "what the mirror does not hold is not said";
}

}  // namespace
}  // namespace squeezeout::words
