#pragma once
// Rows: the bars of a lane beside and below each other. What is narrower than kStripPx is merged into a busy strip; what finds no
// row is counted.

#include <vector>

#include "client/board/lane_model.h"
#include "client/board/time_axis.h"

namespace squeezeout::board {

inline constexpr float kStripPx = 3;

struct BarRow {
  std::vector<Bar> bars;  // apart, by begin
};
struct Packed {
  std::vector<BarRow> rows;
  std::vector<look::Rect> strips;  // busy strips, x only: what was too narrow to draw alone
  int dropped = 0;                 // glue-ups beyond the last row, for "+N"
};
// Each bar in the first row that is free, of at most `most_rows`. `keep` finds a row in any case; 0: none does.
[[nodiscard]] Packed pack(const Lane& lane, const TimeAxis& axis, int most_rows,
                          GlueUpId keep = {});

}  // namespace squeezeout::board
