#pragma once
// The board as text: lanes over a time axis. Laid out here from the floor, drawn there into lines.
//   Shape    a lane by gear shows only the time that gear is held; waiting stands in a lane of its own ("no gear held").
//            By bench and builder a lane shows all phases. Bars that would overlap stand in rows below each other.

#include <string>
#include <vector>

#include "client/words/words.h"

namespace squeezeout::cli {

enum class By { gear, bench, builder };

enum class Fill : char {
  planned = '-',
  open = '~',
  clamped = '/',
  over = '!',
  waiting = '.',
  spoiled = 'x'
};

struct Segment {
  Span span;
  Fill fill = Fill::planned;
};
struct Bar {
  GlueUpId glue_up;
  std::vector<Segment> segments;  // in order, without gaps; never empty
  std::string label;
  Span span() const { return {segments.front().span.begin, segments.back().span.end}; }
};
struct Lane {
  std::string key, name;
  std::vector<Bar> bars;  // by begin
};

// All lanes in the shop's order, with the bars that touch `window`.
[[nodiscard]] std::vector<Lane> lay_out_board(const words::Context& c, By by, Span window);
// Lines of at most 100 columns: axis, opening hours, lanes, what is empty, and what the fills mean.
[[nodiscard]] std::string draw_board(const words::Context& c, const std::vector<Lane>& lanes,
                                     Span window);

}  // namespace squeezeout::cli
