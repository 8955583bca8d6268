#pragma once
// Bars: one glue-up as marks in its row. Detail by width: below 24 px fill, below 90 hatch and icon, then label, from 240
// "off" too. A joint that is wet now is never thinner than 7 mm.

#include "client/board/label_model.h"
#include "client/board/time_axis.h"

namespace squeezeout::board {

struct RowPlace {
  look::Rect at;  // of the row, over the axis's width
  float now_x = 0;
  look::Role ground = look::Role::lane;
};
struct BarMaker {
  const Scene& scene;
  const TimeAxis& axis;
  const Tags& tags;
  Outlook here;  // what a press on a bar keeps
  enum class Presses { no, yes } presses = Presses::yes;
};
// Fills and edges now, and where the bar may be pressed; labels are gathered, to be drawn over the now line.
void bar_fills(look::Canvas& canvas, const BarMaker& maker, const Lane& lane, const Bar& bar,
               const RowPlace& place, std::vector<Label>& labels);

}  // namespace squeezeout::board
