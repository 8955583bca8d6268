#pragma once
// Labels: what stands on a bar, on plates. Chosen among whole forms, the longest that has room: never cut, never across the
// now line or an edge.

#include <string>
#include <vector>

#include "client/board/contention.h"
#include "client/board/lane_model.h"

namespace squeezeout::board {

inline constexpr float kIconPx = 24, kLabelPx = 90, kOffPx = 240;

struct Label {
  look::Rect at;  // where it may stand
  const GlueUp* glue_up = nullptr;
  std::vector<std::string> names;  // forms; none: the icon alone
  std::string off;                 // to the right: "off 15:40"
  std::vector<std::string> tag;    // forms of what is loud about it; an empty one is the "!" alone
  look::Ink ink;
  look::Glyph glyph = look::Glyph::tick;
  enum class Icon { no, yes } icon = Icon::no;
  enum class Ground { fill, outline } ground = Ground::outline;  // an outline is left alone
  enum class Chained { no, yes } chained = Chained::no;          // the link's icon stands before it
};

// "A. · No. 14 · bridge · 3", "A. · bridge", "bridge", "A.".
[[nodiscard]] std::vector<std::string> names_of(const Scene& scene, const Lane& lane,
                                                const Bar& bar);
void bar_label(look::Canvas& canvas, const Label& label);

}  // namespace squeezeout::board
