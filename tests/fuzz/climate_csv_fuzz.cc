// A logger's table: mistakes, or points that rise, are within their limits and read back as the same points.

#include <fmt/format.h>

#include <cstdint>
#include <string_view>

#include "common/time/rfc3339.h"
#include "proto/climate_csv.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace squeezeout;
  static const Zone zone = Zone::find("Europe/Dublin").value();
  const auto table = read_climate_csv("fuzz", {reinterpret_cast<const char*>(data), size}, zone);
  if (!table) {
    CHECK(!table.error().empty());
    return 0;
  }
  std::string again = csv_row({"time", "celsius", "humidity_percent"});
  Instant before = Instant::min();
  for (const AirPoint& p : table->points) {
    CHECK(before < p.at);
    CHECK(-40 <= p.air.value && p.air.value <= 60);
    CHECK(0 <= p.humidity.value && p.humidity.value <= 100);
    before = p.at;
    again += csv_row(
        {rfc3339(p.at), fmt::format("{}", p.air.value), fmt::format("{}", p.humidity.value)});
  }
  const auto read = read_climate_csv("again", again, zone);
  CHECK(read.has_value() && read->points == table->points && read->merged == 0);
  return 0;
}
