// Nothing printed: the strain is geometry, its limit and the temperatures of touch (ISO 13732-1) are from memory, and the cooling
// is our model. Held here beside the published ones so that no figure of the craft goes unchecked.

#include "common/trade/bend.h"

#include <gtest/gtest.h>

namespace squeezeout {
namespace {

TEST(BendStrain, WorkedByUs) { EXPECT_NEAR(bend_strain({2.2}, {60})->value, 1.800, .0005); }

TEST(Touch, FromMemoryIso13732) {
  EXPECT_EQ(touch({48}), Touch::hot);
  EXPECT_EQ(touch({47.9}), Touch::warm);
  EXPECT_EQ(touch({43.1}), Touch::warm);
  EXPECT_EQ(touch({43}), Touch::safe);
}

}  // namespace
}  // namespace squeezeout
