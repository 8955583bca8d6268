#pragma once
// Who is kept waiting for gear: asked in the same way by the alarms, the board and the wall.

#include "common/floor/state.h"

namespace squeezeout {

// Whether `next`, which is reserved, could not have its gear at its start while `g` keeps what it holds.
[[nodiscard]] bool kept_from(const Floor& floor, const GlueUp& g, const GlueUp& next);
// The first to start of those that `g` keeps from their gear, by `until`; null: none.
[[nodiscard]] const GlueUp* wanted_by(const Floor& floor, const GlueUp& g, Instant until);

}  // namespace squeezeout
