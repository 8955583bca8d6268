#pragma once
// Why not sooner, in as few facts as can be named, and other ways to an earlier moment, each computed, each one press: another
// glue, fewer pieces, a holder who would have to agree.

#include "client/view/scene.h"

namespace squeezeout::bench {

inline constexpr float kOtherMm = 24, kNarrowOtherMm = 17;

// What can be pressed of it: fewer pieces than usual is told by the recipe, and is no press of ours.
[[nodiscard]] const std::vector<Alternative>& others_of(const Scene& scene);
// Side by side, one to three, keys G, H, I.
void others_row(look::Canvas& canvas, look::Rect at, const Scene& scene);

}  // namespace squeezeout::bench
