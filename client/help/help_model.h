#pragma once
// What the screen that is open is for.

#include "client/view/scene.h"

namespace squeezeout::help {

[[nodiscard]] look::Frame lay_out_help(const Scene& scene);

}  // namespace squeezeout::help
