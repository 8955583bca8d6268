#pragma once
// The critical chain on the board. A link is outlined, tied to the next by a line, and has the link's icon before its name:
// never colour alone.

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
// All that are drawn, by glue-up.
class Places {
 public:
  explicit Places(std::vector<BarPlace> all);
  [[nodiscard]] std::span<const BarPlace> of(GlueUpId glue_up) const;
  const std::vector<BarPlace>& all() const { return all_; }

 private:
  std::vector<BarPlace> all_;  // by glue-up, as they were drawn
};

// The chain of the picked glue-up, or of the whole plan; the last first. Empty: hidden, or there is none.
[[nodiscard]] const std::vector<ChainLink>& chain_of(const Scene& scene);
[[nodiscard]] bool on_chain(const std::vector<ChainLink>& chain, GlueUpId glue_up);

// Outlines and lines; over the bars, under their labels.
void chain_marks(look::Canvas& canvas, const std::vector<ChainLink>& chain, const Places& places);
void picked_marks(look::Canvas& canvas, GlueUpId picked, const Places& places);

}  // namespace squeezeout::board
