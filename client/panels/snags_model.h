#pragma once
// Snags: glue-ups that lost their place, those that the weather moved, and builds that will not be ready when they are due: why,
// and at most three computed ways out of it. REPAIR looks for a place for all that lost theirs at once.

#include "client/view/scene.h"

namespace squeezeout::panels {

[[nodiscard]] look::Frame lay_out_snags(const Scene& scene);

}  // namespace squeezeout::panels
