#include "client/board/label_model.h"

#include <fmt/format.h>

#include <algorithm>

namespace squeezeout::board {
namespace {

using look::Canvas;
using look::Rect;
using look::Role;
using look::Type;

const std::string* widest_in(const Canvas& canvas, Type type, float room,
                             const std::vector<std::string>& forms) {
  const auto it = std::find_if(forms.begin(), forms.end(), [&](const std::string& form) {
    return canvas.width(type, form) <= room;
  });
  return it == forms.end() ? nullptr : &*it;
}

// "!" and words on amber: the longest that leaves room for the rest, or else the longest that has room at all.
void tag_plate(Canvas& canvas, Rect& room, const std::vector<std::string>& forms, float rest) {
  const float side = std::min(room.h, canvas.cap(Type::small) * 1.9F), gap = canvas.px(1);
  if (room.w < side) return;
  const float words_room = room.w - side - 2 * gap;
  const std::string* words =
      widest_in(canvas, Type::small, words_room - canvas.px(1.5F) - rest, forms);
  if (words == nullptr) words = widest_in(canvas, Type::small, words_room, forms);
  const bool worded = words != nullptr && !words->empty();
  const float width = worded ? side + canvas.width(Type::small, *words) + 2 * gap : side;
  Rect plate = room.cut_left(width).middle(width, side);
  room.cut_left(canvas.px(1.5F));
  canvas.box(plate, Role::amber);
  canvas.edge(plate, Role::keyline, 0.3F);
  canvas.icon(look::Glyph::warn, plate.cut_left(side).inset(side * 0.2F), Role::on_amber);
  if (worded) canvas.words(plate, *words, Type::small, {Role::on_amber, Role::amber});
}

}  // namespace

std::vector<std::string> names_of(const Scene& scene, const Lane& lane, const Bar& bar) {
  const words::Context c = scene.context();
  const GlueUp& g = *bar.glue_up;
  const std::string who = words::initials(c, g.builder), what = words::recipe(c, g.recipe);
  const std::string whole = g.build ? words::title(c, g) : what;
  // In a builder's lane all is his.
  const bool his = lane.shows == Lane::Shows::all && scene.view.lanes == Lanes::builder;
  const std::string head = his ? "" : who + " · ";
  std::vector<std::string> out;
  if (bar.count > 1) out.push_back(fmt::format("{}{} · {}", head, whole, bar.count));
  out.push_back(head + whole);
  if (bar.count > 1) out.push_back(fmt::format("{}{} · {}", head, what, bar.count));
  out.push_back(head + what);
  out.push_back(what);
  out.push_back(who);
  return out;
}

void bar_label(Canvas& canvas, const Label& label) {
  Rect room = label.at.inset(canvas.px(1.2F), canvas.px(1.0F));
  const float side = std::min(room.h * 0.72F, canvas.px(4.4F)), gap = canvas.px(1.5F);
  // A plate on a fill is as tall as the fill; on an outline it leaves the outline alone.
  const auto plate = [&](Rect at) {
    const Rect tall =
        label.ground == Label::Ground::fill ? Rect{at.x, label.at.y, at.w, label.at.h} : at;
    canvas.box(tall.inset(-canvas.px(0.8F), 0), label.ink.on);
  };
  if (label.chained == Label::Chained::yes && room.w >= side) {
    const Rect link = room.cut_left(side);
    plate(link);
    canvas.icon(look::Glyph::link, link.middle(side, side), label.ink.ink);
    room.cut_left(gap);
  }
  const float head = label.icon == Label::Icon::yes ? side : 0;
  const float least =
      head + (label.names.empty() ? 0 : gap + canvas.width(Type::strong, label.names.back()));
  if (!label.tag.empty()) tag_plate(canvas, room, label.tag, least);
  const float off_width = label.off.empty() ? 0 : canvas.width(Type::strong, label.off);
  if (off_width > 0 && room.w >= least + off_width + canvas.px(3)) {
    const Rect off = room.cut_right(off_width);
    plate(off);
    canvas.words(off, label.off, Type::strong, label.ink);
    room.cut_right(canvas.px(3));
  }
  if (room.w < head) return;
  const float beside = head > 0 ? head + gap : 0;
  const std::string* name = widest_in(canvas, Type::strong, room.w - beside, label.names);
  if (head == 0 && name == nullptr) return;
  plate({room.x, room.y, name == nullptr ? head : beside + canvas.width(Type::strong, *name),
         room.h});
  if (head > 0) {
    canvas.icon(label.glyph, room.cut_left(side).middle(side, side), label.ink.ink);
    room.cut_left(gap);
  }
  if (name != nullptr) canvas.words(room, *name, Type::strong, label.ink);
}

}  // namespace squeezeout::board
