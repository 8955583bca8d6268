#pragma once
// What the board says beside its lanes: what is free all the time, what is left out, that there is nothing, what the fills mean.

#include "client/board/lane_model.h"

namespace squeezeout::board {

[[nodiscard]] bool has_note(const Scene& scene, const LaneSet& set);
void note(look::Canvas& canvas, look::Rect at, const Scene& scene, const LaneSet& set);
// Where no lane has a bar. An idle shop has a key to begin with.
void empty_words(look::Canvas& canvas, look::Rect lanes, const Scene& scene, const LaneSet& set,
                 Span window);
void legend(look::Canvas& canvas, look::Rect at, const Scene& scene);

}  // namespace squeezeout::board
