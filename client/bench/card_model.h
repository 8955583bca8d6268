#pragma once
// The card: one glue-up, readable from across the bench. Wet: the time left comes first, for it is the joint that is at
// risk. Clamped and waiting: the clock time first, the countdown second.

#include "client/view/scene.h"

namespace squeezeout::bench {

[[nodiscard]] look::Frame lay_out_card(const Scene& scene);

}  // namespace squeezeout::bench
