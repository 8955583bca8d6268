#pragma once
// The wall: when gear frees, over-time first; then what is free now. Seven rows, read at 5 m.
//   Units   wall millimetres: of a 43-inch screen, scaled by the height

#include <vector>

#include "client/view/scene.h"

namespace squeezeout::wall {

inline constexpr int kRows = 7;

// Glue-ups in the wall's order: still on past their time, those that hold gear by when it frees, then waiting, then ready.
[[nodiscard]] std::vector<const GlueUp*> wall_order(const Scene& scene);

[[nodiscard]] look::Frame lay_out_wall(const Scene& scene);

}  // namespace squeezeout::wall
