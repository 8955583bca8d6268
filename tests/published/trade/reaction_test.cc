// Source: the Arrhenius law; activation energy of epoxy and amine 55 to 60 kJ/mol, Thermochimica Acta 447 (2006) 167. The ratios are
// the law worked at 55 kJ/mol with R = 8.314462618 J/(mol K).

#include <gtest/gtest.h>

#include <cmath>

#include "common/trade/dwell.h"
#include "tests/published/trade/figures.h"

namespace squeezeout {
namespace {

TEST(Reaction, Ratios) {
  figure("Arrhenius, 55 kJ/mol, 20 to 30 C", reaction_ratio(55, {20}, {30}), 2.10509, 5e-6);
  figure("Arrhenius, 55 kJ/mol, 25 to 35 C", reaction_ratio(55, {25}, {35}), 2.05443, 5e-6);
}

TEST(Reaction, TwiceAsFast) {
  double low = 40, high = 70;  // kJ/mol; more energy, a larger ratio
  while (high - low > 1e-9) {
    const double mid = (low + high) / 2;
    (reaction_ratio(mid, {20}, {30}) < 2 ? low : high) = mid;
  }
  figure("Arrhenius, kJ/mol for twice from 20 to 30 C", low, 51.216, 5e-4);
}

TEST(Reaction, DwellFollowsFromOnePoint) {
  AdhesiveSheet epoxy;
  epoxy.activation_kj = 55;
  epoxy.floor = {5};
  epoxy.dwell = {{{20}, Minutes{100}}};
  EXPECT_NEAR(dwell_seconds(epoxy, {30}), 6000 / 2.10509, 0.01);
  EXPECT_EQ(*dwell_at(epoxy, {20}), Minutes{100});
  EXPECT_EQ(*dwell_at(epoxy, {30}), Seconds{2851}) << "2850.24 s, up";
}

}  // namespace
}  // namespace squeezeout
