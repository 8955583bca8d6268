#include "client/bench/reserve_model.h"

#include <fmt/format.h>

#include <array>

#include "client/bench/joint_column.h"
#include "client/bench/others_row.h"
#include "client/bench/reserve_keys.h"
#include "client/panels/chrome_model.h"
#include "client/panels/room.h"
#include "client/words/say.h"
#include "client/words/why.h"

namespace squeezeout::bench {
namespace {

using look::Align;
using look::Canvas;
using look::Ink;
using look::Rect;
using look::Role;
using look::Type;

constexpr Ink kQuiet{Role::muted, Role::background};
constexpr float kStepsMm = 22;

// The chain as it would run: what happens when.
void steps(Canvas& canvas, Rect at, const Scene& scene, const PhaseTimes& t, const Recipe& recipe) {
  const words::Context c = scene.context();
  struct Moment {
    std::string word;
    Instant at;
    Phase phase;
  };
  const bool glue = !recipe.glues.empty();
  const std::array<Moment, 5> moments{{{words::tr("gear out"), t.stage_begin, Phase::stage},
                                       {glue ? words::tr("glue") : words::tr("begin"), t.open_begin,
                                        glue ? Phase::open : Phase::stage},
                                       {words::tr("clamps on"), t.clamped_begin, Phase::clamped},
                                       {words::tr("off about"), t.release_begin, Phase::waiting},
                                       {words::tr("ready"), t.ready_at, Phase::ready}}};
  const float width = at.w / static_cast<float>(moments.size());
  Rect strip = at.cut_top(canvas.px(8));
  for (const Moment& m : moments) {
    const Rect piece = strip.cut_left(width);
    const PhaseLook look = look_of(m.phase);
    canvas.box(piece, look.ground);
    if (look.pattern != look::Fill::none) canvas.box(piece, look.pattern_ink, look.pattern);
    canvas.edge(piece, Role::edge, 0.35F);
    if (look.icon == PhaseLook::Icon::yes) {
      const float side = canvas.px(4.6F);
      const Rect icon = piece.middle(side, side);
      if (look.pattern != look::Fill::none) canvas.box(icon.inset(-canvas.px(1)), look.ground);
      canvas.icon(look.glyph, icon, look.on);
    }
    Rect text{piece.x, at.y, width - canvas.px(2), at.h};
    text.cut_top(canvas.px(1.5F));
    canvas.words(text.cut_top(canvas.line_px(Type::strong)), words::clock(c, m.at), Type::strong,
                 {});
    canvas.words(text.cut_top(canvas.line_px(Type::small)), m.word, Type::small, kQuiet);
  }
}

void not_possible(Canvas& canvas, Rect area, const Scene& scene, const Refusal& why) {
  const words::Told told = words::refusal(scene.context(), scene.view.wanted, why);
  const Type type = panels::narrow(canvas) ? Type::body : Type::title;
  canvas.words(area.cut_top(canvas.line_px(Type::head)), words::tr("Not possible now"), Type::head,
               {});
  const bool next = !told.next.empty();
  Rect foot = next ? area.cut_bottom(area.h * 0.4F) : Rect{};
  const float used = canvas.paragraph(area, told.why, type, {}, 6);
  if (next) canvas.paragraph({foot.x, area.y + used, foot.w, foot.h}, told.next, type, kQuiet, 4);
}

// What holds an earlier start back, in the fewest facts.
std::string why_not_now(const Scene& scene, std::size_t most = words::kBlockersTold) {
  const auto& why = scene.quotes.why(scene.floor, scene.view.wanted, scene.now);
  return !why || why->blockers.empty() ? "" : words::not_before(scene.context(), *why, most);
}

// How tall a sentence is in that width; it may be set smaller where that saves a line.
float sentence_px(const Canvas& canvas, const std::string& text, float width) {
  if (text.empty()) return 0;
  const auto lines = canvas.letters().wrapped(Type::body, text, width, 6);
  return canvas.line_px(Type::body) * static_cast<float>(lines.size());
}

// EARLIEST hh:mm, off about hh:mm: below each other, or side by side where the way to it needs the room.
void earliest_at(Canvas& canvas, Rect& area, const Scene& scene, const PhaseTimes& t, float below) {
  const words::Context c = scene.context();
  const bool later = scene.view.wanted.after > scene.now;
  const bool now = t.stage_begin <= scene.now + Minutes{1};
  canvas.words(area.cut_top(canvas.line_px(Type::title)),
               later ? words::say("EARLIEST after {}", words::clock(c, scene.view.wanted.after))
               : now ? words::tr("EARLIEST · now")
                     : words::tr("EARLIEST"),
               Type::title, kQuiet);
  area.cut_top(canvas.px(panels::narrow(canvas) ? 1 : 4));
  const std::string clock = words::clock(c, t.stage_begin);
  const std::string off = words::say("off about {}", words::clock(c, t.release_begin));
  const auto fits = [&](Type type) {
    return canvas.figures_width(clock, type) <= area.w &&
           area.h - below >= canvas.cap(type) + canvas.px(8) + canvas.line_px(Type::head);
  };
  if (fits(Type::huge)) {
    const Type size = fits(Type::colossal) ? Type::colossal : Type::huge;
    canvas.figures(area.cut_top(canvas.cap(size)), clock, size, {});
    area.cut_top(canvas.px(5));
    canvas.words(area.cut_top(canvas.line_px(Type::head)), off, Type::head, {});
    area.cut_top(canvas.px(3));
    return;
  }
  if (area.h < canvas.cap(Type::giant)) {
    canvas.words(area.cut_top(canvas.line_px(Type::title)), words::say("{} · {}", clock, off),
                 Type::title, {});
    return;
  }
  Rect line = area.cut_top(canvas.cap(Type::giant));
  const float wide = canvas.figures_width(clock, Type::giant);
  if (wide + canvas.px(6) + canvas.width(Type::small, off) <= line.w) {
    canvas.figures(line.cut_left(wide), clock, Type::giant, {});
    line.cut_left(canvas.px(6));
    canvas.words(line.cut_bottom(canvas.cap(Type::title)), off, Type::title, {});
  } else {
    canvas.words(line, clock, Type::giant, {});
    canvas.words(area.cut_top(canvas.line_px(Type::title)), off, Type::title, {});
  }
  area.cut_top(canvas.px(3));
}

void when(Canvas& canvas, Rect area, const Scene& scene, const Recipe& recipe, const Offer& offer) {
  const bool narrow = panels::narrow(canvas);
  const Rect keys = cut_keys(canvas, area, scene, offer);
  if (scene.stale()) {
    canvas.words(area.cut_top(canvas.px(12)), words::tr("NOT LIVE"), Type::title, {});
    canvas.paragraph(area, words::tr("Nothing can be reserved until the server answers again."),
                     Type::title, kQuiet, 3);
    return no_reserve(canvas, keys);
  }
  if (!offer.quote) {
    not_possible(canvas, area, scene, offer.quote.error());
    return no_reserve(canvas, keys);
  }
  const PhaseTimes& t = offer.quote->slot.times;
  const bool reason = offer.wants == Offer::Wants::reason;
  const bool waits = t.stage_begin > scene.now + Minutes{1};
  const std::string why = waits ? why_not_now(scene) : "";
  const float why_px = sentence_px(canvas, why, area.w);
  // The other ways come after the time and what holds it back.
  const float others_px =
      std::max(canvas.px(narrow ? kNarrowOtherMm : kOtherMm), canvas.touch()) + canvas.gap() / 2;
  const float time_px =
      canvas.line_px(Type::title) * 2 + canvas.cap(Type::giant) + canvas.px(5) + why_px;
  const bool room = area.h - others_px >= time_px;
  if (waits && room && !others_of(scene).empty() && !(narrow && reason)) {
    others_row(canvas, area.cut_bottom(others_px - canvas.gap() / 2), scene);
    area.cut_bottom(canvas.gap() / 2);
  }
  earliest_at(canvas, area, scene, t, (narrow ? 0 : canvas.px(kStepsMm)) + why_px);
  if (area.h >= why_px + canvas.px(kStepsMm + 2)) {
    steps(canvas, area.cut_top(canvas.px(kStepsMm)), scene, t, recipe);
    area.cut_top(canvas.px(2));
  }
  std::string told = why;  // fewer where there is no room for all; how many more, it says
  for (std::size_t most = words::kBlockersTold;
       most > 1 && sentence_px(canvas, told, area.w) > area.h;)
    told = why_not_now(scene, --most);
  if (!told.empty()) canvas.paragraph(area, told, Type::body, {}, 6);
  if (reason) return reason_keys(canvas, keys, scene);
  reserve_key(canvas, keys, scene);
}

// What is glued, on which build, for whom.
void heading(Canvas& canvas, Rect at, const Scene& scene, const Recipe& recipe) {
  const words::Context c = scene.context();
  const Reserve& wanted = scene.view.wanted;
  const std::string who = words::say("for {}", words::builder(c, wanted.builder));
  const Build* build = scene.floor.build(wanted.build);
  const std::array pieces{who, wanted.bench ? words::bench(c, wanted.bench) : std::string(),
                          build == nullptr ? std::string() : build->name};
  if (at.h >= panels::heading_px(canvas)) {
    canvas.words(at.cut_top(canvas.line_px(Type::head)), recipe.name, Type::head, {});
    canvas.words(at.cut_top(canvas.line_px(Type::body)),
                 panels::pieces_that_fit(canvas, Type::body, at.w, pieces), Type::body, kQuiet);
    return;
  }
  const float name = std::min(at.w * 0.6F, canvas.width(Type::head, recipe.name) + 1);
  canvas.words(at.cut_left(name), recipe.name, Type::head, {});
  at.cut_left(canvas.px(5));
  canvas.words(at, panels::pieces_that_fit(canvas, Type::body, at.w, pieces), Type::body, kQuiet);
}

}  // namespace

look::Frame lay_out_reserve(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = panels::chrome_with_hint(canvas, scene);
  const Recipe* recipe = scene.floor.recipe(scene.view.wanted.recipe);
  if (recipe == nullptr) {
    canvas.words(body, words::tr("Nothing is chosen. Esc goes back to the tiles."), Type::head,
                 kQuiet, Align::centre);
    return canvas.take();
  }
  const Offer offer = offer_of(scene);
  const bool narrow = panels::narrow(canvas);
  Rect head = narrow ? body.cut_top(canvas.touch()) : Rect{};
  if (narrow) body.cut_top(canvas.gap());
  Rect left = body.cut_left(body.w * 0.46F - canvas.gap());
  body.cut_left(canvas.gap() * 2);
  if (!narrow) {
    head = left.cut_top(std::max(canvas.touch(), panels::heading_px(canvas)));
    left.cut_top(canvas.gap());
  }
  glue_pages(canvas, head, left, scene, offer);
  heading(canvas, head, scene, *recipe);
  joint_column(canvas, left, scene, *recipe, offer);
  when(canvas, body, scene, *recipe, offer);
  return canvas.take();
}

}  // namespace squeezeout::bench
