#pragma once
// Help: what the screen that is open is for, what can be pressed there, what its marks mean, how to leave. What can be pressed
// is read from the frame that lies beneath, so that help says what is so.

#include "client/view/scene.h"

namespace squeezeout::help {

// beneath: the screen that is open.
[[nodiscard]] look::Frame lay_out_help(const Scene& scene, const look::Frame& beneath);

}  // namespace squeezeout::help
