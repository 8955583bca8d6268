#include "client/bench/dial.h"

#include <algorithm>

#include "client/panels/room.h"
#include "client/words/say.h"

namespace squeezeout::bench {
namespace {

using look::Canvas;
using look::Fill;
using look::Ink;
using look::Rect;
using look::Role;
using look::Type;

double part(Instant begin, Instant end, Instant now) {
  if (end <= begin) return 1;
  return std::clamp(
      static_cast<double>((now - begin).count()) / static_cast<double>((end - begin).count()), 0.0,
      1.0);
}

Dial wet(const Scene& scene, const GlueUp& g, const words::Context& c) {
  Dial d{.ground = Role::open, .ink = Role::on_open, .glyph = look::Glyph::drop};
  const auto by = clamps_on_by(g);
  if (!by) {  // a recipe without glue has no open time
    d.huge = words::clock(c, g.times.clamped_begin);
    d.small = words::tr("clamps on about");
    d.side_head = words::tr("under way");
    d.side = words::countdown(scene.now - g.times.open_begin);
    return d;
  }
  const bool over = scene.now > *by;
  if (over) d.frame = Dial::Frame::amber;
  d.huge = words::countdown(over ? scene.now - *by : *by - scene.now);
  d.small = over ? words::tr("past the open time") : words::tr("open time left");
  d.side_head = over ? words::tr("clamps were due on by") : words::tr("clamps on by");
  d.side = words::clock(c, *by);
  d.done = part(g.times.open_begin, *by, scene.now);
  return d;
}

void clamped(Dial& d, const Scene& scene, const GlueUp& g, const words::Context& c) {
  d.huge = words::clock(c, g.times.release_begin);
  d.small = words::tr("clamps off");
  d.done = part(g.times.clamped_begin, g.times.release_begin, scene.now);
  if (over_time(g, scene.now)) {
    d.frame = Dial::Frame::amber;
    d.side_head = words::tr("over by");
    d.side = words::countdown(scene.now - g.times.release_begin);
  } else if (phase_at(g, scene.now) == Phase::release) {
    d.side_head = words::tr("clamps");
    d.side = words::tr("can come off");
  } else {
    d.side_head = words::tr("in");
    d.side = words::countdown(g.times.release_begin - scene.now);
  }
}

Dial living(const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  const Phase phase = phase_at(g, scene.now);
  const PhaseLook look = look_of(phase);
  Dial d{.ground = look.ground,
         .ink = look.on,
         .pattern = look.pattern,
         .pattern_ink = look.pattern_ink,
         .glyph = look.glyph};
  switch (phase) {
    case Phase::open:
      return wet(scene, g, c);
    case Phase::clamped:
    case Phase::release:
      clamped(d, scene, g, c);
      return d;
    case Phase::waiting:
      d.huge = words::clock(c, g.times.ready_at);
      d.small = words::tr("wait till");
      d.side_head = words::tr("in");
      d.side = words::countdown(g.times.ready_at - scene.now);
      d.done = part(g.times.release_end, g.times.ready_at, scene.now);
      return d;
    case Phase::ready:
      d.huge = words::clock(c, g.times.ready_at);
      d.small = words::tr("ready since");
      d.side_head = words::tr("now");
      d.side = words::phase(c, g);
      return d;
    case Phase::planned:
      d.huge = words::clock(c, g.times.stage_begin);
      d.small = words::tr("lay out the gear");
      d.side_head = words::tr("in");
      d.side = words::countdown(g.times.stage_begin - scene.now);
      return d;
    case Phase::stage:
      d.huge = words::clock(c, g.times.open_begin);
      d.small = words::tr("gear out, start by");
      d.side_head = words::tr("then off about");
      d.side = words::clock(c, g.times.release_begin);
      return d;
    case Phase::displaced:
      d.huge = words::tr("NO TIME");
      d.small = words::snag(c, g);
      d.side_head = words::tr("next");
      d.side = words::tr("see Snags");
      return d;
    case Phase::done:
      d.huge = words::tr("DONE");
      break;
    case Phase::spoiled:
      d.huge = words::tr("SPOILED");
      break;
    case Phase::cancelled:
      d.huge = words::tr("CANCELLED");
      break;
  }
  d.small = words::phase(c, g);
  return d;
}

}  // namespace

Dial dial(const Scene& scene, const GlueUp& g) {
  Dial d = living(scene, g);
  if (!scene.stale() || own(scene, g) || !live(g)) return d;
  const Phase phase = phase_at(g, scene.now);
  if (const auto by = clamps_on_by(g); phase == Phase::open && by) {
    d.huge = words::clock(scene.context(), *by);
    d.small = words::tr("clamps on by");
  }
  d.frame = Dial::Frame::plain;
  d.done = -1;
  d.side_head = words::tr("not live");
  d.side = remaining(scene, g).words;
  return d;
}

void big_panel(Canvas& canvas, Rect at, const Dial& d) {
  canvas.box(at, d.ground);
  if (d.pattern != Fill::none) canvas.box(at, d.pattern_ink, d.pattern);
  const bool amber = d.frame == Dial::Frame::amber;
  canvas.edge(at, amber ? Role::amber : Role::edge, amber ? 2.2F : 0.5F);
  Rect inside = at.inset(canvas.px(6), canvas.px(at.h > canvas.px(70) ? 5 : 3));
  if (d.done >= 0) {
    const Rect bar = inside.cut_bottom(canvas.px(6));
    canvas.box(bar, d.ground);
    canvas.edge(bar, d.ink, 0.5F);
    canvas.box({bar.x, bar.y, bar.w * static_cast<float>(d.done), bar.h}, d.ink);
    inside.cut_bottom(canvas.px(3));
  }
  if (d.pattern != Fill::none) canvas.box(inside, d.ground);  // letters stand on a plate
  inside = inside.inset(canvas.px(4), 0);
  const float icon = std::min({inside.h * 0.5F, inside.w * 0.08F, canvas.px(30)});
  canvas.icon(d.glyph, inside.cut_left(icon).middle(icon, icon), d.ink);
  inside.cut_left(icon * 0.33F);

  // The second column stands still while the figures of the first change.
  const Ink ink{d.ink, d.ground};
  const float side_part = panels::narrow(canvas) ? 0.38F : 0.34F;
  Rect side = inside.cut_right(inside.w * side_part);
  inside.cut_right(canvas.px(5));
  const float head = canvas.line_px(Type::title) * 1.3F;
  Type size = Type::giant;
  for (const Type larger : {Type::huge, Type::colossal})
    if (inside.h > head + canvas.cap(larger) * 1.2F &&
        canvas.figures_width(d.huge, larger) <= inside.w)
      size = larger;
  const bool figures = canvas.figures_width(d.huge, size) <= inside.w;
  Rect main = inside.middle(inside.w, std::min(inside.h, head + canvas.cap(size)));
  const Rect bottom = main.cut_bottom(canvas.cap(size));
  const float top = canvas.cap(Type::title);
  Rect heading{main.x, main.y, main.w, top};
  if (canvas.width(Type::small, d.small) >
      heading.w)  // said at length, it takes all there is above
    heading = {inside.x, inside.y, inside.w, bottom.y - inside.y - canvas.px(1)};
  canvas.words(heading, d.small, Type::title, ink);
  if (figures)
    canvas.figures(bottom, d.huge, size, ink);
  else
    canvas.words(bottom, d.huge, Type::giant, ink);
  // Both columns stand on one line.
  const float giant = canvas.cap(Type::giant);
  Rect column{side.x, bottom.bottom() - giant - head, side.w, head + giant};
  column.y = std::max(column.y, inside.y), column.h = bottom.bottom() - column.y;
  canvas.words(column.cut_top(top), d.side_head, Type::title, ink);
  column.cut_top(canvas.px(1));
  const bool fits = canvas.width(Type::giant, d.side) <= column.w;
  Rect foot = column.cut_bottom(fits ? giant : std::max(giant, column.h));
  canvas.words(foot, d.side, fits ? Type::giant : Type::head, ink);
}

}  // namespace squeezeout::bench
