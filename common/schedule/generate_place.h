#pragma once
// One mode placed whole, as early as may be: windows, calendars, what its parts use and what it holds.

#include "common/schedule/problem.h"
#include "common/schedule/timetable.h"

namespace squeezeout::schedule {

// Nothing when no start in [from, problem.horizon) fits. Parts that are elastic wait as short as they can, whatever that holds up.
[[nodiscard]] std::optional<Placed> place(const Problem& problem, const Timetable& timetable,
                                          const Mode& mode, Tick from);

// From which resources the needs are met together, by resource, in order: the least capable first, and whenever they can be at
// all. `free` of each resource; otherwise `short_of`: the resources of which at least one must have more.
struct Mix {
  std::vector<Use> held;
  std::vector<int> short_of;
};
[[nodiscard]] Mix mix(const std::vector<Need>& needs, const std::vector<int>& free);

}  // namespace squeezeout::schedule
