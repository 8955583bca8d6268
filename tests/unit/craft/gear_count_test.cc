// Counts that a practitioner knows by heart, their bands, and what limits them.
#include "common/craft/gear_count.h"

#include <gtest/gtest.h>

#include <limits>

#include "tests/unit/craft/craft_shop.h"

namespace squeezeout {
namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();

// Of the recipe's first need, with the plainest kind of the shop.
GearCount counted(const Recipe& recipe, std::optional<int> fixed = std::nullopt) {
  const auto gear = craft_gear();
  const GearKind* kind = plainest(recipe.needs.front(), gear);
  CHECK(kind);
  return gear_count(recipe.joint, *kind, fixed, deck_gap_of(recipe, gear)).value();
}

struct Known {
  Recipe recipe;
  int least, most;  // the count
  int highest;      // the band's end
  GearCount::Limit by;
};

TEST(GearCount, ComesOutAsPracticeHasIt) {
  using enum GearCount::Limit;
  const Known known[] = {
      {bridge(), 3, 3, 5, even_line},        {lining(), 32, 32, 44, even_line},
      {close_box(), 30, 30, 30, even_line},  {fretboard(), 6, 10, 12, even_line},
      {top_braces(), 14, 24, 28, even_line}, {back_braces(), 16, 30, 34, least_pressure},
      {join_top(), 3, 5, 4, even_line}};
  for (const Known& k : known) {
    const GearCount c = counted(k.recipe);
    EXPECT_GE(c.count, k.least) << k.recipe.key;
    EXPECT_LE(c.count, k.most) << k.recipe.key;
    EXPECT_EQ(c.high, k.highest) << k.recipe.key;
    EXPECT_EQ(c.limit, k.by) << k.recipe.key;
    EXPECT_EQ(c.low, c.by_spread) << k.recipe.key;
    EXPECT_EQ(c.count, std::max(c.by_spread, c.by_least_pressure)) << k.recipe.key;
    EXPECT_LE(c.low, c.count) << k.recipe.key;
    EXPECT_LE(c.count, c.high) << k.recipe.key;
  }
}

TEST(GearCount, ThreeDeepClampsOnABridge) {
  const GearCount c = counted(bridge(), 3);
  EXPECT_EQ(c.count, 3);              // 180 mm over 20 + 2 * 23
  EXPECT_EQ(c.by_least_pressure, 2);  // 0.25 MPa * 5400 mm2 / 900 N
  EXPECT_EQ(c.by_handbook, 5);        // 0.81 MPa of spruce, the softer face
  EXPECT_EQ(c.fixed, 3);
  EXPECT_NEAR(c.wanted.value, 0.8111, 1e-4);
  EXPECT_DOUBLE_EQ(c.wanted.low, 0.25);
  EXPECT_DOUBLE_EQ(c.achieved.value, 0.5);
  EXPECT_DOUBLE_EQ(c.achieved.low, 0.4);
  EXPECT_DOUBLE_EQ(c.achieved.high, 0.6);
  EXPECT_EQ(c.force, (Band{720, 900, 1080}));
  EXPECT_EQ(c.force_by, FormulaId::stated_force);
  EXPECT_NEAR(c.crush.value, 4.06, 0.01);
  EXPECT_NEAR(c.crush_share, 1080.0 / 400 / c.crush.value, 1e-12);
  EXPECT_LT(c.crush_share, 1);
  EXPECT_FALSE(c.sprung);
}

TEST(GearCount, ALineIsNoCloserThanHalfOverlapping) {
  const GearCount c = counted(top_braces());
  EXPECT_EQ(c.by_close_line, 28);  // 840 over 12 + 18
  EXPECT_EQ(c.by_handbook, 137);   // no deck holds so many: the band ends at the close line
  EXPECT_EQ(c.high, 28);
}

TEST(GearCount, FixedCountChangesWhatIsAchievedAndNothingElse) {
  const GearCount asked = counted(lining()), fixed = counted(lining(), 16);
  EXPECT_EQ(fixed.count, asked.count);
  EXPECT_EQ(fixed.high, asked.high);
  EXPECT_NEAR(fixed.achieved.value, asked.achieved.value / 2, 1e-12);
  EXPECT_FALSE(asked.fixed);
}

TEST(GearCount, ScrewAndTorqueGiveTheForce) {
  GearKind deep = kind_of(craft_gear(), "deep");
  deep.screw = "Tr12x3";
  EXPECT_EQ(gear_count(bridge().joint, deep, {}, {}).value().force_by, FormulaId::stated_force);
  deep.torque = {6};
  const GearCount c = gear_count(bridge().joint, deep, {}, {}).value();
  EXPECT_EQ(c.force_by, FormulaId::screw_force);
  EXPECT_NEAR(c.force.value, 2910.8, 0.1);
  EXPECT_LT(c.force.low, 0.85 * c.force.value);
  EXPECT_GT(c.force.high, 1.25 * c.force.value);
  EXPECT_EQ(c.by_least_pressure, 1);
  EXPECT_EQ(c.count, 3);        // still an even line
  EXPECT_GT(c.crush_share, 1);  // on a bare pad of 20 mm
  deep.screw = "coarse";        // no such thread: what is stated counts
  EXPECT_EQ(gear_count(bridge().joint, deep, {}, {}).value().force.value, 900);
}

TEST(GearCount, GoBarsAreSprungInTheDeck) {
  const GearCount c = counted(top_braces());
  ASSERT_TRUE(c.sprung);
  EXPECT_NEAR(c.force.value, 34.86, 0.01);
  EXPECT_NEAR(c.force.low, 0.8 * 34.86, 0.01);
  EXPECT_EQ(c.force_by, FormulaId::go_bar);
  EXPECT_NEAR(c.sprung->bending.value, 68.4, 0.05);  // of 100
  EXPECT_NEAR(*c.bending_share, 0.684, 0.0005);
  EXPECT_EQ(c.by_spread, 18);          // 840 over 12 + 2 * 18: the rod's width is its pad
  EXPECT_EQ(c.by_least_pressure, 17);  // 588 N
}

TEST(GearCount, WithoutADeckTheRodsOwnForceCounts) {
  GearKind rod = kind_of(craft_gear(), "go-bar");
  rod.force = {35};
  const GearCount c = gear_count(top_braces().joint, rod, {}, {}).value();
  EXPECT_FALSE(c.sprung);
  EXPECT_FALSE(c.bending_share);
  EXPECT_EQ(c.force.value, 35);
  EXPECT_EQ(c.force_by, FormulaId::stated_force);
}

TEST(GearCount, ARodThatDoesNotFitTheDeckIsRefusedWithAMend) {
  const auto no = gear_count(top_braces().joint, kind_of(craft_gear(), "go-bar"), {}, {720});
  ASSERT_FALSE(no);
  EXPECT_STREQ(std::get<OutOfRange>(no.error()).mend, "take a longer bar");
}

TEST(GearCount, ANarrowLineTakesTheWholePad) {
  // A pad of 20 mm on the 3 mm edge of a top bears on 60 mm2: without cauls it leaves a mark.
  const GearCount c = counted(join_top());
  EXPECT_NEAR(c.crush_share, 3000.0 / 60 / c.crush.value, 1e-12);
  EXPECT_GT(c.crush_share, 1);
}

TEST(GearCount, RefusesWhatIsNoJoint) {
  const auto gear = craft_gear();
  const GearKind& spring = kind_of(gear, "spring");
  struct Bad {
    const char* name;
    Joint joint;
    const char* what;
  };
  const Joint good = lining().joint;
  std::vector<Bad> bad(6, {"", good, ""});
  bad[0].name = "width 0", bad[0].joint.width = {0}, bad[0].what = "glued area, mm2";
  bad[1].name = "width NaN", bad[1].joint.width = {kNaN}, bad[1].what = "glued area, mm2";
  bad[2].name = "length NaN", bad[2].joint.length = {kNaN},
  bad[2].what = "length of the glue line, mm";
  bad[3].name = "under", bad[3].joint.under = {-1}, bad[3].what = "depth under the pad, mm";
  bad[4].name = "least", bad[4].joint.least_pressure = {0}, bad[4].what = "pressure, MPa";
  bad[5].name = "no wood", bad[5].joint.a.material = bad[5].joint.b.material = "",
  bad[5].what = "specific gravity of the wood";
  for (const Bad& b : bad) {
    const auto no = gear_count(b.joint, spring, {}, {});
    ASSERT_FALSE(no) << b.name;
    const auto& why = std::get<OutOfRange>(no.error());
    EXPECT_STREQ(why.what, b.what) << b.name;
    EXPECT_LT(why.least, why.most) << b.name;
    EXPECT_STRNE(why.mend, "") << b.name;
  }
  GearKind limp = spring;
  limp.force = {};
  EXPECT_STREQ(std::get<OutOfRange>(gear_count(good, limp, {}, {}).error()).what,
               "force of one clamp, N");
}

TEST(GearCount, PlasticAloneIsNoWood) {
  Joint joint = lining().joint;
  joint.a.material = joint.b.material = "abs-binding";
  const auto no = gear_count(joint, kind_of(craft_gear(), "spring"), {}, {});
  ASSERT_FALSE(no);
  EXPECT_STREQ(std::get<OutOfRange>(no.error()).what, "specific gravity of the wood");
}

TEST(GearCount, ARodOfNoThicknessIsRefused) {
  GearKind rod = kind_of(craft_gear(), "go-bar");
  rod.force = {35}, rod.rod_thickness = {kNaN};
  const auto no = gear_count(top_braces().joint, rod, {}, {});
  ASSERT_FALSE(no);
  EXPECT_STREQ(std::get<OutOfRange>(no.error()).what, "breadth of the pad, mm");
}

TEST(GearCount, AnUnknownWoodIsNamed) {
  Joint joint = lining().joint;
  joint.b.material = "moon-cheese";
  const auto no = gear_count(joint, kind_of(craft_gear(), "spring"), {}, {});
  ASSERT_FALSE(no);
  EXPECT_EQ(std::get<UnknownMaterial>(no.error()).key, "moon-cheese");
}

TEST(Plainest, IsTheLeastCapableThatWillDo) {
  auto gear = craft_gear();
  GearNeed need{.gear_class = GearClass::clamp, .throat = {100}};
  EXPECT_EQ(plainest(need, gear)->key, "cam");
  for (GearKind& k : gear) {
    if (k.key == "cam") k.stock = 0;  // owned no more
  }
  EXPECT_EQ(plainest(need, gear)->key, "deep");
  need.throat = {1000};
  EXPECT_EQ(plainest(need, gear), nullptr);
}

TEST(NeedsOf, WorksOutWhatTheRecipeLeavesOpen) {
  const auto gear = craft_gear();
  Recipe recipe = top_braces();
  recipe.needs[0].count = 0;
  const auto needs = needs_of(recipe, recipe.joint, gear);
  ASSERT_EQ(needs.size(), 3U);
  EXPECT_EQ(needs[0].count, 18);
  EXPECT_EQ(needs[1].count, 1);
  EXPECT_EQ(needs[2].count, 1);
  EXPECT_EQ(needs_of(lining(), lining().joint, gear)[0].count, 32);
}

TEST(NeedsOf, LeavesFixedCountsAndOtherGearAlone) {
  const auto gear = craft_gear();
  Recipe recipe = bridge();
  recipe.needs[0].count = 5;  // three would do
  EXPECT_EQ(needs_of(recipe, recipe.joint, gear), recipe.needs);
  recipe.needs = {{.gear_class = GearClass::caul, .count = 0}};
  EXPECT_EQ(needs_of(recipe, recipe.joint, gear), recipe.needs);
}

TEST(NeedsOf, IsAtLeastOneWhateverTheJoint) {
  const auto gear = craft_gear();
  Recipe recipe = lining();
  for (const double length : {0.0, -700.0, kNaN, 1e9}) {
    recipe.joint.length = {length};
    EXPECT_EQ(needs_of(recipe, recipe.joint, gear)[0].count, 1) << length;
  }
  EXPECT_EQ(needs_of(lining(), lining().joint, {})[0].count, 1);
  Joint unknown = lining().joint;
  unknown.a.material = "moon-cheese";
  EXPECT_EQ(needs_of(lining(), unknown, gear)[0].count, 32);
}

}  // namespace
}  // namespace squeezeout
