#pragma once
// Set-up: what this device is set to, and the shop's own pages: a draft that is filled in, tried and opened.
//   Shape    a row of page keys, a heading with Undo, and below it what the page sets; a change acts at once

#include "client/view/scene.h"

namespace squeezeout::setup {

[[nodiscard]] look::Frame lay_out_setup(const Scene& scene);

}  // namespace squeezeout::setup
