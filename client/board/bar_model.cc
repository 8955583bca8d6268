#include "client/board/bar_model.h"

#include <fmt/format.h>

namespace squeezeout::board {
namespace {

using look::Canvas;
using look::Fill;
using look::Line;
using look::Rect;
using look::Role;
using look::Type;

constexpr std::size_t kLeastLetters = 12;  // bytes of " · name…" that are worth showing
constexpr float kOpenNowMm = 7;            // a joint that is wet now is never thinner than this

// The wider side of the now line, kept clear of it.
Rect beside_now(Rect at, float now_x) {
  constexpr float clear = 5;
  if (now_x + clear <= at.x || now_x - clear >= at.right()) return at;
  const Rect left{at.x, at.y, now_x - clear - at.x, at.h};
  const Rect right{now_x + clear, at.y, at.right() - now_x - clear, at.h};
  return left.w > right.w ? left : right;
}

std::string name_of(const Scene& scene, const Lane& lane, const Bar& bar) {
  const words::Context c = scene.context();
  const GlueUp& g = *bar.glue_up;
  std::string out;
  if (lane.shows != Lane::Shows::all || scene.view.lanes == Lanes::bench)
    out = words::initials(c, g.builder) + " · ";
  out += words::recipe(c, g.recipe);
  if (bar.count > 1) out += fmt::format(" · {}", bar.count);
  return out;
}

void segment_fill(Canvas& canvas, Rect at, const Segment& s, Role ground) {
  if (s.state == Segment::State::planned) {
    canvas.edge(at, Role::edge, 0.35F, at.w >= kIconPx ? Line::dashed : Line::solid);
    return;
  }
  const PhaseLook look = look_of(s.phase);
  const bool framed = at.w >= kStripPx * 2;
  if (s.phase == Phase::stage) {
    if (framed) canvas.edge(at, Role::edge, 0.35F);
    return;
  }
  canvas.box(at, s.phase == Phase::ready ? ground : look.ground);
  if (look.pattern != Fill::none && at.w >= kIconPx) canvas.box(at, look.pattern_ink, look.pattern);
  if (s.state == Segment::State::over) {
    canvas.edge(at, Role::amber, 0.9F);
    return;
  }
  if (!framed) return;
  if (s.phase == Phase::ready)
    canvas.edge(at, Role::text, 0.7F);
  else if (s.phase == Phase::waiting)
    canvas.edge(at, Role::edge, 0.3F);
}

}  // namespace

Packed pack(const Lane& lane, const TimeAxis& axis, int most_rows) {
  Packed out;
  std::vector<float> row_end;
  for (const Bar& bar : lane.bars) {
    const float x0 = axis.x(bar.span.begin), x1 = axis.x(bar.span.end);
    if (x1 - x0 < kStripPx) {
      if (!out.strips.empty() && x0 <= out.strips.back().right() + 1)
        out.strips.back().w = std::max(out.strips.back().w, x1 - out.strips.back().x);
      else
        out.strips.push_back({x0, 0, std::max(1.0F, x1 - x0), 0});
      continue;
    }
    std::size_t row = 0;
    while (row < row_end.size() && row_end[row] > x0 + 0.5F) ++row;
    if (row == static_cast<std::size_t>(most_rows)) {
      ++out.dropped;
      continue;
    }
    if (row == row_end.size()) {
      row_end.push_back(0);
      out.rows.emplace_back();
    }
    row_end[row] = x1;
    out.rows[row].bars.push_back(bar);
  }
  return out;
}

void bar_fills(Canvas& canvas, const Scene& scene, const Lane& lane, const Bar& bar,
               const TimeAxis& axis, const RowPlace& place, std::vector<Label>& labels) {
  const auto rect = [&](Span s) {
    return Rect{axis.x(s.begin), place.at.y, axis.x(s.end) - axis.x(s.begin), place.at.h}.intersect(
        place.at);
  };
  const Rect whole = rect(bar.span);
  if (whole.w <= 0) return;
  if (bar.glue_up == nullptr) {
    canvas.edge(whole, Role::muted, 0.35F);
    if (whole.w >= kLabelPx)
      labels.push_back({.at = beside_now(whole, place.now_x),
                        .text = fmt::format("{} out of use", bar.count),
                        .ink = {Role::muted, place.ground}});
    return;
  }
  const GlueUp& g = *bar.glue_up;
  canvas.press({fmt::format("bar.{}.{}", lane.id, g.id.value),
                words::title(scene.context(), g),
                whole,
                {},
                scene.view.picked == g.id ? Intent{Go{Screen::card, g.id}} : Intent{PickBar{g.id}},
                look::Kind::bar});

  Label label;
  float widest = 0;
  bool has_now = false;
  Phase phase = Phase::planned;
  float from = whole.x;  // a widened wet block pushes what follows it
  for (const Segment& s : segments_of(g, scene.now, lane.shows)) {
    Rect at = rect(s.span);
    if (at.x < from) at.w -= from - at.x, at.x = from;
    const bool wet_now = s.phase == Phase::open && g.progress == Progress::open;
    if (wet_now) at.w = std::max(at.w, std::min(canvas.px(kOpenNowMm), place.at.right() - at.x));
    if (at.w <= 0) continue;
    from = at.right();
    segment_fill(canvas, at, s, place.ground);
    if (wet_now && at.w < kLabelPx * 2) {
      const float side = std::min(at.w, at.h) * 0.62F;
      canvas.icon(look::Glyph::drop, at.middle(side, side), Role::on_open);
      continue;
    }
    // The widest piece carries the label, but what happens now goes first where there is room.
    const Rect room = beside_now(at, place.now_x);
    const bool now_here = s.span.contains(scene.now) && room.w >= kLabelPx;
    if (room.w <= widest && !now_here) continue;
    if (has_now) continue;
    has_now = now_here;
    widest = room.w;
    phase = s.phase;
    const PhaseLook look = look_of(s.phase);
    const bool filled =
        s.state != Segment::State::planned && s.phase != Phase::stage && s.phase != Phase::ready;
    label.at = room;
    label.ink = filled ? look::Ink{look.on, look.ground} : look::Ink{Role::text, place.ground};
    label.glyph = look.glyph;
    const bool icon = s.state != Segment::State::planned && look.icon == PhaseLook::Icon::yes;
    label.icon = icon ? Label::Icon::yes : Label::Icon::no;
    label.ground =
        icon && s.state != Segment::State::over ? Label::Ground::fill : Label::Ground::outline;
  }
  if (widest < kIconPx) return;
  label.glue_up = &g;
  label.who = words::initials(scene.context(), g.builder);
  label.text = widest >= kLabelPx ? name_of(scene, lane, bar) : label.who;
  const bool held = phase == Phase::clamped || phase == Phase::planned;
  if (widest >= kOffPx && running(g) && held && !over_time(g, scene.now))
    label.off = "off " + words::clock(scene.context(), g.times.release_begin);
  labels.push_back(std::move(label));
}

void bar_label(Canvas& canvas, const Label& label) {
  Rect room = label.at.inset(canvas.px(1.2F), canvas.px(1.0F));
  const float side = std::min(room.h * 0.72F, canvas.px(4.4F));
  // A plate on a fill is as tall as the fill; on an outline it leaves the outline alone.
  const bool icon = label.icon == Label::Icon::yes;
  const auto plate = [&](Rect at) {
    const Rect tall =
        label.ground == Label::Ground::fill ? Rect{at.x, label.at.y, at.w, label.at.h} : at;
    canvas.box(tall.inset(-canvas.px(0.8F), 0), label.ink.on);
  };
  if (label.chained == Label::Chained::yes && room.w >= side) {
    const Rect link = room.cut_left(side);
    plate(link);
    canvas.icon(look::Glyph::link, link.middle(side, side), label.ink.ink);
    room.cut_left(canvas.px(1.5F));
  }
  if (!label.off.empty()) {
    const Rect off = room.cut_right(canvas.width(Type::strong, label.off));
    plate(off);
    canvas.words(off, label.off, Type::strong, label.ink);
    room.cut_right(canvas.px(3));
  }
  const float head = icon ? side + canvas.px(1.5F) : 0;
  // Cut to a stump, a name says less than who it is.
  std::string text = canvas.letters().fitted(Type::strong, label.text, room.w - head);
  if (text != label.text && text.size() < label.who.size() + kLeastLetters)
    text = canvas.letters().fitted(Type::strong, label.who, room.w - head);
  const float width = canvas.width(Type::strong, text);
  if (icon && room.w < side) return;
  if (!icon && text.empty()) return;
  plate({room.x, room.y, text.empty() ? side : head + width, room.h});
  if (icon) {
    canvas.icon(label.glyph, room.cut_left(side).middle(side, side), label.ink.ink);
    room.cut_left(canvas.px(1.5F));
  }
  canvas.words(room, text, Type::strong, label.ink);
}

}  // namespace squeezeout::board
