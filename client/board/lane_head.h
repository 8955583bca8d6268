#pragma once
// What stands to the left of a lane: its name, what is to be said of it, and "+N" for what has no row. Pressing "+N" shows the lane
// alone, with all its rows.

#include "client/board/lane_model.h"

namespace squeezeout::board {

// `key`: also presses "+N"; 0: none. Returns whether it was used.
bool lane_head(look::Canvas& canvas, look::Rect at, const Lane& lane, int dropped,
               look::Role ground, int key);

}  // namespace squeezeout::board
