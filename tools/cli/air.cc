#include "tools/cli/air.h"

#include "common/floor/weather.h"
#include "tools/cli/times.h"

namespace squeezeout::cli {
namespace {

constexpr Seconds kApart = Minutes{5};

// The first such time after `after`; a minute that has just begun is over.
Instant next_time(const words::Context& c, const std::string& text, Instant after) {
  const Instant t = read_time({c.floor, after}, text, Tense::coming);
  return t > after ? t : read_time({c.floor, after + Minutes{3}}, text, Tense::coming);
}

}  // namespace

std::vector<AirPoint> points_of(const words::Context& c, const Night& night) {
  const Weather weather = weather_of(c.floor, c.now);
  const Celsius air = weather.air(c.now), cold{night.celsius};
  const Percent damp = weather.humidity(c.now), night_damp{night.humidity.value_or(damp.value)};

  const Instant begun = read_time(c, night.from, Tense::past);
  const bool within = begun <= c.now && next_time(c, night.to, begun) > c.now;
  const Instant from = within ? c.now : next_time(c, night.from, c.now);
  const Instant to = next_time(c, night.to, from), back = next_time(c, night.back, to);

  std::vector<AirPoint> points{{c.now, air, damp}};
  for (const AirPoint& p : {AirPoint{from, air, damp},
                            {from + (to - from) / 2, cold, night_damp},
                            {to, cold, night_damp},
                            {back, air, damp}})
    if (p.at > points.back().at) points.push_back(p);
  return points;
}

std::vector<AirPoint> worth_keeping(const std::vector<AirPoint>& readings, Instant now) {
  std::vector<AirPoint> out;
  for (const AirPoint& p : readings) {
    if (p.at < now - kReadingsKept) continue;
    const bool last = &p == &readings.back();
    if (last || out.empty() || p.at - out.back().at >= kApart) out.push_back(p);
  }
  return out;
}

}  // namespace squeezeout::cli
