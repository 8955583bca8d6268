// Each refusal as what, why and next; each command that is done.

#include <set>

#include "tests/unit/client/words_fixture.h"

namespace squeezeout::words {
namespace {

using namespace squeezeout::testing;
using namespace std::chrono_literals;
using ::testing::HasSubstr;

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
       {"Not reserved.", "13 °C is too cold for hide glue: it needs 22 °C.",
        "Warm the wood and the shop, or take another glue."}},
      {Reserve{},
       NotPossible{OpenTooShort{kHide, 7min, 5min}},
       {"Not reserved.", "Hide glue: open time 5 min, but the clamps usually take you 7 min.",
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
       {"Not reserved.", "This recipe does not take the glue.",
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
       {"Late: not taken.", "2880 min cannot be.", "It can be 1 min to 1440 min."}},
      {ClimateReading{},
       BadCount{90, -40, 60},
       {"Climate: not taken.", "90 °C cannot be.", "It can be -40 °C to 60 °C."}},
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
      {AdoptPlan{},
       PlanStale{g, {{any, ShopClosed{t}}}},
       {"Plan not taken, nothing has moved.",
        "No. 14 · top braces no longer fits there: Closed till 15:40.", "Ask for a new plan."}},
      {UndoPlan{},
       PlanStale{g, {}},
       {"Plan not taken back, nothing has moved.", "No. 14 · top braces has had a press since.",
        "Move them one by one."}},
      {ReadClimate{},
       BadAir{BadAir::What::celsius, t, 90, -40, 60},
       {"Readings: not taken.", "90 °C at 15:40 cannot be.", "It can be -40 °C to 60 °C."}},
      {ReadClimate{},
       BadAir{BadAir::What::humidity, t, 101, 0, 100},
       {"Readings: not taken.", "101 % at 15:40 cannot be.", "It can be 0 % to 100 %."}},
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
       {"Not reserved.", "21.9 °C is too cold for hide glue: it needs 22 °C.",
        "Warm the wood and the shop, or take another glue."}},
      {Reserve{},
       DoesNotFit{{{any, TooCold{kHide, {9}, {10}, t, {}}}}, {}},
       {"Not reserved.",
        "Too cold from 15:40: the wood would be at 9 °C, hide glue wants 10 °C. No warmer time is "
        "in "
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
      {ClimateReading{{19.5}, {48}}, "Climate 19.5 °C, 48 % taken."},
      {Tick{}, "The clock moved on."},
      {ReadClimate{{{c.now, {19}, {48}}}}, "1 reading of the air taken."},
      {SetForecast{}, "The forecast is taken away."},
      {SetForecast{{{c.now + 24h, {9}, {48}}}}, "Forecast taken, till Fri 9:00."},
      {PutLot{{.sheet = kHide, .label = "A 12"}}, "Hide glue, bottle A 12: on record."},
      {PutLot{{.sheet = kHide, .used_up = true}}, "Hide glue: used up."},
      {MixPot{.sheet = kYellow, .bench = BenchId{1}},
       "Aliphatic resin mixed. It sets in the pot 9:05."},
      {AdoptPlan{{{g, c.now + 1h, {}}, {GlueUpId{2}, c.now + 2h, {}}}}, "2 glue-ups moved."},
      {UndoPlan{PlanId{9}}, "Plan taken back."},
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
