#pragma once
// Why these figures: each figure with its band and what limits it, and under it formula, source, mark and uncertainty; then why
// which glue suits, what to mind, and what could not be worked out.

#include "client/view/offer.h"

namespace squeezeout::bench {

[[nodiscard]] look::Frame lay_out_figures(const Scene& scene);

}  // namespace squeezeout::bench
