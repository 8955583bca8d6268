#pragma once
// One shift of a proposal: whose glue-up, from when to when, by how much, and with which other glue.

#include "client/view/scene.h"

namespace squeezeout::panels {

void shift_row(look::Canvas& canvas, look::Rect at, const Scene& scene, const Shift& s);

}  // namespace squeezeout::panels
