#include "client/look/icon_draw.h"

#include <imgui.h>

#include <cmath>

namespace squeezeout::look {
namespace {

// A square drawing board of side 1, put in the middle of the rectangle.
class Board {
 public:
  Board(ImDrawList& list, Rect at, unsigned colour) : list_(list), colour_(colour) {
    side_ = std::min(at.w, at.h);
    origin_ = {at.x + (at.w - side_) / 2, at.y + (at.h - side_) / 2};
  }
  ImVec2 at(float x, float y) const { return {origin_.x + x * side_, origin_.y + y * side_}; }
  void bar(float x0, float y0, float x1, float y1) const {
    list_.AddRectFilled(at(x0, y0), at(x1, y1), colour_);
  }
  void triangle(ImVec2 a, ImVec2 b, ImVec2 c) const {
    list_.AddTriangleFilled(at(a.x, a.y), at(b.x, b.y), at(c.x, c.y), colour_);
  }
  void stroke(std::initializer_list<ImVec2> points, float width) const {
    for (const ImVec2 p : points) list_.PathLineTo(at(p.x, p.y));
    list_.PathStroke(colour_, 0, width * side_);
  }
  void drop() const {
    const ImVec2 centre = at(0.5F, 0.64F);
    list_.PathLineTo(at(0.5F, 0.02F));
    list_.PathArcTo(centre, 0.34F * side_, -0.42F, 3.14159F + 0.42F, 28);
    list_.PathFillConvex(colour_);
  }

 private:
  ImDrawList& list_;
  unsigned colour_;
  float side_ = 0;
  ImVec2 origin_{};
};

}  // namespace

void draw_icon(ImDrawList& list, Glyph glyph, Rect at, unsigned colour) {
  const Board b{list, at, colour};
  switch (glyph) {
    case Glyph::drop:
      return b.drop();
    case Glyph::clamp:
      b.bar(0.34F, 0.06F, 0.47F, 0.94F);
      b.bar(0.53F, 0.06F, 0.66F, 0.94F);
      b.triangle({0.0F, 0.22F}, {0.28F, 0.5F}, {0.0F, 0.78F});
      return b.triangle({1.0F, 0.22F}, {0.72F, 0.5F}, {1.0F, 0.78F});
    case Glyph::hourglass:
      b.bar(0.16F, 0.04F, 0.84F, 0.14F);
      b.bar(0.16F, 0.86F, 0.84F, 0.96F);
      b.triangle({0.22F, 0.16F}, {0.78F, 0.16F}, {0.5F, 0.54F});
      return b.triangle({0.22F, 0.84F}, {0.5F, 0.46F}, {0.78F, 0.84F});
    case Glyph::tick:
      return b.stroke({{0.10F, 0.54F}, {0.38F, 0.82F}, {0.90F, 0.20F}}, 0.15F);
    case Glyph::warn:
      b.bar(0.41F, 0.04F, 0.59F, 0.64F);
      return b.bar(0.41F, 0.76F, 0.59F, 0.94F);
    case Glyph::back:
      return b.stroke({{0.66F, 0.14F}, {0.30F, 0.50F}, {0.66F, 0.86F}}, 0.13F);
    case Glyph::forward:
      return b.stroke({{0.34F, 0.14F}, {0.70F, 0.50F}, {0.34F, 0.86F}}, 0.13F);
    case Glyph::up:
      return b.stroke({{0.14F, 0.66F}, {0.50F, 0.30F}, {0.86F, 0.66F}}, 0.13F);
    case Glyph::down:
      return b.stroke({{0.14F, 0.34F}, {0.50F, 0.70F}, {0.86F, 0.34F}}, 0.13F);
    case Glyph::plus:
      b.bar(0.43F, 0.12F, 0.57F, 0.88F);
      return b.bar(0.12F, 0.43F, 0.88F, 0.57F);
    case Glyph::minus:
      return b.bar(0.12F, 0.43F, 0.88F, 0.57F);
    case Glyph::link:
      b.stroke({{0.58F, 0.62F}, {0.06F, 0.62F}, {0.06F, 0.38F}, {0.58F, 0.38F}, {0.58F, 0.62F}},
               0.11F);
      return b.stroke(
          {{0.42F, 0.62F}, {0.42F, 0.38F}, {0.94F, 0.38F}, {0.94F, 0.62F}, {0.42F, 0.62F}}, 0.11F);
    case Glyph::head:
      return b.triangle({0.0F, 0.1F}, {1.0F, 0.1F}, {0.5F, 0.95F});
  }
}

}  // namespace squeezeout::look
