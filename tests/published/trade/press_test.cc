// Source: UFC 3-130, Table 2-2 (side-grain limit of wood, 4630 G^2.25 lb/in2). What is from memory or our own says so.

#include "common/trade/press.h"

#include <gtest/gtest.h>

#include "tests/published/trade/figures.h"

namespace squeezeout {
namespace {

TEST(PadCrush, Ufc3_130Table2_2) {
  constexpr double kPsiPerMegapascal = 145.0377;
  figure("UFC 3-130 Table 2-2, G 0.40, lb/in2", pad_crush(.40)->value * kPsiPerMegapascal, 589, .5);
  EXPECT_NEAR(pad_crush(.40)->value, 4.06, .005);
}

// Wood Handbook, chapter 10: both ends from memory; the straight line between them is ours.
TEST(PressureWanted, FromMemory) {
  EXPECT_NEAR(pressure_wanted(.35).high, .7, 1e-12);
  EXPECT_NEAR(pressure_wanted(.80).high, 1.7, 1e-12);
  EXPECT_NEAR(pressure_wanted(.575).high, 1.2, 1e-12);
}

TEST(Counts, WorkedByUsByForce) {
  EXPECT_EQ(*clamps_by_force({.7}, {150 * 30}, {1000}), 4);
  EXPECT_EQ(*clamps_by_force({.7}, {500 * 3}, {1000}), 2);
  EXPECT_EQ(*clamps_by_force({.7}, {1500 * 7}, {300}), 25);
}

// Common practice: force spreads at 45 degrees.
TEST(Counts, WorkedByUsBySpread) {
  EXPECT_EQ(*clamps_by_spread({500}, {25}, {23}), 8);
  EXPECT_EQ(*clamps_by_spread({150}, {20}, {15}), 3);
  EXPECT_EQ(*clamps_by_spread({1500}, {30}, {10}), 30);
}

}  // namespace
}  // namespace squeezeout
