#pragma once
// A large shop in full work: 60 kinds of gear, 24 builders at 12 benches, 40 builds. Invented, and the same in every run.
//   Shape   half the kinds are counted, half are one piece; every recipe takes two kinds. Glue-ups are reserved by the floor's
//           own slot finder and carried out as their builders would, but for some whose clamps are still on past their time

#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {

inline constexpr unsigned kLargeKinds = 60;

[[nodiscard]] Shop large_shop();
// So many glue-ups, from two days before `now` to a week after it, as they stand at `now`.
[[nodiscard]] Floor large_floor(Instant now, int glue_ups);

}  // namespace squeezeout::testing
