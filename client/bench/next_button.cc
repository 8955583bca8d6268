#include "client/bench/next_button.h"

#include <cctype>

#include "client/panels/room.h"
#include "client/words/say.h"

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

  Rect inside = at.inset(canvas.px(5), canvas.px(3));
  const float side = std::min({inside.h * 0.62F, canvas.px(20), inside.w * 0.15F});
  canvas.icon(next ? next->glyph : look::Glyph::hourglass, inside.cut_left(side).middle(side, side),
              ink);
  inside.cut_left(canvas.px(5));

  Rect text = inside;
  if (can) {
    Rect foot = text.cut_bottom(canvas.cap(Type::small));
    canvas.words(foot, "Space", Type::small, {ink, ground}, look::Align::right);
    text = inside.middle(inside.w, inside.h - 2 * canvas.cap(Type::small));
  }
  std::vector<std::string> sub{title};
  if (next && !can) {
    const std::string from = words::clock(c, next->from);
    sub = {words::say("{} · can come {}", title, from), words::say("can come {}", from)};
  } else {
    sub.push_back(words::recipe(c, g.recipe));
  }
  std::string word = next ? next->word : words::phase(c, g);
  word[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(word[0])));
  // The word as large as leaves the line below it its room.
  const bool one_line = canvas.width(Type::small, sub.front()) <= text.w;
  const float below = canvas.line_px(Type::small) * (one_line ? 1.2F : 2.2F);
  const bool large = next && text.h - below >= canvas.cap(Type::big) + canvas.px(2);
  const Type type = large ? Type::big : Type::head;
  text = text.middle(text.w, std::min(text.h, canvas.line_px(type) + below));
  const Rect foot = text.cut_bottom(below);
  canvas.words(text, word, type, {ink, ground});
  canvas.one_of(foot, sub, Type::strong, {ink, ground});
  if (!can) return;
  canvas.press({"next",
                words::say("{}, {}", next->word, title),
                at,
                {' ', look::kEnter},
                Ask{next->body},
                look::Kind::button});
}

}  // namespace squeezeout::bench
