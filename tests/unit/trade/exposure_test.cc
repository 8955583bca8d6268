#include "common/trade/exposure.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>
#include <set>

#include "tests/unit/trade/any.h"
#include "tests/unit/trade/refused.h"

namespace squeezeout {
namespace {

const SolventFacts& facts(std::string_view key) { return **solvent(key); }

rc::Gen<SolventUse> uses() {
  return rc::gen::exec([] {
    const auto i = *rc::gen::inRange<std::size_t>(0, solvents().size());
    return SolventUse{&solvents()[i], *rc::gen::oneOf(rc::gen::just(0.0), across(.01, 1000))};
  });
}
rc::Gen<LimitSet> sets() { return rc::gen::element(LimitSet::osha, LimitSet::niosh); }

TEST(Solvents, EachIsFoundByItsKeyAndHasALimit) {
  std::set<std::string_view> keys;
  for (const SolventFacts& s : solvents()) {
    EXPECT_EQ(*solvent(s.key), &s);
    EXPECT_TRUE(keys.insert(s.key).second);
    for (const LimitSet set : {LimitSet::osha, LimitSet::niosh}) {
      EXPECT_GT(limit(s, set).value, 0) << s.key;
      EXPECT_LE(limit(s, set).value, s.osha.value) << s.key;
    }
    // Lighter than 50 or heavier than 120 g/mol nothing of the list is.
    EXPECT_GT(s.molar_mass, 50) << s.key;
    EXPECT_LT(s.molar_mass, 120) << s.key;
  }
  EXPECT_EQ(solvent("water").error().key, "water");
}

// The set without a figure falls back, and the stricter rule wins in both.
TEST(Solvents, DichloromethaneHasTheStricterLimitInBothSets) {
  EXPECT_EQ(limit(facts("dichloromethane"), LimitSet::osha).value, 2);
  EXPECT_EQ(limit(facts("dichloromethane"), LimitSet::niosh).value, 2);
  SolventFacts before = facts("dichloromethane");
  before.epa = {0};
  EXPECT_EQ(limit(before, LimitSet::osha).value, 25);
  EXPECT_EQ(limit(before, LimitSet::niosh).value, 25);
}

RC_GTEST_PROP(Exposure, MassAndBack, ()) {
  const double level = *between(0, 1e6), molar_mass = *between(10, 300);
  RC_ASSERT(std::abs(ppm_of(mg_per_m3({level}, molar_mass), molar_mass).value - level) <=
            1e-12 * (1 + level));
}

TEST(Exposure, AverageCountsFreeHoursAndLongDays) {
  EXPECT_EQ(*time_weighted({}), 0);
  const std::array<Exposure, 1> hour{{{{800}, 1}}};
  EXPECT_EQ(*time_weighted(hour), 100);
  const std::array<Exposure, 1> long_day{{{{100}, 12}}};
  EXPECT_EQ(*time_weighted(long_day), 150);  // more than eight hours weigh more
}

TEST(Exposure, AverageRefuses) {
  for (const double bad : {-1.0, kNan, kInfinite}) {
    const std::array<Exposure, 2> level{{{{10}, 1}, {{bad}, 1}}};
    EXPECT_TRUE(refused(time_weighted(level), bad)) << bad;
    const std::array<Exposure, 2> hours{{{{10}, 1}, {{10}, bad}}};
    EXPECT_TRUE(refused(time_weighted(hours), bad)) << bad;
  }
  const std::array<Exposure, 2> two_days{{{{10}, 13}, {{10}, 13}}};
  EXPECT_TRUE(refused(time_weighted(two_days), 26));
}

TEST(Exposure, MixtureOfNothingIsNothing) { EXPECT_EQ(mixture({}), 0); }

TEST(ExposureDeathTest, NoLimitIsABug) {
  const std::array<Share, 1> none{{{{10}, {0}}}};
  EXPECT_DEATH(static_cast<void>(mixture(none)), "does not hold");
}

RC_GTEST_PROP(Dilution, IsThereThenAndNotASecondSooner, ()) {
  const double from = *across(1e-3, 1e6), to = *across(1e-3, 1e6);
  const double room = *across(5, 1e6), air = *across(.01, 1e5);
  const auto after = [&](double s) { return from * std::exp(-air * s / 60 / room); };
  const auto wait = static_cast<double>(dilution_time(from, to, room, air)->count());
  RC_ASSERT(after(wait) <= to * (1 + 1e-9));
  if (wait > 0) RC_ASSERT(after(wait - 1) > to * (1 - 1e-9));
}

TEST(Dilution, AlreadyThere) {
  EXPECT_EQ(*dilution_time(100, 100, 60, 6), Seconds{0});
  EXPECT_EQ(*dilution_time(0, 100, 60, 6), Seconds{0});
}

TEST(Dilution, Refuses) {
  for (const double bad : {-1.0, kNan, kInfinite})
    EXPECT_TRUE(refused(dilution_time(bad, 100, 60, 6), bad)) << bad;
  for (const double bad : {0.0, -1.0, kNan, kInfinite}) {
    EXPECT_TRUE(refused(dilution_time(400, bad, 60, 6), bad)) << bad;
    EXPECT_TRUE(refused(dilution_time(400, 100, bad, 6), bad)) << bad;
    EXPECT_TRUE(refused(dilution_time(400, 100, 60, bad), bad)) << bad;
  }
}

TEST(SolventDay, OneUse) {
  // 12 g of butanone in 60 m3: 200 mg/m3, 67.8 ppm, under its 200.
  const std::array<SolventUse, 1> day{{{&facts("butanone"), 12}}};
  const DayOfSolvent d = *solvent_day(day, 60, 6, LimitSet::osha);
  EXPECT_EQ(d.greatest, &facts("butanone"));
  EXPECT_NEAR(d.peak.value, 200 * 24.45 / 72.11, 1e-9);
  EXPECT_EQ(d.airing, Minutes{0});
  ASSERT_EQ(d.averages.size(), 1U);
  EXPECT_NEAR(d.averages[0].average.value, 12000.0 / (6 * 480) * 24.45 / 72.11, 1e-9);
  EXPECT_EQ(d.averages[0].limit.value, 200);
  EXPECT_NEAR(d.mixture, d.averages[0].average.value / 200, 1e-12);
}

// The greatest use is the one that stands highest against its limit, not the heaviest.
TEST(SolventDay, SmallButWorse) {
  const std::array<SolventUse, 3> day{
      {{&facts("acetone"), 40}, {&facts("dichloromethane"), 20}, {&facts("acetone"), 40}}};
  const DayOfSolvent d = *solvent_day(day, 60, 6, LimitSet::osha);
  EXPECT_EQ(d.greatest, &facts("dichloromethane"));
  // 96 ppm down to 2 takes ln(48) room changes of ten minutes: 38.7, up to 39.
  EXPECT_NEAR(d.peak.value, 95.96, .01);
  EXPECT_EQ(d.airing, Minutes{39});
  ASSERT_EQ(d.averages.size(), 2U);  // one a solvent
  EXPECT_EQ(d.averages[0].solvent, &facts("acetone"));
  EXPECT_NEAR(d.averages[0].average.value, 80000.0 / 2880 * 24.45 / 58.08, 1e-9);
}

TEST(SolventDay, NothingUsed) {
  const std::array<SolventUse, 1> none{{{&facts("acetone"), 0}}};
  for (const std::span<const SolventUse> day : {std::span<const SolventUse>{}, {none}}) {
    const DayOfSolvent d = *solvent_day(day, 60, 6, LimitSet::niosh);
    EXPECT_EQ(d.greatest, nullptr);
    EXPECT_EQ(d.peak.value, 0);
    EXPECT_EQ(d.airing, Minutes{0});
    EXPECT_TRUE(d.averages.empty());
    EXPECT_EQ(d.mixture, 0);
  }
}

RC_GTEST_PROP(SolventDay, EveryFigureIsFiniteAndMoreUseIsNeverLess, ()) {
  auto day = *rc::gen::container<std::vector<SolventUse>>(uses());
  const double room = *across(5, 1e6), air = *across(.01, 1e5);
  const LimitSet set = *sets();
  const DayOfSolvent before = *solvent_day(day, room, air, set);
  day.push_back(*uses());
  const DayOfSolvent after = *solvent_day(day, room, air, set);
  RC_ASSERT(std::isfinite(after.mixture) && std::isfinite(after.peak.value));
  RC_ASSERT(after.mixture >= before.mixture * (1 - 1e-12));
  RC_ASSERT(after.airing >= before.airing);
  RC_ASSERT(after.averages.size() >= before.averages.size());
}

RC_GTEST_PROP(SolventDay, MoreAirIsNeverWorse, ()) {
  const auto day = *rc::gen::container<std::vector<SolventUse>>(uses());
  const double room = *across(5, 1e6), air = *across(.01, 1e5);
  const LimitSet set = *sets();
  const DayOfSolvent less = *solvent_day(day, room, air, set);
  const DayOfSolvent more = *solvent_day(day, room, std::max(air, *across(.01, 1e5)), set);
  RC_ASSERT(more.mixture <= less.mixture * (1 + 1e-12));
  RC_ASSERT(more.airing <= less.airing);
}

TEST(SolventDay, Refuses) {
  const std::array<SolventUse, 1> day{{{&facts("butanone"), 12}}};
  for (const double bad : {0.0, -1.0, kNan, kInfinite}) {
    EXPECT_TRUE(refused(solvent_day(day, bad, 6, LimitSet::osha), bad)) << bad;
    EXPECT_TRUE(refused(solvent_day(day, 60, bad, LimitSet::osha), bad)) << bad;
  }
  for (const double bad : {-1.0, kNan, kInfinite, 5000.0}) {
    const std::array<SolventUse, 1> use{{{&facts("butanone"), bad}}};
    EXPECT_TRUE(refused(solvent_day(use, 60, 6, LimitSet::osha), bad)) << bad;
  }
}

}  // namespace
}  // namespace squeezeout
