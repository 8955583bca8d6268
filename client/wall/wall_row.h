#pragma once
// One row of the wall: the phase, when its gear frees, how long that is, whose it is and where; the gear is its heading.
//   Units   wall millimetres, of a 43-inch screen

#include <string>
#include <vector>

#include "client/view/scene.h"

namespace squeezeout::wall {

inline constexpr float kMarginMm = 13;

// As many names as fit, then "+N".
[[nodiscard]] std::string fitting_list(const look::Canvas& canvas,
                                       const std::vector<std::string>& names,
                                       const std::string& separator, float width);
// "15:40" as large as the wall's times are, and what stands beside it ("Fri", "pm") as large as its names. Returns its width.
float wall_clock(look::Canvas& canvas, look::Rect at, const std::string& clock, look::Ink ink);

void wall_row(look::Canvas& canvas, look::Rect at, const Scene& scene, const GlueUp& g,
              look::Role ground);

}  // namespace squeezeout::wall
