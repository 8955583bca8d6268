#pragma once
// Bench home: my glue-ups, running and next; the Next key of the most urgent; tiles for what is glued next. A usual glue-up
// is reserved in two presses: its tile, RESERVE.

#include "client/view/scene.h"

namespace squeezeout::bench {

[[nodiscard]] look::Frame lay_out_home(const Scene& scene);

}  // namespace squeezeout::bench
