#include "common/trade/assembly.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <vector>

namespace squeezeout {
namespace {

constexpr Seconds kRecipe{270};  // not whole minutes: given back as it is

std::vector<Seconds> minutes(std::initializer_list<int> all) {
  std::vector<Seconds> out;
  for (const int m : all) out.push_back(Minutes{m});
  return out;
}
rc::Gen<std::vector<Seconds>> samples() {
  return rc::gen::container<std::vector<Seconds>>(
      rc::gen::map(rc::gen::inRange(0, 7200), [](int s) { return Seconds{s}; }));
}

TEST(AssemblyTime, FewSamplesFallBackToTheRecipe) {
  for (const auto& few : {minutes({}), minutes({9}), minutes({9, 9, 9, 9})}) {
    const AssemblyPlan plan = plan_assembly(kRecipe, few);
    EXPECT_EQ(plan.planned, kRecipe);
    EXPECT_EQ(plan.n, static_cast<int>(few.size()));
    EXPECT_FALSE(plan.learned);
  }
}

TEST(AssemblyTime, OrderStatistic) {
  const auto planned = [](std::initializer_list<int> all) {
    const AssemblyPlan plan = plan_assembly(kRecipe, minutes(all));
    EXPECT_TRUE(plan.learned);
    return std::chrono::duration_cast<Minutes>(plan.planned).count();
  };
  EXPECT_EQ(planned({5, 1, 4, 2, 3}), 5);                  // 0.8 * 6 = 4.8: the 5th, the largest
  EXPECT_EQ(planned({6, 5, 1, 4, 2, 3}), 6);               // 5.6: the 6th
  EXPECT_EQ(planned({9, 8, 7, 6, 5, 4, 3, 2, 1}), 8);      // 8 exactly: the 8th, not the 9th
  EXPECT_EQ(planned({10, 9, 8, 7, 6, 5, 4, 3, 2, 1}), 9);  // 8.8: the 9th
}

TEST(AssemblyTime, RoundsUpToTheMinute) {
  const std::vector<Seconds> all(5, Seconds{241});
  EXPECT_EQ(plan_assembly(kRecipe, all).planned, Minutes{5});
  const std::vector<Seconds> whole(5, Seconds{240});
  EXPECT_EQ(plan_assembly(kRecipe, whole).planned, Minutes{4});
  const std::vector<Seconds> none(5, Seconds{0});
  EXPECT_EQ(plan_assembly(kRecipe, none).planned, Minutes{1});
}

RC_GTEST_PROP(AssemblyTime, FourInFiveKeepItAndOrderDoesNotMatter, ()) {
  auto all = *samples();
  RC_PRE(all.size() >= static_cast<std::size_t>(kSamplesToLearn));
  const Seconds planned = plan_assembly(kRecipe, all).planned;
  const auto kept = std::count_if(all.begin(), all.end(), [&](Seconds s) { return s <= planned; });
  RC_ASSERT(5 * kept >= 4 * static_cast<std::ptrdiff_t>(all.size()));
  std::reverse(all.begin(), all.end());
  RC_ASSERT(plan_assembly(kRecipe, all).planned == planned);
  for (Seconds& s : all) s += Seconds{90};
  RC_ASSERT(plan_assembly(kRecipe, all).planned >= planned + Minutes{1});
}

TEST(OverrunChance, RuleOfSuccession) {
  EXPECT_EQ(overrun_chance(Minutes{5}, {}).chance, .5);
  EXPECT_EQ(overrun_chance(Minutes{5}, {}).n, 0);
  const auto all = minutes({4, 5, 6, 7});  // at the open time exactly is in time
  EXPECT_EQ(overrun_chance(Minutes{5}, all).chance, 3.0 / 6);
  EXPECT_EQ(overrun_chance(Minutes{7}, all).chance, 1.0 / 6);
  EXPECT_EQ(overrun_chance(Minutes{1}, all).chance, 5.0 / 6);
  EXPECT_EQ(overrun_chance(Minutes{1}, all).n, 4);
}

RC_GTEST_PROP(OverrunChance, IsAChanceAndLongerOpenNeverWorse, ()) {
  const auto all = *samples();
  const Seconds a{*rc::gen::inRange(0, 7200)}, b{*rc::gen::inRange(0, 7200)};
  const double chance = overrun_chance(std::min(a, b), all).chance;
  RC_ASSERT(chance > 0 && chance < 1);
  RC_ASSERT(overrun_chance(std::max(a, b), all).chance <= chance);
}

}  // namespace
}  // namespace squeezeout
