#pragma once
// The critical chain on the board, and why the picked bar stands where it stands. A link is outlined, tied to the next by a line,
// and has the link's icon before its name: never colour alone. The reason is in words, in the strip below the lanes.

#include <string>
#include <vector>

#include "client/view/scene.h"

namespace squeezeout::board {

struct BarPlace {  // a bar as it is drawn; a glue-up has one in each lane of its gear
  GlueUpId glue_up;
  std::string lane;
  look::Rect at;
  look::Line line = look::Line::solid;  // around it, on the chain: planned is dashed
};

// The chain of the picked glue-up, or of the whole plan; the last first. Empty: hidden, or there is none.
[[nodiscard]] const std::vector<ChainLink>& chain_of(const Scene& scene);
[[nodiscard]] bool on_chain(const std::vector<ChainLink>& chain, GlueUpId glue_up);

// Outlines and lines; over the bars, under their labels.
void chain_marks(look::Canvas& canvas, const std::vector<ChainLink>& chain,
                 const std::vector<BarPlace>& places);
void picked_marks(look::Canvas& canvas, GlueUpId picked, const std::vector<BarPlace>& places);

inline constexpr float kWhyMm = 24;
// Whether there is something to say below the lanes.
[[nodiscard]] bool says_why(const Scene& scene);
// Which glue-up it is, why it stands there, and the keys to the bars before and after it. `steps`: what the keys go through, in
// order of time.
void why_strip(look::Canvas& canvas, look::Rect at, const Scene& scene,
               const std::vector<GlueUpId>& steps);

// What J and K go through: along the chain, or all that the board draws.
[[nodiscard]] std::vector<GlueUpId> steps_of(const Scene& scene,
                                             const std::vector<BarPlace>& places);
// With none picked, K picks the first that is still to start.
void key_to_first(look::Canvas& canvas, const Scene& scene, const std::vector<GlueUpId>& steps,
                  const std::vector<BarPlace>& places);

}  // namespace squeezeout::board
