#pragma once
// The alarm on the screen: the foot of every screen of a bench, amber while a joint is at risk.

#include "client/view/scene.h"

namespace squeezeout::panels {

// Whether the foot is the alarm's: a joint at risk hides what became of the last press, clamps that are due do not.
[[nodiscard]] bool alarm_takes_the_foot(const Scene& scene);
// Lays out the words, a key that opens the card, and Quiet, in what the foot has for keys.
void alarm_strip(look::Canvas& canvas, const Scene& scene, look::Rect at);

}  // namespace squeezeout::panels
