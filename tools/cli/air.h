#pragma once
// Air over time as a person gives it: a night that is to come, or a logger's table.
//   Stops   Exit::wrong_use: times that do not follow each other; a table that is wrong (each mistake with file and line)

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
// The air of now until `from`; then in a straight line down to the night's, reached half way to `to`; the air of now again from
// `back` on. Within the night it begins to fall now.
[[nodiscard]] std::vector<AirPoint> points_of(const words::Context& c, const Night& night);

// CSV with a header and the columns at, celsius, humidity_percent in any order; others are passed over. Instants rise; a time
// without an offset is the shop's clock.
[[nodiscard]] std::vector<AirPoint> read_air_csv(const words::Context& c, const std::string& file);

// Readings as the floor keeps them: of the last kReadingsKept before `now`, and where they come thick and fast the first of every
// five minutes and the last of all.
[[nodiscard]] std::vector<AirPoint> worth_keeping(const std::vector<AirPoint>& readings,
                                                  Instant now);

}  // namespace squeezeout::cli
