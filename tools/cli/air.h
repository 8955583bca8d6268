#pragma once
// Air over time as a person gives it: a night that is to come, or more readings than the floor wants.

#include <optional>
#include <string>
#include <vector>

#include "client/words/words.h"
#include "common/trade/weather.h"

namespace squeezeout::cli {

struct Night {
  double celsius = 0;
  std::optional<double> humidity;  // none: as it is now
  std::string from = "18:00", to = "7:00", back = "9:00";
};
// The air of now until `from`; then in a straight line down to the night's, reached half way to `to`; from `to` in a straight
// line up to the air of now, reached at `back`. Each is the first such time after the one before; within the night it begins to
// fall now.
//   Stops   Exit::wrong_use: a time that is none
[[nodiscard]] std::vector<AirPoint> points_of(const words::Context& c, const Night& night);

// Readings as the floor keeps them: of the last kReadingsKept before `now`, and where they come thick and fast the first of every
// five minutes, and the last of all.
[[nodiscard]] std::vector<AirPoint> worth_keeping(const std::vector<AirPoint>& readings,
                                                  Instant now);

}  // namespace squeezeout::cli
