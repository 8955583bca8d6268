// Workload of the comparison: the invented night of night.h, wood of four thicknesses, glue by points and by reaction.

#include "common/trade/cure.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "tests/unit/trade/night.h"

namespace squeezeout {
namespace {

using std::chrono::hours;

AdhesiveSheet without_floor(AdhesiveSheet s) {
  s.floor = {-40};
  return s;
}

Weather shifted(const Weather& weather, double kelvin) {
  auto points = weather.points();
  for (AirPoint& p : points) p.air.value += kelvin;
  return Weather{std::move(points)};
}

TEST(Cure, AConstantNightIsTheClosedForm) {
  for (const AdhesiveSheet& s : {aliphatic(), slow_epoxy()}) {
    for (double c = s.floor.value; c <= 40; c += 0.37) {
      std::vector<AirPoint> points;  // forty readings that all say the same
      for (int i = 0; i < 40; ++i) points.push_back({kEvening + Minutes{20 * i}, {c}, {50}});
      for (const Weather& w : {Weather::steady({c}, {50}), Weather{points}}) {
        for (const Seconds tau : {Seconds{0}, Seconds{Minutes{20}}, Seconds{Minutes{160}}}) {
          const WoodCourse wood{w, tau};
          for (const int begin : {-3600, 0, 7, 40000}) {
            const Instant t = kEvening + Seconds{begin};
            const auto dwell = dwell_from(s, wood, t - Minutes{3}, t);
            ASSERT_TRUE(dwell) << c;
            ASSERT_EQ(*dwell, *dwell_at(s, {c})) << c << " " << begin;
            ASSERT_NEAR(cured(s, wood, {t, t + *dwell}), 1, 1.0 / dwell_seconds(s, {c})) << c;
          }
        }
      }
    }
  }
}

TEST(Cure, ANightThatHasBecomeConstantIsTheClosedForm) {
  const AdhesiveSheet s = aliphatic();
  const WoodCourse wood{recorded_night(), Minutes{20}};
  const Instant t = wood.steady_from();
  EXPECT_EQ(*dwell_from(s, wood, t, t), *dwell_at(s, {20.8}));
}

// The integral up to each second, by trapezia of a second on the slow wood.
class SlowCure {
 public:
  SlowCure(const AdhesiveSheet& s, const SlowWood& wood) : begin_(wood.begin()), sums_{0} {
    double before = 1 / dwell_seconds(s, {wood.at(begin_)});
    for (Instant t = begin_ + Seconds{1}; t <= wood.end(); t += Seconds{1}) {
      const double now = 1 / dwell_seconds(s, {wood.at(t)});
      sums_.push_back(sums_.back() + (before + now) / 2);
      before = now;
    }
  }
  double over(Span span) const { return until(span.end) - until(span.begin); }

