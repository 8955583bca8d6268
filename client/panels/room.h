#pragma once
// Room: what a screen puts below each other, and what it says in fewer words, when it has little of it.

#include <span>
#include <string>
#include <vector>

#include "client/look/canvas.h"

namespace squeezeout::panels {

// Large text on a usual screen: as little as 259 layout millimetres, so that columns go below each other or onto pages.
[[nodiscard]] bool narrow(const look::Canvas& canvas);

// "14 spool clamps · hide glue": as many of the pieces as stand whole in a line of that width, the most important first; what has
// no room is passed over. None has: the first of them. Empty pieces are left out.
[[nodiscard]] std::string pieces_that_fit(const look::Canvas& canvas, look::Type type, float width,
                                          std::span<const std::string> pieces);

// A button, without its second line where that would not stand whole in it.
void key(look::Canvas& canvas, look::Rect at, look::Button button);

// How tall the Next key is: that, and never less than 30 mm of glass.
[[nodiscard]] float next_px(const look::Canvas& canvas, float layout_mm);

// How tall a heading of two lines is, the second in the size of body.
[[nodiscard]] float heading_px(const look::Canvas& canvas);

}  // namespace squeezeout::panels
