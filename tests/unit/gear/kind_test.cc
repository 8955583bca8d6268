#include "common/gear/kind.h"

#include <gtest/gtest.h>

namespace squeezeout {
namespace {

GearKind clamp(double opening, double throat, double force) {
  GearKind k{.id = GearKindId{1}, .key = "c", .name = "C", .stock = 4};
  k.opening = {opening}, k.throat = {throat}, k.force = {force}, k.style = "cam";
  return k;
}

TEST(GoodEnough, AtLeastInEveryMeasureAndTheSameInWords) {
  GearNeed need{.gear_class = GearClass::clamp, .count = 2};
  need.opening = {100}, need.throat = {60}, need.force = {200};
  EXPECT_TRUE(good_enough(clamp(100, 60, 200), need));
  EXPECT_FALSE(good_enough(clamp(99, 60, 200), need));
  EXPECT_FALSE(good_enough(clamp(100, 59, 200), need));
  EXPECT_FALSE(good_enough(clamp(100, 60, 199), need));
  need.style = "spool";
  EXPECT_FALSE(good_enough(clamp(100, 60, 200), need));
  need.style = "cam";
  EXPECT_TRUE(good_enough(clamp(100, 60, 200), need));
  need.gear_class = GearClass::caul;
  EXPECT_FALSE(good_enough(clamp(100, 60, 200), need));
}

TEST(LessCapable, ThroatFirstThenOpeningAndForce) {
  EXPECT_TRUE(less_capable(clamp(500, 50, 500), clamp(100, 120, 100)));
  EXPECT_TRUE(less_capable(clamp(100, 50, 500), clamp(200, 50, 100)));
  EXPECT_FALSE(less_capable(clamp(100, 50, 100), clamp(100, 50, 100)));
}

}  // namespace
}  // namespace squeezeout
