#include "client/board/lane_head.h"

#include <fmt/format.h>

#include <algorithm>

#include "client/panels/room.h"
#include "client/words/say.h"

namespace squeezeout::board {
namespace {

using look::Align;
using look::Canvas;
using look::Rect;
using look::Role;
using look::Type;

void alarm_tag(Canvas& canvas, Rect at, const std::vector<std::string>& forms) {
  const float icon = canvas.px(5), pad = canvas.px(1);
  const auto width = [&](const std::string& s) {
    return canvas.width(Type::small, s) + icon + 2 * pad;
  };
  const auto fits = std::find_if(forms.begin(), forms.end(),
                                 [&](const std::string& s) { return width(s) <= at.w; });
  const std::string& text = fits == forms.end() ? forms.back() : *fits;
  Rect tag{at.x, at.y, std::min(width(text), at.w), at.h};
  canvas.box(tag, Role::amber);
  canvas.edge(tag, Role::keyline, 0.3F);
  const float side = canvas.cap(Type::small);
  canvas.icon(look::Glyph::warn, tag.cut_left(icon).middle(side, side), Role::on_amber);
  canvas.words(tag, text, Type::small, {Role::on_amber, Role::amber});
}

}  // namespace

bool lane_head(Canvas& canvas, Rect at, const Lane& lane, int dropped, Role ground, int key) {
  Rect inside = at.inset(canvas.px(2), 0);
  bool used = false;
  if (dropped > 0) {
    const std::string more = fmt::format("+{}", dropped);
    Rect press = at.inset(canvas.gap() / 2, canvas.gap() / 2);
    const bool tall = press.h >= canvas.touch();
    look::Press p{"rows." + lane.id, words::say("{}: all rows", lane.name),      press, {},
                  OnlyLane{lane.id}, tall ? look::Kind::button : look::Kind::bar};
    if (key != 0) p.keys.push_back(key), used = true;
    canvas.press(std::move(p));
    if (tall) canvas.edge(press, Role::edge, 0.35F);
    Rect corner = inside.cut_right(canvas.width(Type::strong, more) + canvas.px(3));
    Rect figure = corner.middle(corner.w, canvas.line_px(Type::strong));
    canvas.words(figure, more, Type::strong, {Role::text, ground});
    if (used && tall)
      canvas.words({figure.x, figure.bottom(), figure.w, canvas.line_px(Type::small)},
                   std::string(1, static_cast<char>(key)), Type::small, {Role::muted, ground});
    if (tall) inside.cut_left(canvas.px(1.5F));
  }
  Rect text = inside.middle(inside.w, canvas.line_px(Type::strong) + canvas.line_px(Type::small));
  canvas.words(text.cut_top(canvas.line_px(Type::strong)), lane.name, Type::strong,
               {Role::text, ground});
  if (!lane.alarms.empty()) {
    alarm_tag(canvas, text, lane.alarms);
    return used;
  }
  canvas.words(text, panels::pieces_that_fit(canvas, Type::small, text.w, lane.facts), Type::small,
               {Role::muted, ground});
  return used;
}

}  // namespace squeezeout::board
