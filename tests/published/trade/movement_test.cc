// Source: USDA Wood Handbook, FPL-GTR-282, chapter 13: Equation 13-2, the example below it (the same in FPL-GTR-190)
// and Table 13-5. The 400 mm plate is the handbook's Equations 4-5 and 13-2 worked by us, so it is not counted as a published figure.

#include <gtest/gtest.h>

#include "common/trade/material.h"
#include "common/trade/moisture.h"
#include "tests/published/trade/figures.h"

namespace squeezeout {
namespace {

TEST(Movement, HandbookExample) {
  // A white fir board, tangential coefficient 0.00245, from 8 to 11 %.
  const double wider = movement({232}, 0.00245, {8}, {11})->value;
  figure("Wood Handbook ch. 13, example: change, mm", wider, 1.7, 0.05);
  figure("Wood Handbook ch. 13, example: size after, mm", 232 + wider, 233.7, 0.05);
}

TEST(Movement, QuartersawnSitkaPlateFromADryRoomToADampOne) {
  const Percent dry = *equilibrium_moisture({20}, {45});
  const Percent damp = *equilibrium_moisture({20}, {65});
  EXPECT_NEAR(movement({400}, 0.00148, dry, damp)->value, 2.08, 0.005);
}

TEST(Movement, Table) {
  struct Row {
    const char* key;
    double radial, tangential;
  };
  for (const Row& row : {Row{"sugar-maple", .00165, .00353},
                         {"bigleaf-maple", .00126, .00248},
                         {"black-walnut", .00190, .00274},
                         {"black-cherry", .00126, .00248},
                         {"sitka-spruce", .00148, .00263},
                         {"engelmann-spruce", .00130, .00248},
                         {"western-redcedar", .00111, .00234}}) {
    SCOPED_TRACE(row.key);
    const Material& wood = **material(row.key);
    // A metre that takes up 1 %: what the table's figure says, through the formula.
    figure("Wood Handbook Table 13-5, radial",
           movement({1000}, wood.movement_radial, {8}, {9})->value, 1000 * row.radial, 1e-9);
    figure("Wood Handbook Table 13-5, tangential",
           movement({1000}, wood.movement_tangential, {8}, {9})->value, 1000 * row.tangential,
           1e-9);
  }
}

}  // namespace
}  // namespace squeezeout
