#pragma once
// What a logger read of the air, as a table: RFC 4180, a header row, columns found by name, capitals alike.
//   Columns  time: RFC 3339, or "2026-11-25 16:00" by the shop's clock; celsius, or fahrenheit; humidity_percent. All others
//            are left and named
//   Shape    points rise; of rows with one instant the last counts, and how many gave way is told
//   Refuses  every mistake at once (as many as a person would read), each with line, column, what is wrong and what would be
//            right: no such time on the night when the clocks go forward, two on the night when they go back
//   Limits   what the floor takes as the air of a shop: -40 to 60 C, 0 to 100 %

#include <string>
#include <string_view>
#include <vector>

#include "common/time/zone.h"
#include "common/trade/weather.h"
#include "proto/shop_file.h"

namespace squeezeout {

struct ClimateTable {
  std::vector<AirPoint> points;
  int merged = 0;                     // rows that gave way to a later row of the same instant
  std::vector<std::string> left_out;  // columns that are not looked at, as they are written
};
[[nodiscard]] Result<ClimateTable, std::vector<FileMistake>> read_climate_csv(std::string_view file,
                                                                              std::string_view text,
                                                                              const Zone& zone);

}  // namespace squeezeout
