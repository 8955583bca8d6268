// Source: ASHRAE Handbook, Fundamentals, chapter 1, Equation 6 (Hyland and Wexler) and its table of saturated water.

#include "common/trade/vapour.h"

#include <gtest/gtest.h>

#include <limits>

#include "tests/published/trade/figures.h"

namespace squeezeout {
namespace {

TEST(Vapour, Table) {
  struct Row {
    double celsius, pascal;
  };
  for (const Row& row : {Row{5, 872.6}, {20, 2338.80}, {25, 3169.7}, {50, 12351.3}}) {
    SCOPED_TRACE(row.celsius);
    figure("ASHRAE Fundamentals ch. 1 Eq. 6, Pa", saturation_pressure({row.celsius})->value,
           row.pascal, 3e-4 * row.pascal);
  }
}

TEST(Vapour, RefusesOutsideTheEquationsRange) {
  EXPECT_TRUE(saturation_pressure({0}));
  EXPECT_TRUE(saturation_pressure({100}));
  for (const double c : {-0.1, 100.1, std::numeric_limits<double>::quiet_NaN()}) {
    const auto no = saturation_pressure({c});
    ASSERT_FALSE(no) << c;
    EXPECT_EQ(no.error().least, 0);
    EXPECT_EQ(no.error().most, 100);
    EXPECT_STRNE(no.error().mend, "");
  }
}

}  // namespace
}  // namespace squeezeout
