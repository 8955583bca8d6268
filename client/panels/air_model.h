#pragma once
// Shop air: the last reading and what is ahead; a reading or a cold night told with a few presses and no keyboard. Beside it
// the bottles with their age, and the pots that are mixed.

#include "client/view/scene.h"

namespace squeezeout::panels {

[[nodiscard]] look::Frame lay_out_air(const Scene& scene);

}  // namespace squeezeout::panels
