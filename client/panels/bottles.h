#pragma once
// Bottles with their age, and pots with their time: the right half of the air screen.

#include "client/view/scene.h"

namespace squeezeout::panels {

void bottles(look::Canvas& canvas, look::Rect area, const Scene& scene, const AirDraft& draft);

}  // namespace squeezeout::panels
