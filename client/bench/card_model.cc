#include "client/bench/card_model.h"

#include <fmt/format.h>

#include "client/bench/card_facts.h"
#include "client/bench/next_button.h"
#include "client/panels/chrome_model.h"

namespace squeezeout::bench {
namespace {

using look::Align;
using look::Canvas;
using look::Fill;
using look::Ink;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

// What the big panel says.
struct Dial {
  Role ground = Role::lane, ink = Role::text;
  Fill pattern = Fill::none;
  Role pattern_ink = Role::hatch;
  look::Glyph glyph = look::Glyph::drop;
  bool loud = false;      // amber frame: past its time
  std::string huge;       // "15:40", or "1 m 47 s" while wet
  std::string small;      // "off", "open time left"
  std::string side_head;  // the second column
  std::string side;
  double done = -1;  // 0..1 of the phase; below 0: no bar
};

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
    d.small = "clamps on about";
    d.side_head = "under way";
    d.side = words::countdown(scene.now - g.times.open_begin);
    return d;
  }
  const bool over = scene.now > *by;
  d.loud = over;
  d.huge = words::countdown(over ? scene.now - *by : *by - scene.now);
  d.small = over ? "past the open time" : "open time left";
  d.side_head = over ? "clamps were due on by" : "clamps on by";
  d.side = words::clock(c, *by);
  d.done = part(g.times.open_begin, *by, scene.now);
  return d;
}

Dial dial(const Scene& scene, const GlueUp& g) {
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
      d.huge = words::clock(c, g.times.release_begin);
      d.small = "clamps off";
      if (over_time(g, scene.now)) {
        d.loud = true;
        d.side_head = "over by";
        d.side = words::countdown(scene.now - g.times.release_begin);
      } else if (phase == Phase::release) {
        d.side_head = "clamps";
        d.side = "can come off";
      } else {
        d.side_head = "in";
        d.side = words::countdown(g.times.release_begin - scene.now);
      }
      d.done = part(g.times.clamped_begin, g.times.release_begin, scene.now);
      return d;
    case Phase::waiting:
      d.huge = words::clock(c, g.times.ready_at);
      d.small = "wait till";
      d.side_head = "in";
      d.side = words::countdown(g.times.ready_at - scene.now);
      d.done = part(g.times.release_end, g.times.ready_at, scene.now);
      return d;
    case Phase::ready:
      d.huge = words::clock(c, g.times.ready_at);
      d.small = "ready since";
      d.side_head = "now";
      d.side = words::phase(c, g);
      return d;
    case Phase::planned:
    case Phase::stage:
      d.huge = words::clock(c, phase == Phase::planned ? g.times.stage_begin : g.times.open_begin);
      d.small = phase == Phase::planned ? "lay out the gear" : "gear out, start by";
      d.side_head = phase == Phase::planned ? "in" : "then off about";
      d.side = phase == Phase::planned ? words::countdown(g.times.stage_begin - scene.now)
                                       : words::clock(c, g.times.release_begin);
      return d;
    case Phase::displaced:
      d.huge = "NO TIME";
      d.small = words::snag(c, g);
      d.side_head = "next";
      d.side = "see Snags";
      return d;
    default:
      d.huge = std::string(to_string(phase));
      d.small = words::phase(c, g);
      return d;
  }
}

void big_panel(Canvas& canvas, Rect at, const Scene& scene, const GlueUp& g) {
  const Dial d = dial(scene, g);
  canvas.box(at, d.ground);
  if (d.pattern != Fill::none) canvas.box(at, d.pattern_ink, d.pattern);
  canvas.edge(at, d.loud ? Role::amber : Role::edge, d.loud ? 2.2F : 0.5F);
  Rect inside = at.inset(canvas.px(6), canvas.px(5));
  if (d.done >= 0) {
    const Rect bar = inside.cut_bottom(canvas.px(6));
    canvas.box(bar, d.ground);
    canvas.edge(bar, d.ink, 0.5F);
    canvas.box({bar.x, bar.y, bar.w * static_cast<float>(d.done), bar.h}, d.ink);
    inside.cut_bottom(canvas.px(3));
  }
  if (d.pattern != Fill::none) canvas.box(inside, d.ground);  // letters stand on a plate
  inside = inside.inset(canvas.px(4), 0);
  const float icon = std::min(inside.h * 0.5F, canvas.px(30));
  canvas.icon(d.glyph, inside.cut_left(icon).middle(icon, icon), d.ink);
  inside.cut_left(canvas.px(10));

  // The second column stands still while the figures of the first change.
  const Ink ink{d.ink, d.ground};
  Rect side = inside.cut_right(inside.w * 0.34F);
  inside.cut_right(canvas.px(5));
  const float head = canvas.line_px(Type::title) * 1.3F;
  const bool roomy = inside.h > head + canvas.cap(Type::colossal) * 1.2F &&
                     canvas.figures_width(d.huge, Type::colossal) <= inside.w;
  const Type size = roomy ? Type::colossal : Type::huge;
  Rect main = inside.middle(inside.w, head + canvas.cap(size));
  canvas.words(main.cut_top(canvas.cap(Type::title)), d.small, Type::title, ink);
  main.cut_top(head - canvas.cap(Type::title));
  if (canvas.figures_width(d.huge, size) <= inside.w)
    canvas.figures(main, d.huge, size, ink);
  else
    canvas.words(main, d.huge, Type::giant, ink);
  // Both columns stand on one line.
  Rect column{side.x, main.bottom() - canvas.cap(Type::giant) - head, side.w,
              head + canvas.cap(Type::giant)};
  canvas.words(column.cut_top(canvas.cap(Type::title)), d.side_head, Type::title, ink);
  column.cut_top(head - canvas.cap(Type::title));
  const bool fits = canvas.width(Type::giant, d.side) <= column.w;
  canvas.words(column, d.side, fits ? Type::giant : Type::head, ink);
}

