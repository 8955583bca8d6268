#pragma once
// Rectangles on the screen.
//   Units  pixels, y downwards; sizes come from millimetres through Scale

#include <algorithm>

namespace squeezeout::look {

struct Point {
  float x = 0, y = 0;
  friend bool operator==(const Point&, const Point&) = default;
};

struct Rect {
  float x = 0, y = 0, w = 0, h = 0;

  float right() const { return x + w; }
  float bottom() const { return y + h; }
  Point centre() const { return {x + w / 2, y + h / 2}; }
  bool empty() const { return w <= 0 || h <= 0; }
  bool contains(Rect o) const {
    return o.x >= x - 0.5F && o.y >= y - 0.5F && o.right() <= right() + 0.5F &&
           o.bottom() <= bottom() + 0.5F;
  }
  bool overlaps(Rect o) const {
    return x < o.right() && o.x < right() && y < o.bottom() && o.y < bottom();
  }
  Rect inset(float dx, float dy) const { return {x + dx, y + dy, w - 2 * dx, h - 2 * dy}; }
  Rect inset(float d) const { return inset(d, d); }
  Rect intersect(Rect o) const {
    const float l = std::max(x, o.x), t = std::max(y, o.y);
    return {l, t, std::min(right(), o.right()) - l, std::min(bottom(), o.bottom()) - t};
  }
  Rect middle(float width, float height) const {
    return {x + (w - width) / 2, y + (h - height) / 2, width, height};
  }

  // Cuts a strip off this rectangle and returns it: layouts are made by cutting.
  Rect cut_top(float size) {
    size = std::min(size, h);
    const Rect piece{x, y, w, size};
    y += size, h -= size;
    return piece;
  }
  Rect cut_bottom(float size) {
    size = std::min(size, h);
    h -= size;
    return {x, y + h, w, size};
  }
  Rect cut_left(float size) {
    size = std::min(size, w);
    const Rect piece{x, y, size, h};
    x += size, w -= size;
    return piece;
  }
  Rect cut_right(float size) {
    size = std::min(size, w);
    w -= size;
    return {x + w, y, size, h};
  }

  friend bool operator==(const Rect&, const Rect&) = default;
};

}  // namespace squeezeout::look
