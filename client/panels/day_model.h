#pragma once
// The day sheet: what was glued, plan against fact, how busy the gear was, what cures overnight, what is first tomorrow.

#include "client/view/scene.h"

namespace squeezeout::panels {

[[nodiscard]] look::Frame lay_out_day(const Scene& scene);

}  // namespace squeezeout::panels
