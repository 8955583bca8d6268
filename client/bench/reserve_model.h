#pragma once
// Reserve: what, with which glue and its cautions, the gear and how it was computed, the earliest time, and why not now.
// Nothing here is granted: the server says so, or says why not.

#include "client/view/scene.h"

namespace squeezeout::bench {

[[nodiscard]] look::Frame lay_out_reserve(const Scene& scene);

}  // namespace squeezeout::bench