 private:
  double until(Instant t) const { return sums_.at(static_cast<std::size_t>((t - begin_).count())); }
  Instant begin_;
  std::vector<double> sums_;
};

TEST(Cure, ARecordedNightAgreesWithTheSlowWay) {
  const Weather night = recorded_night();
  AdhesiveSheet held = without_floor(aliphatic());
  held.floor = {12.5};  // a corner in the rate
  int dwells = 0;
  for (const Seconds tau : {Seconds{0}, Seconds{48}, Seconds{Minutes{20}}, Seconds{Minutes{160}}}) {
    const WoodCourse wood{night, tau};
    const SlowWood slow_wood{night, tau, hours{31}};
    for (const AdhesiveSheet& s : {aliphatic(), held, slow_epoxy()}) {
      const SlowCure slow{s, slow_wood};
      for (const int begin : {0, 1, 3599, 13000, 25003, 46000, 50001}) {
        const Instant t = kEvening + Seconds{begin};
        for (const int length : {0, 1, 1800, 4000, 20011, 43210}) {
          const Span span{t, t + Seconds{length}};
          ASSERT_NEAR(cured(s, wood, span), slow.over(span), 1e-6)
              << tau.count() << " " << begin << " " << length;
        }
        const auto dwell = dwell_from(s, wood, t, t);
        if (!dwell) continue;  // below 12.5 C
        ++dwells;
        ASSERT_GE(slow.over({t, t + *dwell}), 1 - 1e-6) << "frees early";
        ASSERT_LT(slow.over({t, t + *dwell - Seconds{1}}), 1 + 1e-6) << "a second too many";
      }
    }
  }
  EXPECT_GT(dwells, 4 * 2 * 7);
}

TEST(Cure, ColdMakesALongerDwellThanTheHourOfClamping) {
  const AdhesiveSheet s = slow_epoxy();
  const WoodCourse wood{recorded_night(), Minutes{20}};
  const auto dwell = dwell_from(s, wood, kEvening, kEvening);
  ASSERT_TRUE(dwell);
  EXPECT_GT(*dwell, *dwell_at(s, {21}));
  EXPECT_LT(*dwell, *dwell_at(s, {11}));
}

TEST(Cure, SpansAreAddedUp) {
  const AdhesiveSheet s = aliphatic();
  const WoodCourse wood{recorded_night(), Minutes{20}};
  EXPECT_EQ(cured(s, wood, {kEvening, kEvening}), 0);
  const double whole = cured(s, wood, {kEvening - hours{1}, kEvening + hours{30}});
  double parts = 0;
  for (Instant t = kEvening - hours{1}; t < kEvening + hours{30}; t += Seconds{1777})
    parts += cured(s, wood, {t, std::min(t + Seconds{1777}, kEvening + hours{30})});
  EXPECT_NEAR(parts, whole, 1e-7);
}

// A course with a cold hour in it: 15 C, but 8 C from 20:00 to 21:00; wood that follows at once.
WoodCourse cold_hour() {
  const auto at = [](int minutes) { return kEvening + Minutes{minutes}; };
  return WoodCourse{Weather{{{at(0), {15}, {50}},
                             {at(180), {15}, {50}},
                             {at(180) + Seconds{1}, {8}, {50}},
                             {at(240), {8}, {50}},
                             {at(240) + Seconds{1}, {15}, {50}}}},
                    Seconds{0}};
}

TEST(Cure, ColdAnywhereWhileTheFilmFormsIsRefusedWithWhereAndSinceWhen) {
  const AdhesiveSheet s = aliphatic();  // floor 10 C; at 15 C a dwell of 50.4 min
  const WoodCourse wood = cold_hour();
  const auto clamped_at = [&](int open_minutes, int clamped_minutes) {
    return dwell_from(s, wood, kEvening + Minutes{open_minutes},
                      kEvening + Minutes{clamped_minutes});
  };
  const Seconds warm = *dwell_at(s, {15});
  EXPECT_EQ(*clamped_at(0, 5), warm);
  // It ends on the very second at which the cold begins; a second later is too late.
  const Instant last = kEvening + Minutes{180} - warm;
  EXPECT_EQ(*dwell_from(s, wood, last, last), warm);
  const auto late = dwell_from(s, wood, last, last + Seconds{2});
  ASSERT_FALSE(late);
  EXPECT_EQ(late.error(), (TooCold{.sheet = s.id,
                                   .wood = {8},
                                   .floor = {10},
                                   .at = kEvening + Minutes{180} + Seconds{1},
                                   .until = kEvening + Minutes{241}}));
  // Cold in the open time alone, in the middle of the cold, and after it.
  EXPECT_EQ(clamped_at(239, 250).error().at, kEvening + Minutes{239});
  EXPECT_EQ(clamped_at(200, 205).error().at, kEvening + Minutes{200});
  EXPECT_EQ(*clamped_at(241, 250), warm);
}

TEST(Cure, NeverWarmAgainIsSaid) {
  const AdhesiveSheet s = aliphatic();
  const auto no =
      dwell_from(s, WoodCourse{Weather::steady({9.9}, {50}), Minutes{20}}, kEvening, kEvening);
  ASSERT_FALSE(no);
  EXPECT_EQ(no.error().at, kEvening);
  EXPECT_EQ(no.error().wood, Celsius{9.9});
  EXPECT_EQ(no.error().until, std::nullopt);
}

TEST(Cure, TheFirstColdSecondOfANightIsTheOneThatAScanFinds) {
  const WoodCourse wood{shifted(recorded_night(), -4), Minutes{20}};
  int refused = 0;
  for (int begin = 0; begin < 9; ++begin) {
    const Instant t = kEvening + hours{begin};
    const auto no = dwell_from(slow_epoxy(), wood, t, t + Minutes{20});
    if (no) {
      EXPECT_GE(wood.coldest({t, t + Minutes{20} + *no}).value, 8 - 1e-6);
      continue;
    }
    ++refused;
    Instant scanned = t;
    while (wood.at(scanned).value >= 8 - 1e-6) scanned += Seconds{1};
    EXPECT_EQ(no.error().at, scanned) << begin;
  }
  EXPECT_GE(refused, 5);
}

// Any weather: up to twelve readings, steep ones too.
Weather any_weather() {
  std::vector<AirPoint> points;
  Instant t = kEvening;
  const int n = *rc::gen::inRange(1, 13);
  for (int i = 0; i < n; ++i) {
    points.push_back({t, {*rc::gen::inRange(-400, 601) / 10.0}, {*rc::gen::inRange(0, 101) * 1.0}});
    t += Seconds{*rc::gen::element(1, 60, 777, 3600, 20000)};
  }
  return Weather{std::move(points)};
}
AdhesiveSheet any_sheet() {
  AdhesiveSheet s = *rc::gen::element(0, 1) ? aliphatic() : slow_epoxy();
  s.floor = {*rc::gen::element(-40.0, 5.0, 10.0)};
  return s;
}
Seconds any_time_constant() { return Seconds{*rc::gen::element(0, 48, 1200, 9600, 86400)}; }
Instant any_instant() { return kEvening + Seconds{*rc::gen::inRange(-5000, 90000)}; }

RC_GTEST_PROP(Cure, ColderNeverShortens, ()) {
  const Weather weather = any_weather();
  const AdhesiveSheet s = any_sheet();
  const Seconds tau = any_time_constant();
  const Instant t = any_instant();
  const WoodCourse warm{weather, tau};
  const WoodCourse cold{shifted(weather, -*rc::gen::inRange(1, 100) / 10.0), tau};
  const auto as_it_was = dwell_from(s, warm, t, t);
  const auto colder = dwell_from(s, cold, t, t);
  if (!as_it_was) RC_ASSERT(!colder);
  if (colder) RC_ASSERT(*colder >= *as_it_was);
  RC_ASSERT(wait_from(s, s.wait, cold, t) >= wait_from(s, s.wait, warm, t));
}

RC_GTEST_PROP(Cure, ClampedLaterNeverEndsEarlier, ()) {
  const WoodCourse wood{any_weather(), any_time_constant()};
  const AdhesiveSheet s = without_floor(any_sheet());
  const Instant t = any_instant();
  const Instant later = t + Seconds{*rc::gen::element(1, 2, 60, 900, 5000)};
  RC_ASSERT(t + *dwell_from(s, wood, t, t) <= later + *dwell_from(s, wood, later, later));
}

RC_GTEST_PROP(Cure, RoundingNeverFreesEarly, ()) {
  const WoodCourse wood{any_weather(), any_time_constant()};
  const AdhesiveSheet s = without_floor(any_sheet());
  const Instant t = any_instant();
  const Seconds dwell = *dwell_from(s, wood, t, t);
  RC_ASSERT(dwell > Seconds{0} && dwell <= kMaxClaim);
  if (dwell < kMaxClaim) RC_ASSERT(cured(s, wood, {t, t + dwell}) >= 1 - 1e-7);
  RC_ASSERT(cured(s, wood, {t, t + dwell - Seconds{1}}) < 1 + 1e-7);
}

TEST(Wait, IsLongerInTheCold) {
  const AdhesiveSheet s = slow_epoxy();
  const auto steady = [](double c) { return WoodCourse{Weather::steady({c}, {50}), Minutes{20}}; };
  EXPECT_EQ(wait_from(s, s.wait, steady(20), kEvening), s.wait);
  EXPECT_EQ(wait_from(s, s.wait, steady(30), kEvening), s.wait) << "never shorter";
  const double longer = dwell_seconds(s, {10}) / dwell_seconds(s, {20});
  EXPECT_EQ(wait_from(s, s.wait, steady(10), kEvening),
            whole_seconds_up(static_cast<double>(s.wait.count()) * longer));
  EXPECT_EQ(wait_from(s, Seconds{0}, steady(10), kEvening), Seconds{0});
  // Below the floor it goes on at the floor's rate: the wait is no refusal.
  EXPECT_EQ(wait_from(s, s.wait, steady(-40), kEvening), wait_from(s, s.wait, steady(8), kEvening));
}

TEST(Wait, OfARecordedNightAgreesWithTheSlowWay) {
  const Weather night = recorded_night();
  for (const AdhesiveSheet& s : {aliphatic(), slow_epoxy()}) {
    const WoodCourse wood{night, Minutes{20}};
    const SlowWood slow{night, Minutes{20}, hours{70}};
    for (const int begin : {0, 3599, 25003}) {
      const Instant t = kEvening + Seconds{begin};
      const Seconds wait = wait_from(s, s.wait, wood, t);
      double waited = 0;  // the middle of each second's ends
      const auto speed = [&](Instant i) {
        return std::min(1.0, dwell_seconds(s, {20}) / dwell_seconds(s, {slow.at(i)}));
      };
      for (Instant i = t; i < t + wait; i += Seconds{1})
        waited += (speed(i) + speed(i + Seconds{1})) / 2;
      EXPECT_NEAR(waited, static_cast<double>(s.wait.count()), 1) << begin;
      EXPECT_GE(waited, static_cast<double>(s.wait.count()) - 0.01) << begin;
    }
  }
}

AdhesiveSheet of(Chemistry c, Seconds open) {
  AdhesiveSheet s = aliphatic();
  s.chemistry = c;
  s.open = open;
  s.working_life = Minutes{120};
  return s;
}

TEST(OpenTime, FollowsTheAirByWhatMakesTheGlueSet) {
  const AdhesiveSheet water = of(Chemistry::pva, Seconds{600});
  EXPECT_EQ(open_time_at(water, {20}, {20}, {50}), Seconds{600});
  EXPECT_EQ(open_time_at(water, {30}, {30}, {30}), Seconds{238}) << "0.3983 of it, down";
  EXPECT_EQ(open_time_at(water, {20}, {20}, {70}), Seconds{900})
      << "1.667 of it, but at most half more";
  const AdhesiveSheet hot = of(Chemistry::hide_hot, Seconds{60});
  EXPECT_EQ(open_time_at(hot, {20}, {20}, {90}), Seconds{60}) << "it gels as it cools";
  EXPECT_LT(open_time_at(hot, {30}, {30}, {30}), Seconds{60});
  const AdhesiveSheet reacts = of(Chemistry::epoxy_slow, Seconds{6000});
  EXPECT_EQ(open_time_at(reacts, {20}, {5}, {90}), Seconds{6000}) << "the wood counts, not the air";
  EXPECT_EQ(open_time_at(reacts, {30}, {20}, {50}), Seconds{2850}) << "6000 / 2.10509, down";
  EXPECT_EQ(open_time_at(reacts, {5}, {20}, {50}), Seconds{9000});
  AdhesiveSheet eager = reacts;
  eager.activation_kj = 60;
  EXPECT_LT(open_time_at(eager, {30}, {20}, {50}), open_time_at(reacts, {30}, {20}, {50}));
  const AdhesiveSheet cement = of(Chemistry::solvent_cement, Seconds{90});
  EXPECT_EQ(open_time_at(cement, {35}, {35}, {10}), Seconds{90});
}

TEST(WorkingLife, OfAPotFollowsTheAirAndOfAHeatedPotDoesNot) {
  EXPECT_EQ(working_life_at(slow_epoxy(), {20}), Minutes{120});
  EXPECT_EQ(working_life_at(slow_epoxy(), {30}), Seconds{3420}) << "7200 / 2.10509, down";
  EXPECT_EQ(working_life_at(slow_epoxy(), {5}), Minutes{180});
  EXPECT_EQ(working_life_at(of(Chemistry::hide_hot, Seconds{60}), {30}), Minutes{120});
}

TEST(Cure, EveryAnswerIsWithinBoundsForAnyAir) {
  for (int i = 0; i < kChemistries; ++i) {
    const AdhesiveSheet s = of(static_cast<Chemistry>(i), Seconds{600});
    for (double wood = -40; wood <= 60; wood += 4) {
      for (double air = -40; air <= 60; air += 4) {
        for (double humidity = 0; humidity <= 100; humidity += 5) {
          const Seconds open = open_time_at(s, {wood}, {air}, {humidity});
          ASSERT_GE(open, Seconds{150}) << wood << " " << air << " " << humidity;
          ASSERT_LE(open, Seconds{900}) << wood << " " << air << " " << humidity;
        }
      }
      const WoodCourse course{Weather::steady({wood}, {50}), Minutes{20}};
      ASSERT_EQ(dwell_from(s, course, kEvening, kEvening).has_value(), wood >= s.floor.value);
      ASSERT_GE(wait_from(s, s.wait, course, kEvening), s.wait);
      const Seconds life = working_life_at(s, {wood});
      ASSERT_GE(life, Minutes{30});
      ASSERT_LE(life, Minutes{180});
    }
  }
}

}  // namespace
}  // namespace squeezeout
