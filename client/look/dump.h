#pragma once
// The screen as JSON: what tests find targets, sizes and contrasts in, and what stands in for a screen reader.
//   Shape   {"screen","revision","drawn_ms","width","height","mm_per_px","widgets": [{"id","label","kind","clickable":true,"rect":[x,y,w,h],
//           "rect_mm":[...],"keys":"..."}], "texts": [{"text","rect","rect_mm","cap_mm","fg","bg","contrast","distance_m","arc_minutes","cut"}]}

#include <cstdint>
#include <string>

#include "client/look/frame.h"
#include "client/look/palette.h"

namespace squeezeout::look {

struct DumpHead {
  Screen screen = Screen::bench;
  std::uint64_t revision = 0;  // of the floor that is shown
  std::int64_t drawn_ms = 0;   // this machine's clock, since 1970
};
[[nodiscard]] std::string dump_json(const DumpHead& head, const Frame& frame,
                                    const Palette& palette, const Scale& scale);

}  // namespace squeezeout::look