struct SideKey {
  std::string id, label, sub, key_name;
  int key;
  Intent intent;
};

// The other things that can happen to it now.
std::vector<SideKey> side_keys(const Scene& scene, const GlueUp& g) {
  std::vector<SideKey> out;
  const auto next = next_key(scene.floor, g);
  if (next && next->from > scene.now && !next->early_word.empty())
    out.push_back({"anyway", next->early_word, "before its time", "A", 'A', Ask{next->anyway}});
  const bool can_off = g.progress == Progress::clamped && off_from(g) <= scene.now;
  if (can_off)
    for (const int minutes : {5, 15}) {
      const Instant at = scene.now - Minutes{minutes};
      if (g.clamped_at && at < *g.clamped_at) continue;
      if (at < off_from(g)) continue;
      out.push_back({fmt::format("off.{}", minutes), "Really off at",
                     fmt::format("{} · {} min ago", words::clock(scene.context(), at), minutes),
                     minutes == 5 ? "J" : "K", minutes == 5 ? 'J' : 'K', Ask{ClampsOff{g.id, at}}});
    }
  if (g.progress == Progress::reserved || running(g))
    out.push_back({"late", "Running late", "+10 min", "L", 'L', Ask{Late{g.id, Minutes{10}}}});
  if (running(g) || g.progress == Progress::waiting)
    out.push_back(
        {"spoiled", "Spoiled", "start over", "S", 'S', Ask{Spoiled{g.id, scene.now, ""}}});
  if (g.progress == Progress::reserved)
    out.push_back({"cancel", "Cancel it", "gear is freed", "X", 'X', Ask{Cancel{g.id}}});
  if (auto pot = pot_key(scene, g))
    out.push_back({pot->id, pot->label, pot->sub, "P", 'P', Ask{pot->body}});
  if (live(g)) out.push_back({"why", "Why these figures", "", "W", 'W', ShowFigures{g.id}});
  return out;
}

// The first in the size of a title, what follows as a sentence; what does not fit is left out, last first.
void facts_lines(Canvas& canvas, Rect& body, const std::vector<std::string>& lines) {
  const float first = canvas.px(12), more = canvas.line_px(Type::strong) * 1.15F;
  const float room = body.h - canvas.px(60) - first;
  const int fitting =
      std::clamp(static_cast<int>(room / more), 0, static_cast<int>(lines.size()) - 1);
  Rect strip = body.cut_bottom(first + more * static_cast<float>(fitting) + canvas.px(2));
  canvas.words(strip.cut_top(first), lines.front(), Type::title, {});
  for (int i = 1; i <= fitting; ++i)
    canvas.words(strip.cut_top(more), lines[static_cast<std::size_t>(i)], Type::strong, {});
}

}  // namespace

look::Frame lay_out_card(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = panels::chrome_with_hint(canvas, scene);
  const GlueUp* g = scene.floor.glue_up(scene.view.glue_up);
  if (g == nullptr) {
    canvas.words(body, "This glue-up is gone. Esc goes back.", Type::head,
                 {Role::muted, Role::background}, Align::centre);
    return canvas.take();
  }
  const words::Context c = scene.context();
  Rect head = body.cut_top(canvas.px(13));
  const std::string who = words::builder(c, g->builder) + " · " + words::bench(c, g->bench);
  canvas.words(head.cut_right(canvas.width(Type::title, who) + 1), who, Type::title,
               {Role::muted, Role::background}, Align::right);
  head.cut_right(canvas.px(5));
  canvas.words(head, words::title(c, *g) + " · " + words::glue(c, *g), Type::head, {});

  Rect keys = body.cut_bottom(canvas.px(46));
  body.cut_bottom(canvas.px(3));
  facts_lines(canvas, body, card_facts(scene, *g));
  big_panel(canvas, body, scene, *g);

  const auto side = side_keys(scene, *g);
  const float gap = canvas.gap();
  const float width = canvas.px(body.w > canvas.px(440) ? 50.0F : 40.0F);
  for (auto it = side.rbegin(); it != side.rend(); ++it) {
    const Rect at = keys.cut_right(width);
    keys.cut_right(gap);
    canvas.button(at, {.id = it->id,
                       .label = it->label,
                       .sub = it->sub,
                       .key_name = it->key_name,
                       .keys = {it->key},
                       .intent = it->intent});
  }
  next_button(canvas, keys, scene, *g);
  return canvas.take();
}

}  // namespace squeezeout::bench
