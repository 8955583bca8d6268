// Source: USDA Wood Handbook, FPL-GTR-282, chapter 13, Table 13-5: coefficients of dimensional change, for 1 % of moisture.

#include "common/trade/material.h"

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "tests/published/trade/figures.h"

namespace squeezeout {
namespace {

struct Row {
  const char* key;
  double radial, tangential;
};
constexpr Row kTable[] = {{"sugar-maple", .00165, .00353},     {"bigleaf-maple", .00126, .00248},
                          {"black-walnut", .00190, .00274},    {"black-cherry", .00126, .00248},
                          {"sitka-spruce", .00148, .00263},    {"engelmann-spruce", .00130, .00248},
                          {"western-redcedar", .00111, .00234}};

TEST(Materials, MovementOfTable13_5) {
  for (const Row& row : kTable) {
    const Material& m = **material(row.key);
    const std::string source = std::string{"Wood Handbook Table 13-5, "} + row.key;
    figure(source + ", radial", m.movement_radial, row.radial, 1e-9);
    figure(source + ", tangential", m.movement_tangential, row.tangential, 1e-9);
    EXPECT_EQ(m.movement_mark, Mark::published) << row.key;
  }
}

// Nothing that the table above does not give is called published.
TEST(Materials, NoOtherFigureIsCalledPublished) {
  std::set<std::string_view> printed;
  for (const Row& row : kTable) printed.insert(row.key);
  for (const Material& m : materials()) {
    EXPECT_EQ(m.density_mark, Mark::recalled) << m.key;
    EXPECT_EQ(m.movement_mark == Mark::published, printed.contains(m.key)) << m.key;
    EXPECT_EQ(m.movement_radial > 0, printed.contains(m.key)) << m.key;
    EXPECT_EQ(m.movement_tangential > 0, printed.contains(m.key)) << m.key;
  }
}

}  // namespace
}  // namespace squeezeout
