// What each joint's answer tells: figures in their order, with formula, band and the recipe's own count, and the cautions.
#include "common/craft/answer.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstring>
#include <limits>

#include "tests/unit/craft/craft_shop.h"

namespace squeezeout {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::Not;
using enum FigureOf;

std::vector<FigureOf> kinds_of_figures(const JointAnswer& answer) {
  std::vector<FigureOf> out;
  for (const Figure& f : answer.figures) out.push_back(f.of);
  return out;
}

const Figure& figure(const JointAnswer& answer, FigureOf of) {
  const auto it = std::find_if(answer.figures.begin(), answer.figures.end(),
                               [&](const Figure& f) { return f.of == of; });
  CHECK(it != answer.figures.end());
  return *it;
}
bool tells(const JointAnswer& answer, FigureOf of) {
  const auto all = kinds_of_figures(answer);
  return std::find(all.begin(), all.end(), of) != all.end();
}
std::optional<OutOfRange> left_out(const JointAnswer& answer, const char* what) {
  for (const OutOfRange& o : answer.left_out) {
    if (std::strcmp(o.what, what) == 0) return o;
  }
  return std::nullopt;
}

TEST(Answer, BridgeTellsEverythingInOrder) {
  const Asked asked{bridge()};
  const JointAnswer a = answer(asked.question());
  EXPECT_THAT(
      kinds_of_figures(a),
      ElementsAre(open_time, assembly, dwell, wait, coldest_wood, clamps, clamps_by_spread,
                  clamps_by_pressure, pressure_wanted, pressure_achieved, clamp_force, crush,
                  crush_share, moisture_now, moisture_service, glue_water, levelling_wait));
  EXPECT_THAT(a.cautions,
              ElementsAre(Caution::solvent_vapour, Caution::fire, Caution::beside_hot_form,
                          Caution::oily_wipe, Caution::dry_run_first, Caution::local_codes_decide));
  EXPECT_TRUE(a.left_out.empty());
  EXPECT_FALSE(a.unknown);
  ASSERT_EQ(a.gear.size(), 1U);
  EXPECT_EQ(a.gear[0].kind, kind_of(asked.gear, "deep").id);

  const Figure& count = figure(a, clamps);
  EXPECT_EQ(count.band, (Band{3, 3, 5}));
  EXPECT_EQ(count.fixed, 3);
  EXPECT_EQ(count.limit, GearCount::Limit::even_line);
  EXPECT_EQ(count.by, FormulaId::count_by_spread);
  EXPECT_EQ(count.kind, a.gear[0].kind);
}

TEST(Answer, LeastPressureNamesItsFormula) {
  const Asked asked{back_braces()};
  const Figure count = figure(answer(asked.question()), clamps);
  EXPECT_EQ(count.limit, GearCount::Limit::least_pressure);
  EXPECT_EQ(count.by, FormulaId::count_by_force);
}

TEST(Answer, GoBarsTellTheirForceAndBending) {
  const Asked asked{top_braces()};
  const JointAnswer a = answer(asked.question());
  EXPECT_FALSE(tells(a, clamp_force));
  EXPECT_NEAR(figure(a, rod_force).band.value, 34.86, 0.01);
  EXPECT_EQ(figure(a, rod_force).by, FormulaId::go_bar);
  EXPECT_EQ(figure(a, rod_bending).by, FormulaId::go_bar_bending);
  EXPECT_THAT(a.cautions, Not(Contains(Caution::rod_near_breaking)));
  EXPECT_EQ(figure(a, clamps).fixed, 16);
}

TEST(Answer, AWeakRodIsNearBreaking) {
  Asked asked{top_braces()};
  for (GearKind& k : asked.gear) k.rod_strength = {80};
  EXPECT_THAT(answer(asked.question()).cautions, Contains(Caution::rod_near_breaking));
}

TEST(Answer, PlasticBindingIsAboutVapour) {
  const Asked asked{plastic_binding()};
  const JointAnswer a = answer(asked.question());
  EXPECT_THAT(a.cautions,
              ElementsAre(Caution::solvent_vapour, Caution::fire, Caution::beside_hot_form,
                          Caution::dry_run_first, Caution::local_codes_decide));
  EXPECT_EQ(figure(a, open_time).by, FormulaId::sheets);  // the weather does not change it
  EXPECT_FALSE(tells(a, glue_water));
  EXPECT_TRUE(a.gear.empty());  // tape
}

TEST(Answer, EpoxySensitisesAndBringsNoWater) {
  const Asked asked{fretboard()};
  const JointAnswer a = answer(asked.question());
  EXPECT_THAT(a.cautions, ElementsAre(Caution::sensitises_skin, Caution::no_sanding_uncured,
                                      Caution::dry_run_first, Caution::local_codes_decide));
  EXPECT_FALSE(tells(a, glue_water));
  EXPECT_NEAR(figure(a, dwell).band.high / figure(a, dwell).band.value, 1.15, 1e-9);
}

TEST(Answer, OtherGluesHurtInTheirOwnWays) {
  Asked asked{lining()};
  asked.chosen = sheet_of(Chemistry::polyurethane);
  EXPECT_THAT(
      answer(asked.question()).cautions,
      ElementsAre(Caution::isocyanates, Caution::dry_run_first, Caution::local_codes_decide));
  asked.chosen = sheet_of(Chemistry::cyanoacrylate);
  EXPECT_THAT(
      answer(asked.question()).cautions,
      ElementsAre(Caution::bonds_skin, Caution::dry_run_first, Caution::local_codes_decide));
  asked.chosen = sheet_of(Chemistry::pva);
  EXPECT_THAT(answer(asked.question()).cautions, ElementsAre(Caution::dry_run_first));
}

TEST(Answer, HotFormNeedsNoGlue) {
  const Asked asked{bent_sides()};
  const JointAnswer a = answer(asked.question());
  EXPECT_THAT(kinds_of_figures(a), ElementsAre(assembly, dwell, moisture_now, moisture_service,
                                               bend_strain, safe_to_touch));
  EXPECT_TRUE(a.glues.empty());
  EXPECT_EQ(figure(a, dwell).band.value, 75 * 60);
  EXPECT_NEAR(figure(a, bend_strain).band.value, 2.153, 0.001);  // 2.2 / 102.2
  // 150 C to 43 C in air of 20 C: half an hour times ln(130 / 23).
  EXPECT_EQ(figure(a, safe_to_touch).band.value, 3118);
  EXPECT_THAT(a.cautions,
              ElementsAre(Caution::hot_form, Caution::strap_for_bend, Caution::local_codes_decide));
}

TEST(Answer, AGentleBendNeedsNoStrap) {
  Asked asked{bent_sides()};
  asked.recipe.joint.radius = {60};
  EXPECT_THAT(answer(asked.question()).cautions, Not(Contains(Caution::strap_for_bend)));
}

TEST(Answer, MoistureAndMovementOfAPlate) {
  Asked asked{top_braces()};
  asked.humidity = {65};  // service is 45 %: 400 mm of quartersawn spruce come in by 2.08 mm
  const JointAnswer a = answer(asked.question());
  EXPECT_NEAR(figure(a, moisture_now).band.value, 11.996, 0.001);
  EXPECT_NEAR(figure(a, moisture_service).band.value, 8.485, 0.001);
  const Band moves = figure(a, plate_movement).band;
  EXPECT_NEAR(moves.value, -2.08, 0.005);
  EXPECT_LT(moves.low, moves.value);
  EXPECT_LT(moves.value, moves.high);
  EXPECT_THAT(a.cautions, ElementsAre(Caution::bracing_too_damp, Caution::plate_will_move,
                                      Caution::dry_run_first));
}

TEST(Answer, BracingWantsTheRightHumidity) {
  Asked asked{top_braces()};
  const auto cautions = [&](double humidity) {
    asked.humidity = {humidity};
    return answer(asked.question()).cautions;
  };
  EXPECT_THAT(cautions(35), ElementsAre(Caution::bracing_too_dry, Caution::plate_will_move,
                                        Caution::dry_run_first));
  EXPECT_THAT(cautions(47), ElementsAre(Caution::dry_run_first));
  asked.recipe.joint.traits.clear();
  asked.recipe.joint.plate = {};
  EXPECT_THAT(cautions(35), ElementsAre(Caution::dry_run_first));
}

TEST(Answer, AWoodWithoutPublishedMovementIsLeftOut) {
  const Asked asked{back_braces()};
  const JointAnswer a = answer(asked.question());
  EXPECT_FALSE(tells(a, plate_movement));
  EXPECT_THAT(a.unpublished, ::testing::ElementsAre(plate_movement));
}

TEST(Answer, WaterOfTheGlue) {
  Asked asked{top_braces()};
  asked.recipe.joint.thickness = {2.5};
  JointAnswer a = answer(asked.question());
  EXPECT_NEAR(figure(a, glue_water).band.value, 7.5, 1e-9);  // 150 g/m2, half water, 400 kg/m3
  EXPECT_NEAR(figure(a, glue_water).band.low, 3.75, 1e-9);
  EXPECT_TRUE(tells(a, levelling_wait));
  asked.recipe.finish.clear();  // nothing that is levelled could sink
  EXPECT_FALSE(tells(answer(asked.question()), levelling_wait));
  asked.recipe.joint.thickness = {0};
  EXPECT_FALSE(tells(answer(asked.question()), glue_water));
}

TEST(Answer, BareClampsCrushAndCaulsSpread) {
  Asked asked{bridge()};
  for (GearKind& k : asked.gear) {
    if (k.key == "deep") k.screw = "Tr12x3", k.torque = {6};
  }
  EXPECT_THAT(answer(asked.question()).cautions, Not(Contains(Caution::pad_crushes)));
  asked.recipe.needs.pop_back();  // the caul
  const JointAnswer a = answer(asked.question());
  EXPECT_THAT(a.cautions, Contains(Caution::pad_crushes));
  EXPECT_GT(figure(a, crush_share).band.value, 1);
  EXPECT_EQ(figure(a, clamp_force).by, FormulaId::screw_force);
}

TEST(Answer, NoCaulHelpsALineThatIsPressedTooHard) {
  const Asked asked{join_top()};  // four bars of 2500 N on 1500 mm2
  EXPECT_THAT(answer(asked.question()).cautions, Contains(Caution::pad_crushes));
}

TEST(Answer, TimesOfTheHourAndTheirFormulas) {
  Asked asked{close_box()};
  JointAnswer a = answer(asked.question());
  EXPECT_EQ(figure(a, open_time).band, (Band{630, 900, 1170}));
  EXPECT_EQ(figure(a, open_time).by, FormulaId::open_time);
  EXPECT_EQ(figure(a, dwell).by, FormulaId::cure);
  EXPECT_EQ(figure(a, wait).by, FormulaId::sheets);
  EXPECT_FALSE(tells(a, overrun_chance));  // nothing is known of the builder
  EXPECT_FALSE(tells(a, lot_age));

  asked.recipe.dwell = asked.of(Chemistry::aliphatic_slow).dwell = std::chrono::hours{2};
  asked.of(Chemistry::aliphatic_slow).wait += Minutes{30};
  asked.of(Chemistry::aliphatic_slow).lot_days_left = 12.5;
  asked.assembly = {Minutes{13}, 9, true};
  asked.chance = {3.0 / 11, 9};
  a = answer(asked.question());
  EXPECT_EQ(figure(a, dwell).by, FormulaId::sheets);  // the recipe's own
  EXPECT_EQ(figure(a, wait).by, FormulaId::cure);     // longer than the sheet's: it is cold
  EXPECT_EQ(figure(a, lot_age).band.value, 12.5);
  EXPECT_EQ(figure(a, assembly).n, 9);
  const Figure over = figure(a, overrun_chance);
  EXPECT_EQ(over.n, 9);
  EXPECT_NEAR(over.band.low, 0.144, 0.001);  // deviation of a beta of 3 and 8
  EXPECT_NEAR(over.band.high, 0.401, 0.001);
}

std::vector<InputOf> inputs(const JointAnswer& a, FigureOf of) {
  std::vector<InputOf> out;
  for (const Input& i : figure(a, of).inputs) {
    EXPECT_NE(i.mark, Mark::published);
    out.push_back(i.of);
  }
  return out;
}

TEST(Answer, WhatWentIntoAFigureIsSaid) {
  Asked asked{bridge()};
  const JointAnswer by_hand = answer(asked.question());
  EXPECT_THAT(inputs(by_hand, crush), ElementsAre(InputOf::density));
  EXPECT_EQ(figure(by_hand, crush).inputs[0].mark, Mark::recalled);
  EXPECT_THAT(inputs(by_hand, crush_share),
              ElementsAre(InputOf::density, InputOf::pad, InputOf::stated_force));
  EXPECT_THAT(inputs(by_hand, pressure_wanted), ElementsAre(InputOf::density));
  EXPECT_THAT(inputs(by_hand, pressure_achieved), ElementsAre(InputOf::stated_force));
  EXPECT_THAT(inputs(by_hand, clamps_by_spread), ElementsAre(InputOf::pad));
  EXPECT_THAT(inputs(by_hand, glue_water), ElementsAre(InputOf::water_share, InputOf::density));
  EXPECT_THAT(inputs(by_hand, levelling_wait), ElementsAre(InputOf::water_share, InputOf::density));
  EXPECT_THAT(inputs(by_hand, moisture_now), ElementsAre());
  for (GearKind& k : asked.gear) {
    if (k.key == "deep") k.screw = "Tr12x3", k.torque = {6}, k.pad = {30};
  }
  const JointAnswer screwed = answer(asked.question());
  EXPECT_THAT(inputs(screwed, clamp_force), ElementsAre(InputOf::friction));
  EXPECT_THAT(inputs(screwed, crush_share), ElementsAre(InputOf::density, InputOf::friction));
  EXPECT_THAT(inputs(screwed, clamps_by_spread), ElementsAre()) << "its pad is told";
  const Asked braces{top_braces()};
  EXPECT_THAT(inputs(answer(braces.question()), rod_bending), ElementsAre(InputOf::rod));
  const Asked bend{bent_sides()};
  EXPECT_THAT(inputs(answer(bend.question()), safe_to_touch), ElementsAre(InputOf::form_cooling));
}

TEST(Answer, NoPublishedFigureOfTheGearIsWithoutItsInputs) {
  for (const Recipe& recipe : craft_recipes()) {
    const Asked asked{recipe};
    for (const Figure& f : answer(asked.question()).figures) {
      if (!f.kind || formula(f.by).mark != Mark::published) continue;
      EXPECT_FALSE(f.inputs.empty()) << recipe.key << ", figure " << static_cast<int>(f.of);
    }
  }
}

TEST(Answer, BandsOfWhatVariesBetweenBoards) {
  const Asked asked{bridge()};
  const JointAnswer a = answer(asked.question());
  const Band crushes = figure(a, crush).band, share = figure(a, crush_share).band;
  EXPECT_NEAR(crushes.value, 4.06, 0.005);  // side grain of G 0.40, a quarter either way
  EXPECT_NEAR(crushes.low, 3.05, 0.005);
  EXPECT_NEAR(crushes.high, 5.08, 0.005);
  EXPECT_NEAR(share.low * crushes.high, share.value * crushes.value, 1e-9);
  EXPECT_NEAR(share.high * crushes.low, share.value * crushes.value, 1e-9);
  EXPECT_EQ(figure(a, coldest_wood).band, (Band{19, 20, 21}));
  const Band clamped = figure(a, dwell).band;  // 45 min; practice has 30 to 60
  EXPECT_NEAR(clamped.low, 1800, 1e-9);
  EXPECT_NEAR(clamped.high, 3600, 1e-9);
  const Asked braces{top_braces()};
  const Band bends = figure(answer(braces.question()), rod_bending).band;
  EXPECT_NEAR(bends.low / bends.value, 0.8, 1e-9);
  EXPECT_NEAR(bends.high / bends.value, 1.2, 1e-9);
}

TEST(Answer, ClosedTimeAndFullCureAreToldWhereTheSheetHasThem) {
  Asked asked{lining()};
  EXPECT_FALSE(tells(answer(asked.question()), closed_time));
  EXPECT_FALSE(tells(answer(asked.question()), full_cure));
  SheetAsked& pva = asked.of(Chemistry::pva);
  AdhesiveSheet sheet = *pva.sheet;  // open 7 min, wait 5 h
  sheet.closed = Seconds{210};
  sheet.full_cure = std::chrono::hours{24};
  pva.sheet = &sheet;
  JointAnswer a = answer(asked.question());
  EXPECT_EQ(figure(a, closed_time).band, (Band{147, 210, 273}));
  EXPECT_EQ(figure(a, closed_time).by, FormulaId::open_time);
  EXPECT_EQ(figure(a, full_cure).band.value, 86'400);
  EXPECT_EQ(figure(a, full_cure).by, FormulaId::sheets);
  EXPECT_LT(figure(a, full_cure).band.low, 86'400);

  pva.about.open = Seconds{300};      // a warm, dry hour
  pva.wait = std::chrono::hours{10};  // and a cold night
  a = answer(asked.question());
  EXPECT_NEAR(figure(a, closed_time).band.value, 150, 1e-9);
  EXPECT_NEAR(figure(a, full_cure).band.value, 2 * 86'400, 1e-9);
  EXPECT_EQ(figure(a, full_cure).by, FormulaId::cure);
}

TEST(Answer, WhatTheRecipeOrdersHasNoBand) {
  Asked asked{lining()};
  SheetAsked& pva = asked.of(Chemistry::pva);
  asked.recipe.dwell = pva.dwell = std::chrono::hours{2};
  asked.recipe.wait = pva.wait = std::chrono::hours{8};
  const JointAnswer a = answer(asked.question());
  EXPECT_EQ(figure(a, dwell).band, (Band{7200, 7200, 7200}));
  EXPECT_EQ(figure(a, wait).band, (Band{28'800, 28'800, 28'800}));
}

TEST(Answer, NearTheFloorIsCold) {
  Asked asked{lining()};
  asked.of(Chemistry::pva).coldest = {12};
  EXPECT_THAT(answer(asked.question()).cautions, Not(Contains(Caution::forecast_cold)));
  asked.of(Chemistry::pva).coldest = {11.9};
  EXPECT_THAT(answer(asked.question()).cautions, Contains(Caution::forecast_cold));
}

TEST(Answer, AnUnknownWoodIsNamedAndTheRestIsTold) {
  Asked asked{bridge()};
  asked.woods = {{"bridge", "moon-cheese"}};
  const JointAnswer a = answer(asked.question());
  ASSERT_TRUE(a.unknown);
  EXPECT_EQ(a.unknown->key, "moon-cheese");
  EXPECT_TRUE(a.glues.empty());
  EXPECT_TRUE(a.gear.empty());
  EXPECT_FALSE(tells(a, clamps));
  EXPECT_FALSE(tells(a, glue_water));
  EXPECT_TRUE(tells(a, dwell));
  EXPECT_TRUE(tells(a, moisture_now));
}

TEST(Answer, ANumberThatIsNoneIsLeftOutOnceWithRangeAndMend) {
  for (const double width : {0.0, -3.0, std::numeric_limits<double>::quiet_NaN()}) {
    Asked asked{lining()};
    asked.recipe.joint.width = {width};
    asked.recipe.needs.push_back(asked.recipe.needs.front());
    const JointAnswer a = answer(asked.question());
    EXPECT_FALSE(tells(a, clamps));
    ASSERT_EQ(a.left_out.size(), 1U);
    EXPECT_STREQ(a.left_out[0].what, "glued area, mm2");
    EXPECT_GT(a.left_out[0].most, a.left_out[0].least);
    EXPECT_STREQ(a.left_out[0].mend, "measure the joint in millimetres");
  }
}

TEST(Answer, AirBeyondTheFormulaIsLeftOut) {
  Asked asked{top_braces()};
  asked.humidity = {99};
  const JointAnswer a = answer(asked.question());
  EXPECT_FALSE(tells(a, moisture_now));
  EXPECT_FALSE(tells(a, plate_movement));
  EXPECT_TRUE(tells(a, moisture_service));
  EXPECT_EQ(a.left_out.size(), 1U);
}

TEST(Answer, GearThatTheShopDoesNotOwnIsLeftOut) {
  Asked asked{bridge()};
  asked.recipe.needs[0].throat = {1000};
  const JointAnswer a = answer(asked.question());
  EXPECT_TRUE(a.gear.empty());
  EXPECT_TRUE(left_out(a, "kinds of gear that would do"));
}

TEST(Answer, AJointThatIsNotDescribedHasTheRecipesOwnFigures) {
  Asked asked{bridge()};
  asked.recipe.joint = {};
  const JointAnswer a = answer(asked.question());
  EXPECT_TRUE(a.gear.empty());
  EXPECT_TRUE(a.left_out.empty());
  EXPECT_THAT(kinds_of_figures(a), ElementsAre(open_time, assembly, dwell, wait, coldest_wood,
                                               moisture_now, moisture_service));
  EXPECT_EQ(a.glues.front().sheet, sheet_of(Chemistry::aliphatic));
}

}  // namespace
}  // namespace squeezeout
