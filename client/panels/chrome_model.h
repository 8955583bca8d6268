#pragma once
// What stands around every screen of a bench: the bar on top (screens, time, link), the NOT LIVE banner, the foot (what
// became of the last press, and Undo).

#include "client/view/scene.h"

namespace squeezeout::panels {

// Lays both out. body: what is left for the screen, less a margin. foot: empty while a message stands there.
struct Chrome {
  look::Rect body, foot;
};
[[nodiscard]] Chrome chrome(look::Canvas& canvas, const Scene& scene);
// The same, with the usual hint in the foot. Returns the body.
[[nodiscard]] look::Rect chrome_with_hint(look::Canvas& canvas, const Scene& scene);

// The banner alone, full width on top of `area`; nothing while live. Returns what is left.
[[nodiscard]] look::Rect banner(look::Canvas& canvas, const Scene& scene, look::Rect area,
                                look::Type type);

// "LIVE", "4 s late", "NOT LIVE", "connecting".
[[nodiscard]] std::string link_words(const Scene& scene);

// A frame for when there is no floor yet: connecting, or why not.
[[nodiscard]] look::Frame lay_out_waiting(const Scene& scene);

}  // namespace squeezeout::panels
