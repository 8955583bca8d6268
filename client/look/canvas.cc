#include "client/look/canvas.h"

#include <cctype>
#include <cmath>
#include <optional>

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
      return {Role::panel, Role::text, Role::muted, Role::text, 1.0F};
    case Look::off:
      return {on, Role::muted, Role::muted, Role::grid, 0.3F};
    case Look::act:
    case Look::normal:
      break;
  }
  return {on, Role::text, Role::muted, Role::edge, 0.35F};
}

// What a text is set in when it has no room in `type`: smaller, never below the least size that can be read.
std::optional<Type> smaller(Type type) {
  switch (type) {
    case Type::body:
    case Type::strong:
      return Type::small;
    case Type::title:
      return Type::strong;
    case Type::head:
      return Type::title;
    case Type::big:
    case Type::giant:
      return Type::head;
    default:
      return std::nullopt;
  }
}

Type smallest(Type type) {
  while (const auto next = smaller(type)) type = *next;
  return type;
}

bool whole(const std::vector<std::string>& lines, std::string_view text) {
  std::size_t letters = 0;  // spaces at the ends of lines are gone
  for (const std::string& line : lines) letters += line.size() + 1;
  return !lines.empty() && letters == text.size() + 1 && text.ends_with(lines.back());
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
  if (text.empty()) return {in.x, in.y, 0, 0};
  for (std::optional<Type> fit = type; fit; fit = smaller(*fit))
    if (letters_.fitted(*fit, text, in.w) == text)
      return line(in, std::string(text), *fit, ink, align, false);
  const Type least = smallest(type);
  const float pitch = line_px(least);
  if (in.h >= pitch + cap(least)) {
    const auto lines = letters_.wrapped(least, text, in.w, 2);
    if (whole(lines, text)) {
      Rect rest = in.middle(in.w, pitch * 2);
      const Rect first = line(rest.cut_top(pitch), lines[0], least, ink, align, false);
      const Rect second = line(rest, lines[1], least, ink, align, false);
      const float x = std::min(first.x, second.x);
      return {x, first.y, std::max(first.right(), second.right()) - x, second.bottom() - first.y};
    }
  }
  return line(in, letters_.fitted(least, text, in.w), least, ink, align, true);
}

Rect Canvas::one_of(Rect in, const std::vector<std::string>& forms, Type type, Ink ink,
                    Align align) {
  if (forms.empty()) return {in.x, in.y, 0, 0};
  for (const std::string& form : forms)
    if (letters_.width(type, form) <= in.w) return words(in, form, type, ink, align);
  const Type least = smallest(type);
  const int lines = in.h >= line_px(least) + cap(least) ? 2 : 1;
  for (const std::string& form : forms)
    if (whole(letters_.wrapped(least, form, in.w, lines), form))
      return words(in, form, type, ink, align);
  return words(in, forms.back(), type, ink, align);
}

Rect Canvas::line(Rect in, std::string shown, Type type, Ink ink, Align align, bool cut) {
  if (shown.empty()) {  // room for no letter: it is missed, not forgotten
    if (cut) frame_.marks.push_back(Words{{in.x, in.y, 0, 0}, {}, "", type, ink.ink, ink.on, cut});
    return {in.x, in.y, 0, 0};
  }
  const float width = letters_.width(type, shown), cap = letters_.cap_px(type);
  const float slack = in.w - width;
  const float x = in.x + (align == Align::left ? 0 : align == Align::centre ? slack / 2 : slack);
  const float top = in.y + (in.h - cap) / 2;
  const Rect at{x, top, width, cap};
  const Point pen{std::round(x), std::round(top - letters_.cap_top_px(type))};
  frame_.marks.push_back(Words{at, pen, std::move(shown), type, ink.ink, ink.on, cut});
  return at;
}

float Canvas::paragraph(Rect in, std::string_view text, Type type, Ink ink, int lines) {
  const float room = std::min(in.h, line_px(type) * static_cast<float>(lines));
  std::vector<std::string> broken;
  for (std::optional<Type> fit = type; fit; fit = smaller(*fit)) {
    type = *fit;
    const int fitting = static_cast<int>((room + line_px(type) - cap(type)) / line_px(type));
    broken = letters_.wrapped(type, text, in.w, std::max(1, fitting));
    if (whole(broken, text)) break;
  }
  float used = 0;
  const bool cut = !whole(broken, text);
  for (std::size_t i = 0; i < broken.size(); ++i, used += line_px(type))
    line(in.cut_top(line_px(type)), broken[i], type, ink, Align::left,
         cut && i + 1 == broken.size());
  return used;
}

void Canvas::warn_tag(Rect at) {
  box(at, Role::amber);
  edge(at, Role::keyline, 0.3F);
  icon(Glyph::warn, at.inset(at.h * 0.18F), Role::on_amber);
}

