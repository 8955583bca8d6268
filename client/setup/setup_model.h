#pragma once
// What this device and the shop are set to.

#include "client/view/scene.h"

namespace squeezeout::setup {

[[nodiscard]] look::Frame lay_out_setup(const Scene& scene);

}  // namespace squeezeout::setup
