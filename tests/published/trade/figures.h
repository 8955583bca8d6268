#pragma once
// Every figure that a formula of the craft is held against is checked through figure(), so that it stands beside its source and
// is counted. At its end the program says how many were checked; a full run that checks too few fails.

#include <gtest/gtest.h>

#include <string_view>

namespace squeezeout {

// EXPECT_NEAR(got, want, tolerance), under the source's name: "Wood Handbook Table 4-2, 4.4 C, 50 %".
void figure(std::string_view source, double got, double want, double tolerance);

}  // namespace squeezeout
