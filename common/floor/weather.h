#pragma once
// The weather of the floor: what was read, what is forecast, and the shop's daily course after that.
//   Rules    a reading or a forecast changes lengths of what is planned or runs: they only grow (warmth shortens at the next
//            press). What has started keeps its start. What no longer fits gives way, the latest start first, and is moved to
//            the earliest moment after its old start; each says why (GlueUp::weather)

#include <vector>

#include "common/floor/event.h"
#include "common/floor/state.h"

namespace squeezeout {

// Air from kReadingsKept before `now` to kDailyAhead after it, as far as it is known; constant beyond.
[[nodiscard]] Weather weather_of(const Floor& floor, Instant now);
inline constexpr Seconds kDailyAhead = std::chrono::hours{24 * 8};

// Lets the plan follow the weather as it is now known. Applies what it answers.
std::vector<Event> follow_weather(Floor& floor, Instant at);

}  // namespace squeezeout
