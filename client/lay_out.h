#pragma once
// Which model lays out which screen.

#include "client/view/scene.h"

namespace squeezeout {

[[nodiscard]] look::Frame lay_out(const Scene& scene);

}  // namespace squeezeout
