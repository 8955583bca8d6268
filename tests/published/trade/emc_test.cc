// Source: USDA Wood Handbook, FPL-GTR-282, chapter 4: Equation 4-5 and Table 4-2 (the equation also in Simpson, FPL-RN-0268).

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>

#include "common/trade/moisture.h"
#include "tests/published/trade/figures.h"

namespace squeezeout {
namespace {

double emc(double celsius, double humidity) {
  return equilibrium_moisture({celsius}, {humidity})->value;
}

TEST(Emc, Equation) {
  // Worked in exact fractions from the printed coefficients: 9.2711407, 11.9962672, 13.5610873.
  figure("Wood Handbook Eq. 4-5, 20 C, 50 %", emc(20, 50), 9.271141, 5e-7);
  figure("Wood Handbook Eq. 4-5, 20 C, 65 %", emc(20, 65), 11.996267, 5e-7);
  figure("Wood Handbook Eq. 4-5, 60 C, 80 %", emc(60, 80), 13.561087, 5e-7);
}

// Table 4-2, at 40, 70 and 100 F; relative humidity 5 to 95 % in steps of 5. The table gives one decimal.
struct Row {
  double celsius;
  std::array<double, 19> percent;
};
constexpr Row kTable[] = {
    {4.4,
     {1.4, 2.6, 3.7, 4.6, 5.5, 6.3, 7.1, 7.9, 8.7, 9.5, 10.4, 11.3, 12.3, 13.5, 14.9, 16.5, 18.5,
      21.0, 24.3}},
    {21.1,
     {1.3, 2.5, 3.5, 4.5, 5.4, 6.2, 6.9, 7.7, 8.5, 9.2, 10.1, 11.0, 12.0, 13.1, 14.4, 16.0, 17.9,
      20.5, 23.9}},
    {37.8,
     {1.2, 2.3, 3.3, 4.2, 5.0, 5.8, 6.5, 7.2, 7.9, 8.7, 9.5, 10.3, 11.2, 12.3, 13.6, 15.1, 17.0,
      19.5, 22.9}},
};

TEST(Emc, Table) {
  int checked = 0;
  for (const Row& row : kTable) {
    for (std::size_t i = 0; i < row.percent.size(); ++i, ++checked) {
      const double humidity = 5 + 5 * static_cast<double>(i);
      SCOPED_TRACE(testing::Message() << row.celsius << " C, " << humidity << " %");
      figure("Wood Handbook Table 4-2", emc(row.celsius, humidity), row.percent[i], 0.1);
    }
  }
  EXPECT_EQ(checked, 57);
}

TEST(Emc, RefusesOutsideTheEquationsRange) {
  EXPECT_TRUE(equilibrium_moisture({-1.1}, {5}));
  EXPECT_TRUE(equilibrium_moisture({98.9}, {95}));
  for (const auto& [c, h] : {std::pair{-1.2, 50.0},
                             {99.0, 50.0},
                             {20.0, 4.9},
                             {20.0, 95.1},
                             {std::numeric_limits<double>::quiet_NaN(), 50.0},
                             {20.0, std::numeric_limits<double>::quiet_NaN()}}) {
    EXPECT_FALSE(equilibrium_moisture({c}, {h})) << c << " " << h;
  }
  EXPECT_EQ(equilibrium_moisture({120}, {50}).error().most, 98.9);
}

}  // namespace
}  // namespace squeezeout
