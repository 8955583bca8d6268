#pragma once
// The time axis: instants to pixels and back, with closed hours folded into narrow strips.
//   Shape   pieces in order, without gaps; each is linear. A closed stretch is folded when it would be wider than a strip. The
//           hour that a spring night skips is a piece of no time and some width, so that it is seen
//   Units   pixels from the left edge of the screen

#include <vector>

#include "common/time/hours.h"

namespace squeezeout::board {

class TimeAxis {
 public:
  struct Piece {
    Span span;
    float x0 = 0, x1 = 0;
    enum class Kind { open, closed, folded, skipped } kind = Kind::open;
  };
  struct Wish {
    Instant at{};         // stands at `part` of the width
    float part = 0.3F;    // 0..1, or beyond an edge
    Seconds open_time{};  // what the width shows, were there no strips
    float left = 0, right = 0;
    float fold_px = 0;  // width of a strip
    float skip_px = 0;  // of a skipped hour
  };
  TimeAxis(const Hours& hours, const Wish& wish);

  float x(Instant t) const;
  Instant at(float x) const;  // the inverse, to the second
  Span visible() const;       // what stands between left and right
  const std::vector<Piece>& pieces() const { return pieces_; }  // those that are visible
  float px_per_second() const { return px_per_second_; }

 private:
  void build(const Hours& hours, Seconds reach);
  void add(const Zone& zone, Span span, Piece::Kind kind);
  void push(Span span, float width, Piece::Kind kind);
  Wish wish_;
  float px_per_second_ = 0;
  std::vector<Piece> all_, pieces_;
};

}  // namespace squeezeout::board
