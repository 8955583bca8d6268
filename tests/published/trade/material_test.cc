// Source: USDA Wood Handbook, FPL-GTR-282, chapter 13, Table 13-5: the woods for which we have its movement. The figures
// themselves are held against the table in movement_test.cc, through the formula.

#include "common/trade/material.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string_view>
#include <vector>

namespace squeezeout {
namespace {

TEST(Materials, NothingElseIsCalledPublished) {
  std::vector<std::string_view> published;
  for (const Material& m : materials()) {
    EXPECT_EQ(m.density_mark, Mark::recalled) << m.key;
    const bool printed = m.movement_mark == Mark::published;
    EXPECT_EQ(m.movement_radial > 0, printed) << m.key;
    EXPECT_EQ(m.movement_tangential > 0, printed) << m.key;
    if (printed) published.push_back(m.key);
  }
  EXPECT_THAT(published, testing::UnorderedElementsAre(
                             "sugar-maple", "bigleaf-maple", "black-walnut", "black-cherry",
                             "sitka-spruce", "engelmann-spruce", "western-redcedar"));
}

}  // namespace
}  // namespace squeezeout
