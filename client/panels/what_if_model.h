#pragma once
// What if: what one more of a kind, or longer hours, would have saved in waiting, and will; ranked, worked out in the background.

#include "client/view/scene.h"

namespace squeezeout::panels {

[[nodiscard]] look::Frame lay_out_what_if(const Scene& scene);

}  // namespace squeezeout::panels
