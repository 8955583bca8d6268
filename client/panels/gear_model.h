#pragma once
// Gear: the stock, kind by kind: free, held by whom till when, out of use. A broken clamp is three presses: Gear, the kind,
// Broken.

#include "client/view/scene.h"

namespace squeezeout::panels {

[[nodiscard]] look::Frame lay_out_gear(const Scene& scene);

}  // namespace squeezeout::panels
