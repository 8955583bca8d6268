// The craft in words: every value of every enumeration has its own, and what is not published is never called so.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "client/words/craft.h"
#include "tests/unit/client/small_shop.h"

namespace squeezeout::words {
namespace {

using namespace squeezeout::testing;
using namespace std::chrono_literals;
using ::testing::HasSubstr;
using ::testing::Not;

struct CraftWords : ::testing::Test {
  PlayedFloor played;
  Context here() const { return {played.floor, played.now}; }
  std::string said(FigureOf of, Band band) const {
    return figure(here(), {.of = of, .band = band});
  }
};

template <class Enum, class Said>
void each_its_own(int count, Said said) {
  std::set<std::string> all;
  for (int i = 0; i < count; ++i) {
    const std::string words = said(static_cast<Enum>(i));
    EXPECT_FALSE(words.empty()) << i;
    EXPECT_TRUE(all.insert(words).second) << i << ": " << words;
  }
}

TEST(CraftWordsAll, EveryValueHasWordsOfItsOwn) {
  each_its_own<FigureOf>(kFigures, [](FigureOf of) { return figure_name(of); });
  each_its_own<Rule>(kRules, [](Rule r) { return rule(r); });
  each_its_own<Verdict>(4, [](Verdict v) { return verdict(v); });
  const Floor nowhere;
  each_its_own<Caution>(kCautions, [&](Caution c) { return caution({nowhere, {}}, c); });
  each_its_own<LotAge>(4, [](LotAge a) { return lot_age(a); });
  each_its_own<InputOf>(kInputs, [](InputOf i) { return input({i, Mark::recalled}); });
  each_its_own<FormulaId>(kFormulas, [](FormulaId f) { return source(f); });
}

TEST(CraftWordsAll, OnlyWhatIsPublishedIsCalledSo) {
  int published = 0;
  for (int i = 0; i < kFormulas; ++i) {
    const auto id = static_cast<FormulaId>(i);
    const std::string words = source(id);
    const Formula& known = formula(id);
    EXPECT_THAT(words, HasSubstr(std::string(known.name)));
    EXPECT_THAT(words, HasSubstr(std::string(to_string(known.mark)))) << known.anchor;
    EXPECT_THAT(words, HasSubstr(std::string(known.uncertainty)));
    if (known.mark == Mark::published)
      ++published;
    else
      EXPECT_THAT(words, Not(HasSubstr("published"))) << known.anchor;
  }
  EXPECT_GT(published, 5);
}

TEST(CraftWordsAll, AMarkIsSaidOnce) {
  EXPECT_EQ(source(FormulaId::emc),
            "Equilibrium moisture of wood: USDA Wood Handbook, FPL-GTR-282, Eq. 4-5, published; " +
                std::string(formula(FormulaId::emc).uncertainty));
  for (int i = 0; i < kFormulas; ++i) {
    const auto id = static_cast<FormulaId>(i);
    std::string words = source(id);
    words.resize(words.size() - formula(id).uncertainty.size());
    const std::string mark{to_string(formula(id).mark)};
    EXPECT_EQ(words.find(mark), words.rfind(mark)) << words;
  }
}

TEST(CraftWordsAll, AFormulaSaysWhatElseWentIn) {
  Figure f{.of = FigureOf::crush, .by = FormulaId::pad_crush};
  const std::string alone = source(FormulaId::pad_crush);
  EXPECT_THAT(alone, HasSubstr("published"));
  EXPECT_EQ(figure_source(f), alone);
  f.inputs = {{InputOf::density, Mark::recalled}};
  EXPECT_EQ(figure_source(f), alone + "; with densities (from memory) in it");
  f.inputs.push_back({InputOf::pad, Mark::our_model});
  f.inputs.push_back({InputOf::stated_force, Mark::recalled});
  EXPECT_EQ(figure_source(f), alone +
                                  "; with densities (from memory), a pad of 20 mm (our model) and "
                                  "the force as the shop states it (from memory) in it");
}

TEST_F(CraftWords, WhatHurtsSaysWhoDecides) {
  EXPECT_EQ(caution(here(), Caution::local_codes_decide), "Local codes and the data sheet decide.");
}

TEST_F(CraftWords, ACountSaysItsBandItsLimitAndTheRecipes) {
  Figure f{.of = FigureOf::clamps, .band = {9, 14, 25}, .kind = kDeep, .fixed = 12};
  f.limit = GearCount::Limit::even_line;
  EXPECT_EQ(figure(here(), f), "14 deep clamps (9 to 25), set by an even line; the recipe says 12");
  f.limit = GearCount::Limit::least_pressure;
  f.fixed = {};
  EXPECT_EQ(figure(here(), f), "14 deep clamps (9 to 25), set by the least pressure");
  f.kind = GearKindId{99};
  f.band = {1, 1, 1};
  EXPECT_EQ(figure(here(), f), "1 clamp, set by the least pressure");
}

TEST_F(CraftWords, FiguresHaveUnitsAndNoFalseDigits) {
  EXPECT_EQ(said(FigureOf::open_time, {175, 250, 325}), "4 m 10 s (2 m 55 s to 5 m 25 s)");
  EXPECT_EQ(said(FigureOf::dwell, {3600, 3600, 3600}), "1 h");
  EXPECT_EQ(said(FigureOf::pressure_achieved, {0.07, 0.094, 0.11}), "0.09 MPa (0.07 to 0.11 MPa)");
  EXPECT_EQ(said(FigureOf::crush, {4.13, 4.13, 4.13}), "4.1 MPa");
  EXPECT_EQ(said(FigureOf::rod_force, {28.4, 35.2, 42.1}), "35 N (28 to 42 N)");
  EXPECT_EQ(said(FigureOf::moisture_now, {7.6, 8.6, 9.6}), "8.6 % (7.6 to 9.6 %)");
  EXPECT_EQ(said(FigureOf::crush_share, {0.17, 0.17, 0.17}), "17 % of what crushes the wood");
  EXPECT_EQ(said(FigureOf::plate_movement, {-1.3, -1.04, -0.8}), "-1.0 mm (-1.3 to -0.80 mm)");
  EXPECT_EQ(said(FigureOf::coldest_wood, {12.96, 12.96, 12.96}), "13 °C");
  EXPECT_EQ(said(FigureOf::lot_age, {33.2, 33.2, 33.2}), "33 days left");
  EXPECT_EQ(said(FigureOf::lot_age, {-3, -3, -3}), "3 days over");
}

TEST_F(CraftWords, LearnedFiguresSayFromHowMany) {
  Figure f{.of = FigureOf::assembly, .band = {420, 420, 420}, .n = 12};
  EXPECT_EQ(figure(here(), f), "7 min, n 12");
  f.n = kSamplesToLearn - 1;
  EXPECT_EQ(figure(here(), f), "7 min, by the recipe, n 4");
  EXPECT_EQ(figure(here(), {.of = FigureOf::overrun_chance, .band = {0.1, 0.2, 0.3}, .n = 12}),
            "20 % of your glue-ups (10 to 30 %), n 12");
  EXPECT_EQ(learned({7min, 12, true}, {0.2, 12}),
            "usually 7 min, n 12; 1 in 5 takes longer than the glue stays open");
  EXPECT_EQ(learned({7min, 12, true}, {0.71, 12}),
            "usually 7 min, n 12; 7 in 10 takes longer than the glue stays open");
  EXPECT_EQ(learned({7min, 12, true}, {0.999, 12}),
            "usually 7 min, n 12; 9 in 10 takes longer than the glue stays open")
      << "never quite all";
  EXPECT_EQ(learned({4min, 2, false}, {0.5, 2}), "4 min by the recipe; n 2 of your own");
}

TEST_F(CraftWords, AFitnessSaysTheReasonThatSaysMost) {
  Fitness f{.sheet = kHide, .verdict = Verdict::fits};
  f.reasons = {{Rule::usual, Verdict::fits}, {Rule::no_water, Verdict::fits}};
  EXPECT_EQ(fitness_line(here(), f), "Hide glue: fits, no water beside the neck");
  f.reasons = {{Rule::usual, Verdict::fits}};
  EXPECT_EQ(fitness_line(here(), f), "Hide glue: fits, the usual glue here");
  f.verdict = Verdict::unfit;
  f.reasons = {{Rule::not_in_recipe, Verdict::unfit},
               {Rule::water_beside_neck, Verdict::unfit},
               {Rule::wants_practice, Verdict::warn}};
  EXPECT_EQ(fitness_line(here(), f), "Hide glue: does not suit, its water would bow the neck");
  f.reasons = {{Rule::not_in_recipe, Verdict::unfit}};
  EXPECT_EQ(fitness_line(here(), f), "Hide glue: does not suit, not in the recipe");
  f.verdict = Verdict::blocked;
  f.reasons = {{Rule::below_floor, Verdict::blocked}, {Rule::not_in_recipe, Verdict::unfit}};
  EXPECT_EQ(fitness_line(here(), f), "Hide glue: cannot be used, the wood is too cold for it");
}

TEST_F(CraftWords, WhatCannotBeWorkedOutSaysWhatToDo) {
  EXPECT_EQ(left_out(OutOfRange{"air temperature, C", 90, -40, 60, "measure in degrees Celsius"}),
            "Not worked out: air temperature, C is 90, it can be -40 to 60; measure in degrees "
            "Celsius.");
  EXPECT_EQ(left_out(UnknownMaterial{"unobtainium"}),
            "Not worked out: no wood or plastic is called \"unobtainium\" here.");
  EXPECT_EQ(unpublished(FigureOf::plate_movement),
            "Movement of the plate: no figure is published for this wood; measure a strip of it in "
            "dry and in damp air.");
}

}  // namespace
}  // namespace squeezeout::words
