#include "client/panels/room.h"

namespace squeezeout::panels {

using look::Type;

bool narrow(const look::Canvas& canvas) { return canvas.screen().w < canvas.px(330); }

std::string pieces_that_fit(const look::Canvas& canvas, Type type, float width,
                            std::span<const std::string> pieces) {
  std::string out, first;
  for (const std::string& piece : pieces) {
    if (piece.empty()) continue;
    if (first.empty()) first = piece;
    const std::string more = out.empty() ? piece : out + " · " + piece;
    if (canvas.width(type, more) <= width) out = more;
  }
  return out.empty() ? first : out;
}

void key(look::Canvas& canvas, look::Rect at, look::Button button) {
  // Low keys have the key's name beside the second line, and it stands in the middle.
  const bool low = at.h < canvas.px(24), tall = at.h >= canvas.px(17);
  const float name = low ? 2 * (canvas.width(Type::small, button.key_name) + canvas.px(1)) : 0;
  if (!tall || canvas.width(Type::small, button.sub) > at.w - canvas.px(4) - name)
    button.sub.clear();
  canvas.button(at, std::move(button));
}

float next_px(const look::Canvas& canvas, float layout_mm) {
  return std::max(canvas.px(layout_mm), 1.5F * canvas.touch());
}

float heading_px(const look::Canvas& canvas) {
  return canvas.line_px(Type::head) + canvas.line_px(Type::body);
}

}  // namespace squeezeout::panels
