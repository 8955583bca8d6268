#pragma once
// Plan: a repair or a replan. How far it is, and then what should move, from when to when, least harm first; nothing moves
// before ACCEPT, and one press takes it back.

#include "client/view/scene.h"

namespace squeezeout::panels {

[[nodiscard]] look::Frame lay_out_plan(const Scene& scene);

// Whether the screen has something to show: a plan under way, or one that was worked out and not put away.
[[nodiscard]] bool plan_at_hand(const Scene& scene);

// "12 400".
[[nodiscard]] std::string in_thousands(std::int64_t n);

}  // namespace squeezeout::panels
