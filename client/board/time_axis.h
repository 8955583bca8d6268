#pragma once
// The time axis: instants to pixels, with closed hours folded into narrow strips. Now stands at 30 % of the width.
//   Shape   pieces in order, without gaps; each is linear. A closed stretch is folded when it would be wider than a strip
//   Units   pixels from the left edge of the screen

#include <vector>

#include "common/time/hours.h"

namespace squeezeout::board {

class TimeAxis {
 public:
  struct Piece {
    Span span;
    float x0 = 0, x1 = 0;
    enum class Kind { open, closed, folded } kind = Kind::open;
  };
  struct Wish {
    Instant now{};
    Seconds open_time{};  // what the width shows, were there no strips
    float pan_px = 0;     // positive looks later
    float left = 0, right = 0;
    float fold_px = 0;  // width of a strip
  };
  TimeAxis(const Hours& hours, const Wish& wish);

  float x(Instant t) const;
  Span visible() const;  // what stands between left and right
  const std::vector<Piece>& pieces() const { return pieces_; }  // those that are visible
  float px_per_second() const { return px_per_second_; }

 private:
  Wish wish_;
  float px_per_second_ = 0;
  std::vector<Piece> all_, pieces_;
};

}  // namespace squeezeout::board
