#include "client/bench/next_button.h"

#include <cctype>

namespace squeezeout::bench {

using look::Rect;
using look::Role;
using look::Type;

void next_button(look::Canvas& canvas, Rect at, const Scene& scene, const GlueUp& g) {
  const auto next = next_key(scene.floor, g);
  const words::Context c = scene.context();
  const std::string title = words::title(c, g);
  const bool can = next && next->from <= scene.now;
  const Role ground = can ? Role::key : Role::lane, ink = can ? Role::on_key : Role::muted;
  canvas.box(at, ground);
  if (!can) canvas.edge(at, Role::grid, 0.35F);

  Rect inside = at.inset(canvas.px(7), canvas.px(4));
  const float side = std::min(inside.h * 0.62F, canvas.px(20));
  const Rect icon = inside.cut_left(side).middle(side, side);
  canvas.icon(next ? next->glyph : look::Glyph::hourglass, icon, ink);
  inside.cut_left(canvas.px(7));

  if (can) {
    Rect foot = inside;
    canvas.words(foot.cut_bottom(canvas.cap(Type::body)), "Space", Type::body, {ink, ground},
                 look::Align::right);
  }
  Rect text = inside.middle(inside.w, canvas.line_px(Type::big) + canvas.line_px(Type::strong));
  std::string sub = title;
  if (next && !can) sub = title + " · can come " + words::clock(c, next->from);
  if (next) {
    canvas.words(text.cut_top(canvas.line_px(Type::big)), next->word, Type::big, {ink, ground});
  } else {  // a wait, and nothing to be done after it
    std::string phase = words::phase(c, g);
    phase[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(phase[0])));
    canvas.words(text.cut_top(canvas.line_px(Type::big)), phase, Type::head, {ink, ground});
  }
  canvas.words(text, sub, Type::strong, {ink, ground});
  if (!can) return;
  canvas.press({"next",
                next->word + ", " + title,
                at,
                {' ', look::kEnter},
                Ask{next->body},
                look::Kind::button});
}

}  // namespace squeezeout::bench
