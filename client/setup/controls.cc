#include "client/setup/controls.h"

#include "client/words/say.h"

namespace squeezeout::setup {

using look::Align;
using look::Button;
using look::Canvas;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

const Shop& shown_shop(const Scene& scene) {
  static const Shop nothing = draft::blank_shop("UTC");
  if (scene.view.draft.shop) return *scene.view.draft.shop;
  return scene.floor.shop ? *scene.floor.shop : nothing;
}

Rect heading_row(Canvas& canvas, const Scene& scene, Rect& body) {
  Rect row = row_of(canvas, body);
  const bool any = !scene.view.draft.before.empty();
  canvas.button(row.cut_right(canvas.px(32)), {.id = "setup.undo",
                                               .label = words::tr("Undo"),
                                               .key_name = "Z",
                                               .keys = {'Z'},
                                               .intent = edit(draft::Edit::What::undo),
                                               .look = any ? Look::normal : Look::off});
  row.cut_right(canvas.gap());
  return row;
}

void heading(Canvas& canvas, Rect row, const Heading& h) {
  const float title = canvas.line_px(Type::title), line = canvas.line_px(Type::body);
  Rect text = row.middle(row.w, std::min(row.h, title + 2 * line));
  canvas.words(text.cut_top(std::min(title, text.h)), h.title, Type::title, {});
  canvas.paragraph(text, h.sentence, Type::body, {Role::muted, Role::background}, 2);
}

Rect row_of(const Canvas& canvas, Rect& area) {
  if (area.h < canvas.touch()) return {area.x, area.y, area.w, 0};
  const Rect row = area.cut_top(canvas.touch());
  area.cut_top(canvas.gap());
  return row;
}

Rect labelled(Canvas& canvas, Rect row, const std::string& label) {
  canvas.words(row.cut_left(canvas.px(26)), label, Type::strong, {Role::muted, Role::background});
  row.cut_left(canvas.px(2));
  return row;
}

void stepper(Canvas& canvas, Rect at, const Stepper& s) {
  if (at.empty()) return;
  const auto key = [&](Rect where, const std::string& label, const char* end,
                       const std::optional<Intent>& to, int letter) {
    canvas.button(where, {.id = s.id + end,
                          .label = label,
                          .key_name = letter_name(letter),
                          .keys = letter != 0 ? std::vector<int>{letter} : std::vector<int>{},
                          .intent = to.value_or(Back{}),
                          .look = to ? Look::normal : Look::off});
  };
  key(at.cut_left(canvas.touch()), s.less, ".less", s.to_less, s.less_key);
  key(at.cut_right(canvas.touch()), s.more, ".more", s.to_more, s.more_key);
  canvas.words(at.inset(canvas.px(1), 0), s.says, Type::strong, {}, Align::centre);
}

void text_field(Canvas& canvas, const Scene& scene, Rect at, look::TextField f) {
  using Typed = look::TextField::Typed;
  if (at.empty()) return;
  if (scene.view.typing == f.id) f.typed = scene.view.afresh ? Typed::afresh : Typed::here;
  if (!f.keys.empty()) f.key_name = letter_name(f.keys.front());
  canvas.field(at, std::move(f));
}

void choice(Canvas& canvas, Rect at, std::vector<Button> keys) {
  if (at.empty()) return;
  const auto n = static_cast<float>(keys.size());
  const float width = (at.w - canvas.gap() * (n - 1)) / n;
  for (Button& b : keys) {
    canvas.button(at.cut_left(width), std::move(b));
    at.cut_left(canvas.gap());
  }
}

Grid grid_in(const Canvas& canvas, Rect area, float least_width, float height) {
  Grid g{.area = area, .height = height, .gap = canvas.gap()};
  g.columns = std::max(1, static_cast<int>((area.w + g.gap) / (least_width + g.gap)));
  g.rows = std::max(0, static_cast<int>((area.h + g.gap + 0.5F) / (height + g.gap)));
  const auto columns = static_cast<float>(g.columns);
  g.width = (area.w - g.gap * (columns - 1)) / columns;
  return g;
}

Rect Grid::cell(int i) const {
  const auto column = static_cast<float>(i % columns), row = static_cast<float>(i / columns);
  return {area.x + column * (width + gap), area.y + row * (height + gap), width, height};
}

void tile(Canvas& canvas, Rect at, Tile t) {
  const bool in = t.state != Tile::State::out;
  canvas.box(at, in ? Role::panel : Role::lane);
  canvas.edge(at, in ? Role::text : Role::edge, in ? 1.0F : 0.35F);
  const Role ground = in ? Role::panel : Role::lane;
  Rect inside = at.inset(canvas.px(3), canvas.px(2));
  const float title = canvas.line_px(Type::strong), small = canvas.line_px(Type::small);
  if (t.key != 0) {
    Rect corner = inside.cut_right(canvas.px(4));
    canvas.words(corner.cut_top(title), letter_name(t.key), Type::small, {Role::muted, ground},
                 Align::right);
  }
  if (t.state == Tile::State::lacking) {
    canvas.warn_tag(inside.cut_left(canvas.px(4.6F)).middle(canvas.px(4.6F), canvas.px(4.6F)));
    inside.cut_left(canvas.px(2));
  }
  Rect text = inside.middle(inside.w,
                            std::min(inside.h, title + small * static_cast<float>(t.lines.size())));
  canvas.one_of(text.cut_top(title), {t.title, t.short_title.empty() ? t.title : t.short_title},
                Type::strong, {Role::text, ground});
  for (const std::vector<std::string>& forms : t.lines) {
    if (text.h < small * 0.7F) break;
    canvas.one_of(text.cut_top(small), forms, Type::small, {Role::muted, ground});
  }
  std::vector<int> keys;
  if (t.key != 0) keys.push_back(t.key);
  canvas.press({std::move(t.id), std::move(t.title), at, std::move(keys), std::move(t.intent),
                look::Kind::button});
}

int letter(int n) {
  // N and P turn pages, T takes a message's fix, U and Z undo.
  constexpr std::string_view kLetters = "ABCDEFGHIJKLMOQRSVWXY";
  return n < static_cast<int>(kLetters.size()) ? kLetters[static_cast<std::size_t>(n)] : 0;
}

std::string letter_name(int key) {
  return key > ' ' && key < 0x7F ? std::string(1, static_cast<char>(key)) : std::string();
}

Intent edit(draft::Edit::What what, int at, int by, std::string text) {
  return EditShop{{.what = what, .at = at, .by = by, .text = std::move(text)}};
}

}  // namespace squeezeout::setup
