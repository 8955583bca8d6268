#pragma once
// Bars: one lane's glue-ups as marks. Detail by width: below 3 px merged into a busy strip, below 24 fill, below 90 hatch and
// icon, then label, from 240 "off". Labels stand on plates and never cross the now line or the lane's edges.

#include <vector>

#include "client/board/lane_model.h"
#include "client/board/time_axis.h"

namespace squeezeout::board {

inline constexpr float kStripPx = 3, kIconPx = 24, kLabelPx = 90, kOffPx = 240;

struct BarRow {
  std::vector<Bar> bars;  // apart, by begin
};
struct Packed {
  std::vector<BarRow> rows;
  std::vector<look::Rect> strips;  // busy strips, x only: what was too narrow to draw alone
  int dropped = 0;                 // glue-ups beyond the last row, for "+N"
};
// Puts the bars into at most `most_rows` rows.
[[nodiscard]] Packed pack(const Lane& lane, const TimeAxis& axis, int most_rows);

struct RowPlace {
  look::Rect at;  // of the row, over the axis's width
  float now_x = 0;
  look::Role ground = look::Role::lane;
};
// Fills and edges now, and where the bar may be pressed; labels are returned, to be drawn over the now line.
struct Label {
  look::Rect at;  // where it may stand
  const GlueUp* glue_up = nullptr;
  std::string text, who, off;  // who: what is left when the text must be cut too short
  look::Ink ink;
  look::Glyph glyph = look::Glyph::tick;
  enum class Icon { no, yes } icon = Icon::no;
  enum class Ground { fill, outline } ground = Ground::outline;  // an outline is left alone
  enum class Chained { no, yes } chained = Chained::no;          // the link's icon stands before it
};
void bar_fills(look::Canvas& canvas, const Scene& scene, const Lane& lane, const Bar& bar,
               const TimeAxis& axis, const RowPlace& place, std::vector<Label>& labels);
void bar_label(look::Canvas& canvas, const Label& label);

}  // namespace squeezeout::board
