// The craft on the screens, as frames: which glue and why, figures and their sources, the weather, pots, a hot form, bottles.

#include <gtest/gtest.h>

#include "client/view/night.h"
#include "client/view/offer.h"
#include "client/words/craft.h"
#include "tests/support/screens/stage.h"
#include "tests/ui/craft_shop.h"

namespace squeezeout::testing {
namespace {

using std::chrono::hours;
const Instant kTen = at("2026-11-26T10:00:00Z");  // a Thursday
constexpr Percent kHalf{50};

class CraftFrames : public ::testing::Test {
 protected:
  CraftFrames() : bench(kTen, craft_shop()) {}
  look::Frame show(Screen screen) {
    stage.view.screen = screen;
    return stage.frame(bench.floor(), bench.now());
  }
  look::Frame card(GlueUpId id) {
    stage.view.glue_up = id;
    return show(Screen::card);
  }
  look::Frame reserve(RecipeId recipe, SheetId sheet = {}) {
    stage.view.wanted = {.recipe = recipe, .builder = kAda, .bench = kBench1, .sheet = sheet};
    return show(Screen::reserve);
  }
  // All pages of the figures, as text.
  std::string all_figures() {
    std::string out;
    for (stage.view.page = 0;; ++stage.view.page) {
      const look::Frame frame = show(Screen::figures);
      out += all_texts(frame);
      if (find(frame, "page.next") == nullptr) return out;
    }
  }
  void cold(double celsius, Instant from, Instant to) {
    const Percent rh = kHalf;
    ASSERT_TRUE(bench.press(SetForecast{{{from - hours{1}, {20}, rh},
                                         {from, {celsius}, rh},
                                         {to, {celsius}, rh},
                                         {to + hours{1}, {20}, rh}}}));
  }
  Stage stage;
  Bench bench;
};

// ---- reserve ----

TEST_F(CraftFrames, GluesAreRankedWithTheReasonThatSaysMost) {
  const look::Frame f = reserve(kFretboard);
  EXPECT_TRUE(says(f, "fits with care, can make skin")) << all_texts(f);
  EXPECT_TRUE(says(f, "does not suit, its water would bow the neck"))
      << "in words, not by colour alone\n"
      << all_texts(f);
  const look::Press *epoxy = find(f, "glue.epoxy"), *resin = find(f, "glue.resin");
  ASSERT_NE(epoxy, nullptr);
  ASSERT_NE(resin, nullptr);
  EXPECT_LT(epoxy->at.y * 10000 + epoxy->at.x, resin->at.y * 10000 + resin->at.x)
      << "what fits stands first";
}

TEST_F(CraftFrames, TheComputedCountStandsBesideTheRecipes) {
  const look::Frame f = reserve(kBridge);
  const auto answer = joint_answer(bench.floor(), stage.view.wanted, kTen + Minutes{5}, kTen);
  ASSERT_TRUE(answer);
  const Figure* count = figure_of(*answer, FigureOf::clamps);
  ASSERT_NE(count, nullptr);
  const std::string line = words::figure({bench.floor(), kTen}, *count);
  EXPECT_TRUE(says(f, line)) << line << '\n' << all_texts(f);
  EXPECT_NE(line.find("the recipe says 3"), std::string::npos) << line;
  EXPECT_TRUE(says(f, "you take 4 min")) << all_texts(f);
}

TEST_F(CraftFrames, WhatIsBlockedHasNoKeyAtAll) {
  ASSERT_TRUE(bench.press(ClimateReading{{5}, kHalf}));  // below every floor, for good
  const look::Frame f = reserve(kBridge);
  EXPECT_EQ(find(f, "reserve"), nullptr);
  EXPECT_EQ(find(f, "reserve.because.0"), nullptr) << "no reason helps against the cold";
  EXPECT_TRUE(says(f, "too cold")) << all_texts(f);
  EXPECT_TRUE(says(f, "cannot be used")) << all_texts(f);
}

TEST_F(CraftFrames, AGlueThatFitsAsksForNoReason) {
  const look::Frame f = reserve(kFretboard);
  EXPECT_NE(find(f, "reserve"), nullptr);
  EXPECT_EQ(find(f, "reserve.because.0"), nullptr);
}

// ---- figures ----

TEST_F(CraftFrames, EveryFigureIsShownWithItsSource) {
  stage.view.wanted = {.recipe = kBridge, .builder = kAda, .bench = kBench1};
  const auto answer = joint_answer(bench.floor(), stage.view.wanted, kTen + Minutes{5}, kTen);
  ASSERT_TRUE(answer);
  ASSERT_GT(answer->figures.size(), 10U);
  const std::string shown = all_figures();
  for (const Figure& f : answer->figures) {
    const words::Context c{bench.floor(), kTen};
    EXPECT_NE(shown.find(words::figure(c, f)), std::string::npos) << words::figure(c, f);
    EXPECT_NE(shown.find(words::figure_source(f)), std::string::npos) << words::figure_source(f);
  }
  for (const Caution caution : answer->cautions)
    EXPECT_NE(shown.find(words::caution({bench.floor(), kTen}, caution)), std::string::npos);
  for (const Fitness& f : answer->glues)
    for (const Reason& r : f.reasons)
      EXPECT_NE(shown.find(words::rule(r.rule)), std::string::npos) << words::rule(r.rule);
  EXPECT_NE(shown.find(words::source(FormulaId::fitness)), std::string::npos);
}

TEST_F(CraftFrames, WhatIsToBeMindedIsReadWholeAmongTheFigures) {
  const std::string sentence = "Ebony dust is on everything here: wipe both faces with spirit. ";
  std::string long_one;
  for (int i = 0; i < 5; ++i) long_one += sentence;
  long_one += "Then wear gloves.";
  Shop shop = craft_shop();
  for (Recipe& r : shop.recipes)
    if (r.id == kFretboard) r.caution = long_one;
  for (AdhesiveSheet& s : shop.sheets)
    if (s.id == kEpoxy) s.caution = "Gloves, and the window open.";
  const Bench careful(kTen, std::move(shop));
  for (const auto& [w, h, text] : {std::tuple{1920.0F, 1080.0F, 1.0F}, {1366.0F, 768.0F, 2.0F}}) {
    Stage small(w, h, look::kUsualMmPerPx, text);
    small.view.screen = Screen::figures;
    small.view.wanted = {.recipe = kFretboard, .builder = kAda, .bench = kBench1};
    std::string shown;
    for (small.view.page = 0;; ++small.view.page) {
      const look::Frame f = small.frame(careful.floor(), kTen);
      for (const look::Words& word : texts(f)) {
        EXPECT_FALSE(word.cut) << word.text;
        shown += word.text + " ";
      }
      if (find(f, "page.next") == nullptr) break;
    }
    EXPECT_NE(shown.find("Then wear gloves."), std::string::npos) << shown;
    EXPECT_NE(shown.find("Gloves, and the window open."), std::string::npos) << shown;
    const Recipe& recipe = *careful.floor().recipe(kFretboard);
    ASSERT_FALSE(recipe.needs.empty());
    for (const GearNeed& need : recipe.needs)
      EXPECT_NE(shown.find(words::need({careful.floor(), kTen}, need)), std::string::npos) << shown;
  }
}

TEST_F(CraftFrames, FiguresWithNothingChosenSayWhatToDo) {
  EXPECT_TRUE(says(show(Screen::figures), "Choose what is glued first."));
}

TEST_F(CraftFrames, NoSourceIsCutShortOnASmallScreen) {
  Stage small(1366, 768);
  small.view = stage.view;
  small.view.screen = Screen::figures;
  small.view.wanted = {.recipe = kFretboard, .builder = kAda, .bench = kBench1};
  for (int page = 0; page < 6; ++page) {
    small.view.page = page;
    for (const look::Words& w : texts(small.frame(bench.floor(), kTen)))
      EXPECT_EQ(w.text.find("…"), std::string::npos) << w.text;
  }
}

// ---- quotes ----

TEST_F(CraftFrames, AJointIsAskedOnceAMinuteAndARevision) {
  Quotes quotes;
  const Reserve wanted{.recipe = kBridge, .builder = kAda, .bench = kBench1};
  quotes.look_at(1, kTen);
  const Quotes::Joint* first = &quotes.joint(bench.floor(), wanted, kTen, kTen);
  quotes.look_at(1, kTen + Seconds{59});
  EXPECT_EQ(first, &quotes.joint(bench.floor(), wanted, kTen, kTen)) << "the same answer";
  ASSERT_TRUE(*first);
  const double dwell = figure_of(**first, FigureOf::dwell)->band.value;
  ASSERT_TRUE(bench.press(ClimateReading{{12}, kHalf}));
  EXPECT_EQ(
      figure_of(*quotes.joint(bench.floor(), wanted, kTen, kTen), FigureOf::dwell)->band.value,
      dwell);
  quotes.look_at(2, kTen);
  EXPECT_GT(
      figure_of(*quotes.joint(bench.floor(), wanted, kTen, kTen), FigureOf::dwell)->band.value,
      dwell)
      << "another revision, another answer";
}

// ---- weather ----

TEST_F(CraftFrames, ALongerDwellIsSaidOnCardAndHome) {
  const GlueUpId id = bench.reserve(kBridge, kAda, kTen + hours{3});
  cold(12, kTen + hours{2}, kTen + hours{9});
  ASSERT_TRUE(bench.glue_up(id).weather);
  const std::string note = words::weather({bench.floor(), bench.now()}, bench.glue_up(id));
  EXPECT_NE(note.find("dwell 60 -> "), std::string::npos) << note;
  EXPECT_TRUE(says(card(id), note)) << all_texts(card(id));
  EXPECT_TRUE(says(show(Screen::bench), "dwell 60 -> ")) << all_texts(show(Screen::bench));
}

TEST_F(CraftFrames, WhatTheWeatherMovedStandsAmongTheSnagsUntilAPress) {
  const Instant two = kTen + hours{4};
  const GlueUpId id = bench.reserve(kBridge, kAda, two);
  cold(8, two - hours{1}, two + hours{1});  // resin wants 10 C
  const GlueUp& g = bench.glue_up(id);
  ASSERT_TRUE(g.weather && g.weather->moved_from) << "moved";
  ASSERT_EQ(g.progress, Progress::reserved);
  const look::Frame f = show(Screen::snags);
  EXPECT_TRUE(says(f, "1 moved by the weather")) << all_texts(f);
  EXPECT_TRUE(says(f, words::weather({bench.floor(), bench.now()}, g))) << all_texts(f);
  EXPECT_TRUE(says(f, "Snags 1"));
  const look::Press* keep = find(f, "keep." + std::to_string(id.value));
  ASSERT_NE(keep, nullptr);
  const Instant start = g.times.stage_begin;
  ASSERT_TRUE(bench.press(std::get<Ask>(keep->intent).body)) << "what is offered can be had";
  EXPECT_EQ(bench.glue_up(id).times.stage_begin, start);
  EXPECT_TRUE(says(show(Screen::snags), "No snags"));
}

TEST_F(CraftFrames, WhatFindsNoWarmTimeIsASnagThatSaysSo) {
  const GlueUpId id = bench.reserve(kBridge, kAda, kTen + hours{4});
  ASSERT_TRUE(bench.press(SetForecast{
      {{kTen + hours{1}, {2}, kHalf}, {kTen + hours{9}, {2}, kHalf}}}));  // and so it stays
  ASSERT_EQ(bench.glue_up(id).progress, Progress::displaced);
  EXPECT_EQ(bench.glue_up(id).snag, Snag::too_cold);
  const look::Frame f = show(Screen::snags);
  EXPECT_TRUE(says(f, "too cold for resin, the wood would be at ")) << all_texts(f);
}

// ---- pots ----

TEST_F(CraftFrames, TheCardSaysWhenThePotSets) {
  const GlueUpId id = bench.reserve(kFretboard, kAda);
  ASSERT_TRUE(bench.press(MixPot{.sheet = kEpoxy, .bench = kBench1}));
  bench.set(bench.glue_up(id).times.open_begin);
  ASSERT_TRUE(bench.press(Start{id, Override::no, PotId{1}}));
  const Instant sets = bench.floor().pots.at(PotId{1}).until;
  const std::string clock = words::clock({bench.floor(), bench.now()}, sets);
  const look::Frame f = card(id);
  EXPECT_TRUE(says(f, "pot sets " + clock)) << all_texts(f);
  EXPECT_TRUE(says(f, clock)) << "and clamps on by then";
  EXPECT_EQ(clamps_on_by(bench.glue_up(id)), sets);
}

TEST_F(CraftFrames, OnlyMixedGlueThatIsNeededSoonHasAPotKey) {
  EXPECT_EQ(find(card(bench.reserve(kBridge, kAda)), "pot.mix"), nullptr) << "resin is not mixed";
  const GlueUpId later = bench.reserve(kFretboard, kBen, kTen + hours{3});
  EXPECT_EQ(find(card(later), "pot.mix"), nullptr) << "in three hours";
  bench.set(kTen + hours{2});
  EXPECT_NE(find(card(later), "pot.mix"), nullptr);
}

// ---- what has been learned ----

TEST_F(CraftFrames, LearnedTimesAreSaidOnceThereAreEnough) {
  const auto one = [&](Seconds took) {
    const GlueUpId id = bench.reserve(kLining, kAda);
    bench.set(bench.glue_up(id).times.open_begin);
    ASSERT_TRUE(bench.press(Start{id}));
    bench.wait(took);
    ASSERT_TRUE(bench.press(ClampsOn{id, bench.now()}));
    bench.set(off_from(bench.glue_up(id)));
    ASSERT_TRUE(bench.press(ClampsOff{id, bench.now()}));
  };
  for (int i = 0; i < kSamplesToLearn - 1; ++i) one(Minutes{3});
  const GlueUpId before = bench.reserve(kLining, kAda);
  EXPECT_FALSE(says(card(before), "usually")) << "too few";
  ASSERT_TRUE(bench.press(Cancel{before}));
  one(Minutes{3});
  const look::Frame f = card(bench.reserve(kLining, kAda));
  EXPECT_TRUE(says(f, "usually 3 min, n 5; 1 in 7 takes longer than the glue stays open"))
      << all_texts(f);
}

// ---- heat ----

TEST_F(CraftFrames, AHotFormSaysWhenItIsSafeToTouch) {
  const GlueUpId id = bench.reserve(kBend, kAda);
  const std::string safe = words::clock({bench.floor(), bench.now()},
                                        bench.glue_up(id).times.clamped_begin + Minutes{70});
  EXPECT_TRUE(says(card(id), "form gets 160 °C hot, safe to touch about " + safe))
      << all_texts(card(id));
  bench.set(bench.glue_up(id).times.open_begin);
  ASSERT_TRUE(bench.press(Start{id}));
  bench.wait(Minutes{4});
  ASSERT_TRUE(bench.press(ClampsOn{id, bench.now()}));
  EXPECT_TRUE(says(card(id), "burns from 48 °C, safe to touch at 43 °C about"))
      << all_texts(card(id));
  bench.wait(Minutes{70});
  EXPECT_TRUE(says(card(id), "should be safe to touch")) << all_texts(card(id));
}

// ---- air and bottles ----

TEST_F(CraftFrames, BottlesSayTheirAgeTheOldestFirst) {
  const auto days = [](int n) { return hours{24 * n}; };
  ASSERT_TRUE(bench.press(PutLot{{.sheet = kEpoxy, .label = "new", .made = kTen - days(10)}}));
  ASSERT_TRUE(bench.press(PutLot{{.sheet = kEpoxy, .label = "old", .made = kTen - days(280)}}));
  ASSERT_TRUE(bench.press(PutLot{{.sheet = kEpoxy, .label = "dead", .made = kTen - days(400)}}));
  ASSERT_TRUE(bench.press(PutLot{{.sheet = kEpoxy, .label = "gone", .used_up = true}}));
  const look::Frame f = show(Screen::air);
  EXPECT_TRUE(says(f, "fresh, made Mon 16 Nov")) << all_texts(f);
  EXPECT_TRUE(says(f, "old, try it on scrap")) << all_texts(f);
  EXPECT_TRUE(says(f, "stale, made")) << all_texts(f);
  EXPECT_FALSE(says(f, "gone")) << "used up";
  EXPECT_LT(find(f, "lot.3.used")->at.y, find(f, "lot.1.used")->at.y) << "the stale one on top";
}

TEST_F(CraftFrames, TheAirSaysWhatIsAheadAndWhichPotsRun) {
  ASSERT_TRUE(bench.press(ClimateReading{{20}, kHalf}));
  EXPECT_TRUE(says(show(Screen::air), "No colder in the next 24 h"));
  cold(9, kTen + hours{12}, kTen + hours{20});
  ASSERT_TRUE(bench.press(MixPot{.sheet = kEpoxy, .bench = kBench1}));
  const look::Frame f = show(Screen::air);
  EXPECT_TRUE(says(f, "Coldest in the next 24 h: 9 °C at 22:00")) << all_texts(f);
  EXPECT_TRUE(says(f, "20 °C, 50 %, read 10:00")) << all_texts(f);
  EXPECT_TRUE(says(f, "Pot of epoxy, Bench 1, sets 10:40")) << all_texts(f);
}

// ---- a cold night ----

TEST_F(CraftFrames, AColdNightIsThisNightsOrTheNext) {
  const AirDraft air{.low = 9, .from = 22, .to = 7};
  const auto night = [&](const char* now) { return night_of(bench.floor(), air, at(now)); };
  const Span tonight{at("2026-11-26T22:00:00Z"), at("2026-11-27T07:00:00Z")};
  EXPECT_EQ(night("2026-11-26T10:00:00Z"), tonight);
  EXPECT_EQ(night("2026-11-27T03:00:00Z"), tonight) << "it is this night that is cold";
  EXPECT_EQ(night("2026-11-27T07:00:00Z").begin, at("2026-11-27T22:00:00Z")) << "that one is over";
  const AirDraft short_one{.low = 9, .from = 1, .to = 5};
  EXPECT_EQ(night_of(bench.floor(), short_one, kTen).begin, at("2026-11-27T01:00:00Z"));
}

TEST_F(CraftFrames, AColdNightIsAForecastThatTheFloorTakes) {
  for (const char* now : {"2026-11-26T10:00:00Z", "2026-11-26T21:30:00Z", "2026-11-26T23:00:00Z",
                          "2026-11-27T06:59:00Z"}) {
    bench.set(at(now));
    const SetForecast night =
        cold_night(bench.floor(), {.low = 9, .from = 22, .to = 7}, bench.now());
    ASSERT_TRUE(bench.press(night)) << now;
    for (std::size_t i = 1; i < night.points.size(); ++i)
      EXPECT_LT(night.points[i - 1].at, night.points[i].at) << now;
    EXPECT_GE(night.points.front().at, bench.now());
    EXPECT_EQ(night.points.back().at, at("2026-11-27T08:00:00Z")) << now;
  }
}

}  // namespace
}  // namespace squeezeout::testing
