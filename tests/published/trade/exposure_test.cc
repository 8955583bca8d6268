// Sources: 29 CFR 1910.1000, Table Z-1 and paragraph (d) (OSHA); NIOSH recommended limits; US EPA rule of 2024 on
// dichloromethane. Toluene's limits are from memory. Local codes and the safety data sheet decide.

#include "common/trade/exposure.h"

#include <gtest/gtest.h>

#include <array>

#include "tests/published/trade/figures.h"

namespace squeezeout {
namespace {

const SolventFacts& facts(std::string_view key) { return **solvent(key); }

TEST(ExposureLimits, OshaAndNiosh) {
  figure("29 CFR 1910.1000, acetone", limit(facts("acetone"), LimitSet::osha).value, 1000, 0);
  figure("NIOSH, acetone", limit(facts("acetone"), LimitSet::niosh).value, 250, 0);
  figure("29 CFR 1910.1000, MEK", limit(facts("butanone"), LimitSet::osha).value, 200, 0);
  figure("NIOSH, MEK", limit(facts("butanone"), LimitSet::niosh).value, 200, 0);
  figure("29 CFR 1910.1000, THF", limit(facts("tetrahydrofuran"), LimitSet::osha).value, 200, 0);
  figure("NIOSH, THF", limit(facts("tetrahydrofuran"), LimitSet::niosh).value, 200, 0);
  figure("29 CFR 1910.1000, n-butyl acetate", limit(facts("n-butyl-acetate"), LimitSet::osha).value,
         150, 0);
  figure("NIOSH, n-butyl acetate", limit(facts("n-butyl-acetate"), LimitSet::niosh).value, 150, 0);
  figure("29 CFR 1910.1052, dichloromethane", facts("dichloromethane").osha.value, 25, 0);
  figure("US EPA rule of 2024, dichloromethane",
         limit(facts("dichloromethane"), LimitSet::osha).value, 2, 0);
}

TEST(ExposureLimits, FromMemoryToluene) {
  EXPECT_EQ(limit(facts("toluene"), LimitSet::osha).value, 200);
  EXPECT_EQ(limit(facts("toluene"), LimitSet::niosh).value, 100);
  EXPECT_EQ(facts("toluene").mark, Mark::recalled);
}

TEST(ExposureLimits, DichloromethaneIsRefusedByDefaultAndAlone) {
  for (const SolventFacts& s : solvents())
    EXPECT_EQ(s.refused_by_default, s.key == "dichloromethane") << s.key;
}

TEST(Exposure, MassFromPpm) {
  figure("ppm MW / 24.45, THF 200 ppm, mg/m3",
         mg_per_m3({200}, facts("tetrahydrofuran").molar_mass), 589.9, .05);
}

TEST(Exposure, AverageOf1910_1000d1) {
  const std::array<Exposure, 3> day{{{{150}, 2}, {{75}, 2}, {{50}, 4}}};
  figure("29 CFR 1910.1000(d)(1), ppm", *time_weighted(day), 81.25, 1e-12);
}

TEST(Exposure, MixtureOf1910_1000d2) {
  const std::array<Share, 3> air{{{{500}, {1000}}, {{45}, {200}}, {{40}, {200}}}};
  figure("29 CFR 1910.1000(d)(2)", mixture(air), .925, 1e-12);
}

// Not printed anywhere: our own working, 60 / 6 * ln 4 = 13.863 minutes, whole seconds up.
TEST(Dilution, WorkedByUs) { EXPECT_EQ(*dilution_time(400, 100, 60, 6), Seconds{832}); }

}  // namespace
}  // namespace squeezeout
