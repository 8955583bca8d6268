#pragma once
// A refusal of the craft as a user meets it: the value that was given, the range that holds, and what to do.

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>

#include "common/trade/range.h"

namespace squeezeout {

inline constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
inline constexpr double kInfinite = std::numeric_limits<double>::infinity();

// EXPECT_TRUE(refused(f(...), value)): refused because of `value`, which the named range does not hold, and with a mend.
template <class T>
testing::AssertionResult refused(const Result<T, OutOfRange>& got, double value) {
  if (got) return testing::AssertionFailure() << "granted";
  const OutOfRange& no = got.error();
  if (!(no.value == value || (std::isnan(value) && std::isnan(no.value))))
    return testing::AssertionFailure() << no.what << ": refuses " << no.value << ", not " << value;
  if (no.value >= no.least && no.value <= no.most)
    return testing::AssertionFailure() << no.what << ": refuses what its range holds";
  if (!(no.least <= no.most)) return testing::AssertionFailure() << no.what << ": an empty range";
  if (std::string{no.what}.empty() || std::string{no.mend}.empty())
    return testing::AssertionFailure() << "no name or no mend";
  return testing::AssertionSuccess();
}

}  // namespace squeezeout
