#include "tests/published/trade/figures.h"

#include <cstdio>

namespace squeezeout {
namespace {

constexpr int kLeastFigures = 120;
int checked = 0;

// Says the count when all tests of the program have run. A filtered run checks only what it was asked for.
class Count final : public testing::Environment {
  void TearDown() override {
    std::printf("%d published figures checked\n", checked);
    if (GTEST_FLAG_GET(filter) == "*") {
      EXPECT_GE(checked, kLeastFigures);
    }
  }
};
const auto* const kCount = testing::AddGlobalTestEnvironment(new Count);

}  // namespace

void figure(std::string_view source, double got, double want, double tolerance) {
  ++checked;
  EXPECT_NEAR(got, want, tolerance) << source;
}

}  // namespace squeezeout
