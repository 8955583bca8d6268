#pragma once
// Snags: glue-ups that lost their place, and those that the weather moved: why, and at most three computed ways out of it.

#include "client/view/scene.h"

namespace squeezeout::panels {

[[nodiscard]] look::Frame lay_out_snags(const Scene& scene);

}  // namespace squeezeout::panels
