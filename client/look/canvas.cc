#include "client/look/canvas.h"

#include <cmath>

namespace squeezeout::look {
namespace {

struct Dress {
  Role fill, ink, sub, edge;
  float edge_mm;
};
Dress dress(Look look, Role on) {
  switch (look) {
    case Look::key:
      return {Role::key, Role::on_key, Role::on_key, Role::key, 0};
    case Look::chosen:
      return {Role::key, Role::on_key, Role::on_key, Role::key, 0};
    case Look::off:
      return {on, Role::muted, Role::muted, Role::grid, 0.3F};
    case Look::act:
      return {on, Role::text, Role::muted, Role::amber, 0.8F};
    case Look::normal:
      break;
  }
  return {on, Role::text, Role::muted, Role::edge, 0.35F};
}

}  // namespace

void Canvas::box(Rect at, Role ink, Fill fill) {
  if (at.empty()) return;
  frame_.marks.push_back(Box{at, fill, ink, Line::none, Role::edge, 0});
}

void Canvas::edge(Rect at, Role ink, float mm, Line line) {
  if (at.empty()) return;
  const float px = std::max(1.0F, std::round(scale_.px(mm)));
  frame_.marks.push_back(Box{at, Fill::none, Role::background, line, ink, px});
}

Rect Canvas::words(Rect in, std::string_view text, Type type, Ink ink, Align align) {
  std::string shown = letters_.fitted(type, text, in.w);
  if (shown.empty()) return {in.x, in.y, 0, 0};
  const float width = letters_.width(type, shown), cap = letters_.cap_px(type);
  const float slack = in.w - width;
  const float x = in.x + (align == Align::left ? 0 : align == Align::centre ? slack / 2 : slack);
  const float top = in.y + (in.h - cap) / 2;
  const Rect at{x, top, width, cap};
  const Point pen{std::round(x), std::round(top - letters_.cap_top_px(type))};
  frame_.marks.push_back(Words{at, pen, std::move(shown), type, ink.ink, ink.on});
  return at;
}

float Canvas::paragraph(Rect in, std::string_view text, Type type, Ink ink, int lines) {
  const float pitch = line_px(type);
  const int fitting = std::min(lines, static_cast<int>((in.h + pitch - cap(type)) / pitch));
  float used = 0;
  for (const std::string& line : letters_.wrapped(type, text, in.w, std::max(1, fitting))) {
    words(in.cut_top(pitch), line, type, ink);
    used += pitch;
  }
  return used;
}

void Canvas::button(Rect at, Button b) {
  const Dress d = dress(b.look, b.on);
  box(at, d.fill);
  if (d.edge_mm > 0) edge(at, d.edge, d.edge_mm);
  Rect inside = at.inset(px(2), px(2));
  if (!b.key_name.empty() && b.look != Look::off) {
    Rect corner = inside;
    const Rect strip = corner.cut_bottom(cap(Type::small));
    words(strip, b.key_name, Type::small, {d.sub, d.fill}, Align::right);
  }
  const float gap = px(2.2F), tall = cap(b.type);
  if (b.sub.empty()) {
    const auto lines = letters_.wrapped(b.type, b.label, inside.w, 2);
    const float pitch = tall * 1.7F;
    const float all = tall + pitch * static_cast<float>(lines.size() - 1);
    float y = inside.y + (inside.h - all) / 2;
    for (const std::string& line : lines) {
      words({inside.x, y, inside.w, tall}, line, b.type, {d.ink, d.fill}, Align::centre);
      y += pitch;
    }
  } else {
    const float small = cap(Type::small);
    const float y = inside.y + (inside.h - tall - gap - small) / 2;
    words({inside.x, y, inside.w, tall}, b.label, b.type, {d.ink, d.fill}, Align::centre);
    words({inside.x, y + tall + gap, inside.w, small}, b.sub, Type::small, {d.sub, d.fill},
          Align::centre);
  }
  if (b.look == Look::off) return;
  press({std::move(b.id), std::move(b.label), at, std::move(b.keys), std::move(b.intent),
         Kind::button});
}

}  // namespace squeezeout::look
