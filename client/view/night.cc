#include "client/view/night.h"

#include <cmath>

namespace squeezeout {
namespace {

constexpr Seconds kSlope = std::chrono::hours{1};
constexpr Seconds kDay = std::chrono::hours{24};
constexpr int kColder = 8;

Instant hour_of(const Zone& zone, Instant day, int hour) {
  return zone.instant(std::chrono::local_days{zone.date(day)} + std::chrono::hours{hour});
}

}  // namespace

AirDraft air_draft(const Floor& floor) {
  AirDraft out;
  out.celsius = static_cast<int>(std::lround(floor.climate.air.value));
  out.humidity = static_cast<int>(std::lround(floor.climate.humidity.value));
  out.low = out.celsius - kColder;
  if (floor.shop && !floor.shop->sheets.empty()) out.sheet = floor.shop->sheets.front().id;
  return out;
}

Span night_of(const Floor& floor, const AirDraft& air, Instant now) {
  const Zone zone = floor.zone ? *floor.zone : Zone::utc();
  Instant noon = hour_of(zone, zone.day(zone.date(now)).begin - kDay / 2, 12);  // yesterday's
  while (true) {
    const Instant next = noon + kDay;
    const Span night{hour_of(zone, noon, air.from),
                     hour_of(zone, air.to > air.from ? noon : next, air.to)};
    if (night.end > now) return night;
    noon = next;
  }
}

SetForecast cold_night(const Floor& floor, const AirDraft& air, Instant now) {
  const Span night = night_of(floor, air, now);
  const Instant begin = std::max(night.begin, now);
  const Celsius low{static_cast<double>(air.low)};
  const Celsius day = floor.climate.air;
  const Percent humidity = floor.climate.humidity;
  SetForecast out;
  if (begin - kSlope >= now) out.points.push_back({begin - kSlope, day, humidity});
  out.points.push_back({begin, low, humidity});
  out.points.push_back({night.end, low, humidity});
  out.points.push_back({night.end + kSlope, day, humidity});
  return out;
}

}  // namespace squeezeout
