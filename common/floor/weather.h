#pragma once
// The weather of the floor: what was read, what is forecast, and the shop's daily course after that.
//   Rules    a reading or a forecast changes lengths: of what is planned they only grow (warmth shortens at the next press); of what
//            runs they follow. What has started keeps its start. What no longer fits gives way, the latest start first, and is
//            moved to the earliest moment after its old start; each says why (GlueUp::weather). Whom the weather put out lately
//            finds a place again when it turns. A reading alone speaks for two hours, a forecast to its last point

#include <vector>

#include "common/floor/event.h"
#include "common/floor/state.h"

namespace squeezeout {

// Air from kReadingsKept before `now` to kDailyAhead after it: as read, then as forecast, then the shop's daily course; where
// nothing is said, as it was last. Constant beyond.
[[nodiscard]] Weather weather_of(const Floor& floor, Instant now);
inline constexpr Seconds kDailyAhead = std::chrono::hours{24 * 8};

// Lets the plan follow the weather as it is now known. Applies what it answers.
//   all  also what starts beyond the weather that is known, in the shop's usual air: after a new shop file
enum class Reach { known, all };
std::vector<Event> follow_weather(Floor& floor, Instant at, Reach reach = Reach::known);

}  // namespace squeezeout
