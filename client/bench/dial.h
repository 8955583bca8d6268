#pragma once
// The big panel of the card: one time that can be read from across the bench, a second column beside it, and how much of the
// phase is gone.

#include <string>

#include "client/view/scene.h"

namespace squeezeout::bench {

struct Dial {
  look::Role ground = look::Role::lane, ink = look::Role::text;
  look::Fill pattern = look::Fill::none;
  look::Role pattern_ink = look::Role::hatch;
  look::Glyph glyph = look::Glyph::drop;
  enum class Frame { plain, amber } frame = Frame::plain;  // amber: past its time
  std::string huge;                                        // "15:40", or "1 m 47 s" while wet
  std::string small;                                       // "off", "open time left"
  std::string side_head, side;                             // the second column
  double done = -1;                                        // 0..1 of the phase; below 0: no bar
};
// Not live, somebody else's has no countdown: its times are plans.
[[nodiscard]] Dial dial(const Scene& scene, const GlueUp& g);
void big_panel(look::Canvas& canvas, look::Rect at, const Dial& d);

}  // namespace squeezeout::bench
