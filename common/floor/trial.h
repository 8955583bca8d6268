#pragma once
// A floor to try things on: what counts from `at` on, without the years of glue-ups that are over. Plans and undo are left out.

#include "common/floor/state.h"

namespace squeezeout {

[[nodiscard]] Floor trial_of(const Floor& floor, Instant at);

}  // namespace squeezeout
