// Sources: Shigley, Mechanical Engineering Design, Equations 8-1 to 8-5 and Example 8-1; Bhandari, Design of Machine Elements,
// Example 6.9.

#include "common/trade/screw.h"

#include <gtest/gtest.h>

#include "tests/published/trade/figures.h"

namespace squeezeout {
namespace {

// A power screw, square thread, two starts.
constexpr Screw kShigley{.diameter = {32},
                         .pitch = {4},
                         .starts = 2,
                         .friction = .08,
                         .collar_friction = .08,
                         .collar_mean_diameter = {40}};

TEST(ScrewForce, ShigleyExample8_1) {
  figure("Shigley Ex. 8-1, torque up, N m", torque_up(kShigley, {6400})->value, 26.18, .005);
  figure("Shigley Ex. 8-1, torque down, N m", torque_down(kShigley, {6400})->value, 9.77, .005);
  figure("Shigley Ex. 8-1, efficiency", efficiency(kShigley), .311, .0005);
}

// A C-clamp, square thread, with a collar of mean radius 15 mm.
TEST(ScrewForce, BhandariExample6_9) {
  const Screw clamp{.diameter = {22},
                    .pitch = {5},
                    .friction = .15,
                    .collar_friction = .15,
                    .collar_mean_diameter = {30}};
  figure("Bhandari Ex. 6.9, N mm", torque_up(clamp, {750})->value * 1000, 3402.1986, 5e-4);
}

// Not printed anywhere: our own working of the same equations by hand, for the screw of a bench clamp.
TEST(ScrewForce, WorkedByUsTr12x3) {
  const Screw screw = screw_of("Tr12x3").value();
  EXPECT_DOUBLE_EQ(mean_diameter(screw).value, 10.5);
  EXPECT_DOUBLE_EQ(screw.collar_mean_diameter.value, 10);
  EXPECT_NEAR(force_of(screw, {6})->value, 2910.8, .05);
  const Band band = force_band(screw, {6});
  EXPECT_NEAR(band.low, 2312.6, .05);
  EXPECT_NEAR(band.value, 2910.8, .05);
  EXPECT_NEAR(band.high, 3919.8, .05);
}

}  // namespace
}  // namespace squeezeout
