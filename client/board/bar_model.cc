#include "client/board/bar_model.h"

#include <fmt/format.h>

#include "client/words/say.h"

namespace squeezeout::board {
namespace {

using look::Canvas;
using look::Fill;
using look::Line;
using look::Rect;
using look::Role;

constexpr float kOpenNowMm = 7;  // a joint that is wet now is never thinner than this
constexpr float kFramedPx = 6;   // narrower, an edge would be all there is

// The wider side of the now line, kept clear of it.
Rect beside_now(Rect at, float now_x) {
  constexpr float clear = 5;
  if (now_x + clear <= at.x || now_x - clear >= at.right()) return at;
  const Rect left{at.x, at.y, now_x - clear - at.x, at.h};
  const Rect right{now_x + clear, at.y, at.right() - now_x - clear, at.h};
  return left.w > right.w ? left : right;
}

void segment_fill(Canvas& canvas, Rect at, const Segment& s, Role ground) {
  if (s.phase == Phase::displaced) {
    canvas.edge(at, Role::amber, 0.6F, at.w >= kIconPx ? Line::dashed : Line::solid);
    return;
  }
  if (s.state == Segment::State::planned) {
    canvas.edge(at, Role::edge, 0.35F, at.w >= kIconPx ? Line::dashed : Line::solid);
    return;
  }
  const PhaseLook look = look_of(s.phase);
  const bool framed = at.w >= kFramedPx;
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

// To the right of a wide one: when its clamps come off, or when it can be worked.
std::string off_of(const Scene& scene, const GlueUp& g, Phase phase) {
  const words::Context c = scene.context();
  const bool known = scene.now < shown_time(g, scene.now);
  if (running(g) && (phase == Phase::clamped || phase == Phase::planned) && known)
    return words::say("off {}", words::clock(c, g.times.release_begin));
  if (g.progress == Progress::waiting && phase == Phase::waiting && known)
    return words::say("wait till {}", words::clock(c, g.times.ready_at));
  return {};
}

void outage(Canvas& canvas, const Bar& bar, Rect whole, const RowPlace& place,
            std::vector<Label>& labels) {
  canvas.edge(whole, Role::muted, 0.35F);
  if (whole.w < kLabelPx) return;
  labels.push_back({.at = beside_now(whole, place.now_x),
                    .names = {words::say("{} out of use", bar.count), std::to_string(bar.count)},
                    .ink = {Role::muted, place.ground}});
}

}  // namespace

void bar_fills(Canvas& canvas, const BarMaker& maker, const Lane& lane, const Bar& bar,
               const RowPlace& place, std::vector<Label>& labels) {
  const Scene& scene = maker.scene;
  const TimeAxis& axis = maker.axis;
  const auto rect = [&](Span s) {
    const float x0 = axis.x(s.begin);
    return Rect{x0, place.at.y, axis.x(s.end) - x0, place.at.h}.intersect(place.at);
  };
  const Rect whole = rect(bar.span);
  if (whole.w <= 0) return;
  if (bar.glue_up == nullptr) {
    outage(canvas, bar, whole, place, labels);
    return;
  }
  const GlueUp& g = *bar.glue_up;
  if (maker.presses == BarMaker::Presses::yes)
    canvas.press({fmt::format("bar.{}.{}", lane.id, g.id.value),
                  words::title(scene.context(), g),
                  whole,
                  {},
                  scene.view.picked == g.id ? Intent{Go{Screen::card, g.id}}
                                            : Intent{PickBar{g.id, maker.here}},
                  look::Kind::bar});

  Label label;
  float widest = 0;
  bool has_now = false;
  Phase phase = Phase::planned;
  float from = whole.x;  // a widened wet block pushes what follows it
  const Instant now = known_until(scene, g);
  const bool unheard = scene.stale() && !own(scene, g);
  for (Segment s : segments_of(g, now, lane.shows)) {
    // Not heard of, past its time: whether the clamps are still on is not known, and nothing is loud.
    if (unheard && s.state == Segment::State::over) s.state = Segment::State::planned;
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
    label.ground = icon && filled && s.state != Segment::State::over ? Label::Ground::fill
                                                                     : Label::Ground::outline;
  }
  if (widest < kIconPx) return;
  label.glue_up = &g;
  label.names = widest >= kLabelPx
                    ? names_of(scene, lane, bar)
                    : std::vector<std::string>{words::initials(scene.context(), g.builder)};
  if (const auto tag = maker.tags.find(g.id);
      tag != maker.tags.end() && lane.shows != Lane::Shows::waiting)
    label.tag = tag->second;
  if (widest >= kOffPx && lane.shows != Lane::Shows::lost) label.off = off_of(scene, g, phase);
  labels.push_back(std::move(label));
}

}  // namespace squeezeout::board
