#pragma once
// A floor with much to do: the demo's shop, some glue-ups reserved on it at their earliest, all of them steps of builds.

#include <cstddef>

#include "common/floor/state.h"

namespace squeezeout::bench {

struct Busy {
  unsigned times = 1;    // the demo's six builders and its gear, so many times
  unsigned builds = 16;  // by its builders in turn, each due within days
  unsigned steps = 5;    // of each, reserved
  std::uint32_t seed = 1;
};

// On a Monday at 16:00: everything is reserved, nothing has started. The same numbers give the same floor.
[[nodiscard]] Floor busy_floor(const Busy& busy, Instant now);

}  // namespace squeezeout::bench
