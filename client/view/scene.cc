#include "client/view/scene.h"

#include "client/words/say.h"

namespace squeezeout {

using look::Fill;
using look::Glyph;
using look::Role;

PhaseLook look_of(Phase phase) {
  switch (phase) {
    case Phase::open:
      return {Role::open,    Fill::none,  Role::hatch,
              Role::on_open, Glyph::drop, PhaseLook::Icon::yes};
    case Phase::clamped:
    case Phase::release:
      return {Role::clamped,    Fill::hatch,  Role::hatch,
              Role::on_clamped, Glyph::clamp, PhaseLook::Icon::yes};
    case Phase::waiting:
      return {Role::waiting,    Fill::dots,       Role::dots,
              Role::on_waiting, Glyph::hourglass, PhaseLook::Icon::yes};
    case Phase::ready:
    case Phase::done:
      return {Role::background, Fill::none,  Role::hatch,
              Role::text,       Glyph::tick, PhaseLook::Icon::yes};
    default:
      return {Role::background, Fill::none,  Role::hatch,
              Role::text,       Glyph::drop, PhaseLook::Icon::no};
  }
}

void swatch(look::Canvas& canvas, look::Rect at, Phase phase, const GlueUp& g, const Scene& scene) {
  const bool over = past_due(g, scene.now) && (!scene.stale() || own(scene, g));
  const PhaseLook look = look_of(phase);
  canvas.box(at, over ? Role::amber : look.ground);
  if (!over && look.pattern != Fill::none) canvas.box(at, look.pattern_ink, look.pattern);
  const look::Line line =
      phase == Phase::planned || phase == Phase::stage ? look::Line::dashed : look::Line::solid;
  canvas.edge(at,
              over                    ? Role::keyline
              : phase == Phase::ready ? Role::text
                                      : Role::edge,
              phase == Phase::ready ? 0.8F : 0.35F, line);
  if (look.icon == PhaseLook::Icon::no) return;
  const float side = std::min(at.w, at.h) * 0.56F;
  const look::Rect icon = at.middle(side, side);
  if (look.pattern != Fill::none && !over)
    canvas.box(icon.inset(-side * 0.14F), look.ground);  // a plate: icons do not stand on hatch
  canvas.icon(look.glyph, icon, over ? Role::on_amber : look.on);
}

bool own(const Scene& scene, const GlueUp& g) {
  return (scene.view.bench && g.bench == scene.view.bench) ||
         (scene.view.builder && g.builder == scene.view.builder);
}

Instant shown_time(const GlueUp& g, Instant now) {
  switch (phase_at(g, now)) {
    case Phase::planned:
    case Phase::stage:
      return g.times.stage_begin;
    case Phase::waiting:
    case Phase::ready:
      return g.times.ready_at;
    default:
      return g.times.release_begin;
  }
}

bool moved_by_weather(const GlueUp& g) {
  return g.progress == Progress::reserved && g.weather && g.weather->moved_from;
}

bool past_due(const GlueUp& g, Instant now) {
  if (g.progress != Progress::open) return over_time(g, now);
  const auto by = clamps_on_by(g);
  return by && now > *by;
}

Remaining remaining(const Scene& scene, const GlueUp& g) {
  using Tone = Remaining::Tone;
  const Phase phase = phase_at(g, scene.now);
  const Instant due = shown_time(g, scene.now);
  if (scene.stale() && !own(scene, g))
    return {
        due < scene.now && phase != Phase::ready ? words::tr("not known") : words::tr("planned"),
        Tone::quiet};
  if (past_due(g, scene.now)) {
    const Instant was = phase == Phase::open ? *clamps_on_by(g) : due;
    return {words::say("{} over", words::length(scene.now - was)), Tone::loud};
  }
  switch (phase) {
    case Phase::stage:
      return {words::tr("to start"), Tone::plain};
    case Phase::open:
      return {words::tr("glue wet"), Tone::plain};
    case Phase::release:
      return {words::tr("off now"), Tone::plain};
    case Phase::ready:
      return {words::tr("ready"), Tone::plain};
    default:
      return {words::countdown(due - scene.now), Tone::plain};
  }
}

}  // namespace squeezeout
