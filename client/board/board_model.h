#pragma once
// The board: lanes, the time axis with its strips and the now line, zoom, pages, and the legend.

#include "client/view/scene.h"

namespace squeezeout::board {

[[nodiscard]] look::Frame lay_out_board(const Scene& scene);

}  // namespace squeezeout::board