void Canvas::figures(Rect in, std::string_view text, Type type, Ink ink) {
  for (const Type less : {Type::huge, Type::giant})
    if (type > less && figures_width(text, type) > in.w) type = less;
  const Type unit = Type::giant;
  const auto is_unit = [](char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; };
  const float space = cap(unit) * 0.35F;
  const float base = in.y + (in.h + cap(type)) / 2;
  float x = in.x;
  for (std::size_t at = 0; at < text.size();) {
    if (text[at] == ' ') {
      x += is_unit(text[at - 1]) ? space * 1.8F : space;
      ++at;
      continue;
    }
    std::size_t end = at;
    while (end < text.size() && text[end] != ' ' && is_unit(text[end]) == is_unit(text[at])) ++end;
    const std::string_view run = text.substr(at, end - at);
    const Type used = is_unit(text[at]) ? unit : type;
    const float wide = width(used, run);
    words({x, base - cap(used), wide + 1, cap(used)}, run, used, ink);
    x += wide;
    at = end;
  }
}

float Canvas::figures_width(std::string_view text, Type type) const {
  float sum = 0;
  for (const char c : text) {
    const std::string_view one(&c, 1);
    if (c == ' ')
      sum += cap(Type::giant) * 0.63F;
    else
      sum += width(std::isalpha(static_cast<unsigned char>(c)) != 0 ? Type::giant : type, one);
  }
  return sum;
}

void Canvas::also_by(int key, const std::string& id) {
  for (Press& p : frame_.presses)
    if (p.id == id) p.keys.push_back(key);
}

void Canvas::button(Rect at, Button b) {
  const Dress d = dress(b.look, b.on);
  box(at, d.fill);
  if (d.edge_mm > 0) edge(at, d.edge, d.edge_mm);
  Rect inside = at.inset(px(2), px(2));
  Rect label = inside;
  if (b.look == Look::act) {
    const bool little = width(Type::small, b.label) > inside.w - px(5.6F);
    const float side = px(little ? 3.4F : 4.6F), beside = side + px(little ? 0.6F : 1);
    warn_tag({inside.x, inside.y, side, side});
    if (width(b.type, b.label) > inside.w - 2 * beside) label.cut_left(beside);
  }
  if (!b.key_name.empty() && b.look != Look::off) {
    Rect corner = inside;
    const Rect strip = corner.cut_bottom(cap(Type::small));
    words(strip, b.key_name, Type::small, {d.sub, d.fill}, Align::right);
  }
  // The label's lines and the second line, in the middle. Two lines of label only where there is room for them.
  const float gap = px(2.2F);
  float tall = cap(b.type), pitch = tall * 1.7F;
  const float sub = b.sub.empty() ? 0 : gap + cap(Type::small);
  int most = inside.h >= tall + pitch + sub ? 2 : 1;
  auto lines = letters_.wrapped(b.type, b.label, label.w, most);
  while (!whole(lines, b.label) && smaller(b.type)) {
    b.type = *smaller(b.type);
    tall = cap(b.type), pitch = tall * 1.7F;
    most = std::clamp(static_cast<int>((inside.h - sub - tall) / pitch) + 1, 1, 3);
    lines = letters_.wrapped(b.type, b.label, label.w, most);
  }
  const bool cut = !whole(lines, b.label);
  const float all = tall + pitch * static_cast<float>(lines.size() - 1) + sub;
  float y = inside.y + (inside.h - all) / 2;
  for (const std::string& text : lines) {
    line({label.x, y, label.w, tall}, text, b.type, {d.ink, d.fill}, Align::centre,
         cut && &text == &lines.back());
    y += pitch;
  }
  if (!b.sub.empty())
    words({inside.x, y - pitch + tall + gap, inside.w, cap(Type::small)}, b.sub, Type::small,
          {d.sub, d.fill}, Align::centre);
  if (b.look == Look::off) return;
  press({std::move(b.id), std::move(b.label), at, std::move(b.keys), std::move(b.intent),
         Kind::button});
}

void Canvas::field(Rect at, TextField f) {
  const bool typed = f.typed != TextField::Typed::no;
  const bool afresh = f.typed == TextField::Typed::afresh && !f.text.empty();
  box(at, Role::panel);
  edge(at, typed ? Role::text : Role::edge, typed ? 1.0F : 0.35F);
  Rect inside = at.inset(px(2.5F), px(1.5F));
  if (!f.key_name.empty() && !typed)
    words(inside.cut_right(px(4)).middle(px(4), cap(Type::small)), f.key_name, Type::small,
          {Role::muted, Role::panel}, Align::right);
  Rect lines = inside.middle(inside.w, line_px(Type::small) + line_px(Type::strong));
  words(lines.cut_top(line_px(Type::small)), f.label, Type::small, {Role::muted, Role::panel});
  const float caret = px(0.5F);
  std::string_view end = f.text;
  while (!end.empty() && width(Type::strong, end) > lines.w - 3 * caret) {
    end.remove_prefix(1);
    while (!end.empty() && (static_cast<unsigned char>(end.front()) & 0xC0U) == 0x80U)
      end.remove_prefix(1);
  }
  if (afresh)
    box({lines.x - caret, lines.y, width(Type::strong, end) + 2 * caret, lines.h}, Role::text);
  const Rect text =
      words(lines, end, Type::strong,
            afresh ? Ink{Role::background, Role::text} : Ink{Role::text, Role::panel});
  if (typed && !afresh) box({text.x + text.w + caret, lines.y, caret, lines.h}, Role::text);
  if (typed) frame_.typing = Typing{f.id, f.text, f.most, afresh};
  Intent focus = Focus{f.id};
  press(
      {std::move(f.id), std::move(f.label), at, std::move(f.keys), std::move(focus), Kind::field});
}

}  // namespace squeezeout::look
