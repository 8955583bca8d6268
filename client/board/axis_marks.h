#pragma once
// What the time axis looks like: days, clock times, closed hours with how long they last, the now line, and the cut through what
// crosses a fold. Clock times that a night has twice say which they are.

#include "client/board/time_axis.h"
#include "client/view/scene.h"

namespace squeezeout::board {

// "14 1/2 h", "2 d 15 h": how long a closed stretch lasts.
[[nodiscard]] std::string closed_length(Seconds s);
// As wide as what stands in a strip.
[[nodiscard]] float fold_px(const look::Canvas& canvas);

// `head` above the lanes. `now_x`: what the now line's head covers.
void axis_marks(look::Canvas& canvas, const Scene& scene, const TimeAxis& axis, look::Rect head,
                look::Rect lanes, float now_x);
void now_line(look::Canvas& canvas, look::Rect head, look::Rect lanes, float now_x);
// A bar that runs through closed hours is cut where time is folded.
void break_marks(look::Canvas& canvas, const TimeAxis& axis, look::Rect bar, look::Role ground);

}  // namespace squeezeout::board
