#pragma once
// Why the picked bar stands where it stands, in the strip below the lanes, with the keys that belong to it: the bars before and
// after it, what is last, another time, its card.

#include "client/board/chain_model.h"

namespace squeezeout::board {

// Whether there is something to say below the lanes.
[[nodiscard]] bool says_why(const Scene& scene);
[[nodiscard]] float why_px(const look::Canvas& canvas);
// `here`: where the board looks; a key to a bar out of sight looks there.
void why_strip(look::Canvas& canvas, look::Rect at, const Scene& scene, const Outlook& here);
// With none picked, K picks the first of those drawn that is still to start.
void key_to_first(look::Canvas& canvas, const Scene& scene, const Places& places);

// The bars before and after one, by start: along the chain when it is shown, else of all that the board has a place for.
struct Neighbours {
  GlueUpId before, after;
};
[[nodiscard]] Neighbours neighbours_of(const Scene& scene, GlueUpId glue_up);

}  // namespace squeezeout::board
