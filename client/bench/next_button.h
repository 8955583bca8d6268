#pragma once
// The Next key on the screen: the biggest button, Space or Enter. Quiet, and no key, until the step can come.

#include "client/view/next.h"
#include "client/view/scene.h"

namespace squeezeout::bench {

void next_button(look::Canvas& canvas, look::Rect at, const Scene& scene, const GlueUp& g);

}  // namespace squeezeout::bench
