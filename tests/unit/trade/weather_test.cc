#include "common/trade/weather.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "tests/unit/trade/night.h"

namespace squeezeout {
namespace {

using std::chrono::hours;

const Seconds kTimeConstants[] = {Seconds{0}, Seconds{48}, Minutes{20}, Minutes{160}, hours{24}};

TEST(Weather, IsStraightBetweenPointsAndConstantOutside) {
  const Weather w{{{kEvening, {20}, {40}}, {kEvening + Minutes{10}, {10}, {60}}}};
  EXPECT_EQ(w.air(kEvening - hours{9}), Celsius{20});
  EXPECT_EQ(w.air(kEvening), Celsius{20});
  EXPECT_DOUBLE_EQ(w.air(kEvening + Minutes{3}).value, 17);
  EXPECT_DOUBLE_EQ(w.humidity(kEvening + Minutes{3}).value, 46);
  EXPECT_EQ(w.air(kEvening + Minutes{10}), Celsius{10});
  EXPECT_EQ(w.humidity(kEvening + hours{9}), Percent{60});
  EXPECT_EQ(Weather::steady({13}, {55}).air(kEvening), Celsius{13});
}

TEST(WeatherDeathTest, IsNeverEmptyNorOutOfOrder) {
  EXPECT_DEATH(Weather{std::vector<AirPoint>{}}, "bug");
  EXPECT_DEATH((Weather{{{kEvening, {20}, {40}}, {kEvening, {10}, {60}}}}), "bug");
}

TEST(WoodTimeConstant, GrowsWithThickness) {
  EXPECT_EQ(wood_time_constant({0}), Seconds{0});
  EXPECT_EQ(wood_time_constant({2.5}), Minutes{20});
  EXPECT_EQ(wood_time_constant({5}), Minutes{40});
  EXPECT_EQ(wood_time_constant({1000}), hours{24});
  EXPECT_EQ(wood_time_constant({-1}), Seconds{0});
  EXPECT_EQ(wood_time_constant({std::numeric_limits<double>::quiet_NaN()}), Seconds{0});
}

TEST(WoodCourse, MakesUpMostOfAStepInOneTimeConstant) {
  const Weather w{{{kEvening, {20}, {50}}, {kEvening + Seconds{1}, {10}, {50}}}};
  const WoodCourse wood{w, Minutes{20}};
  EXPECT_EQ(wood.at(kEvening), Celsius{20});
  EXPECT_NEAR(wood.at(kEvening + Minutes{20}).value, 10 + 10 * std::exp(-1), 0.01);
}

TEST(WoodCourse, AgreesWithTheSlowWay) {
  const Weather night = recorded_night();
  for (const Seconds tau : kTimeConstants) {
    const WoodCourse wood{night, tau};
    const SlowWood slow{night, tau, hours{20}};
    for (Instant t = slow.begin(); t < slow.end(); t += Seconds{37})
      ASSERT_NEAR(wood.at(t).value, slow.at(t), 2e-6)
          << tau.count() << " s, " << (t - kEvening).count();
  }
}

TEST(WoodCourse, FindsTheColdestHour) {
  const Weather night = recorded_night();
  for (const Seconds tau : kTimeConstants) {
    const WoodCourse wood{night, tau};
    const SlowWood slow{night, tau, hours{20}};
    for (int begin = 0; begin < 15; ++begin) {
      for (int length = 0; length < 5; ++length) {
        const Span span{kEvening + hours{begin}, kEvening + hours{begin + length}};
        double least = slow.at(span.begin);
        for (Instant t = span.begin; t <= span.end; t += Seconds{1})
          least = std::min(least, slow.at(t));
        EXPECT_NEAR(wood.coldest(span).value, least, 1e-5) << begin << " " << length;
      }
    }
  }
}

// The first second of the span at which the slow wood is below (or not below) a temperature.
std::optional<Instant> scan(const SlowWood& slow, Span span, auto holds) {
  for (Instant t = span.begin; t < span.end; t += Seconds{1})
    if (holds(slow.at(t))) return t;
  return std::nullopt;
}

TEST(WoodCourse, FindsWhereItFallsBelowAndWhenItIsWarmAgain) {
  const Weather night = recorded_night();
  for (const Seconds tau : {Seconds{0}, Seconds{Minutes{20}}, Seconds{Minutes{160}}}) {
    const WoodCourse wood{night, tau};
    const SlowWood slow{night, tau, hours{40}};
    for (const double least : {11.05, 12.3, 14.97, 15.9, 16.35, 19.03, 20.7, 20.9, 21.5}) {
      for (int begin = 0; begin < 16; ++begin) {
        const Span span{kEvening + hours{begin}, slow.end()};
        const auto below = wood.first_below(span, {least});
        const auto below_slow = scan(slow, span, [&](double w) { return w < least - 1e-6; });
        ASSERT_EQ(below.has_value(), below_slow.has_value()) << least << " " << begin;
        if (below) {
          EXPECT_LE(std::abs((*below - *below_slow).count()), 1) << least << " " << begin;
        }
        const auto warm = wood.warm_again(span.begin, {least});
        const auto warm_slow = scan(slow, span, [&](double w) { return w >= least - 1e-6; });
        ASSERT_EQ(warm.has_value(), warm_slow.has_value()) << least << " " << begin;
        if (!warm) continue;
        EXPECT_GE(wood.at(*warm).value, least - 1e-6);
        EXPECT_GE(*warm, *warm_slow - Seconds{1});
        if (*warm != span.begin) {
          EXPECT_EQ(warm->time_since_epoch() % Minutes{1}, Seconds{0});
        }
      }
    }
  }
}

TEST(WoodCourse, WarmForSomeSecondsOnlyIsNotWarmAgain) {
  const auto at = [](int s) { return kEvening + Seconds{s}; };
  const Weather blink{{{at(0), {9}, {50}},
                       {at(5), {11}, {50}},
                       {at(10), {9}, {50}},
                       {at(600), {9}, {50}},
                       {at(610), {11}, {50}}}};
  EXPECT_EQ(WoodCourse(blink, Seconds{0}).warm_again(at(0), {10}), at(660));
  const Weather cold{{{at(0), {9}, {50}}, {at(5), {11}, {50}}, {at(10), {9}, {50}}}};
  EXPECT_EQ(WoodCourse(cold, Seconds{0}).warm_again(at(0), {10}), std::nullopt);
  EXPECT_EQ(WoodCourse(Weather::steady({9}, {50}), Minutes{20}).warm_again(at(0), {10}),
            std::nullopt);
  EXPECT_EQ(WoodCourse(Weather::steady({10}, {50}), Minutes{20}).warm_again(at(7), {10}), at(7));
}

TEST(WoodCourse, AWarmingLineThatBeginsAtTheFloorIsNeverBelowIt) {
  for (int minutes = 1; minutes < 600; minutes += 7) {
    const Weather w{{{kEvening, {10}, {50}}, {kEvening + Minutes{minutes}, {17}, {50}}}};
    const WoodCourse wood{w, Minutes{20}};
    EXPECT_EQ(wood.first_below({kEvening, kEvening + hours{30}}, {10}), std::nullopt) << minutes;
  }
}

TEST(WoodCourse, IsSteadyInTheEnd) {
  EXPECT_EQ(WoodCourse(Weather::steady({13}, {55}), Minutes{20}).steady_from(), Instant::min());
  for (const Seconds tau : kTimeConstants) {
    const WoodCourse wood{recorded_night(), tau};
    const Instant steady = wood.steady_from();
    EXPECT_GE(steady, recorded_night().points().back().at);
    EXPECT_NEAR(wood.at(steady - Seconds{1}).value, 20.8, 1e-3);
    EXPECT_EQ(wood.at(steady), Celsius{20.8});
    EXPECT_EQ(wood.at(steady + hours{24 * 365}), Celsius{20.8});
    EXPECT_TRUE(wood.stretch(steady).constant());
  }
}

TEST(WoodCourse, BendsAtEachReadingAndWhereItTurns) {
  const Weather night = recorded_night();
  const WoodCourse wood{night, Minutes{20}};
  std::vector<Instant> bends;
  for (Instant t = kEvening - Seconds{1}; t < wood.steady_from(); t = bends.back())
    bends.push_back(wood.stretch(t).until);
  for (const AirPoint& p : night.points())
    EXPECT_NE(std::find(bends.begin(), bends.end(), p.at), bends.end());
  EXPECT_GT(bends.size(), night.points().size()) << "the heating turns it";
  for (std::size_t i = 1; i < bends.size(); ++i) {  // between two it only rises or only falls
    int rises = 0, falls = 0;
    for (Instant t = bends[i - 1]; t + Seconds{30} <= bends[i]; t += Seconds{30}) {
      const double change = (wood.at(t + Seconds{30}) - wood.at(t)).value;
      rises += change > 1e-5;
      falls += change < -1e-5;
    }
    EXPECT_TRUE(rises == 0 || falls == 0) << i;
  }
}

}  // namespace
}  // namespace squeezeout
