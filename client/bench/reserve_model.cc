#include "client/bench/reserve_model.h"

#include <fmt/format.h>

#include "client/bench/joint_column.h"
#include "client/bench/others_row.h"
#include "client/panels/chrome_model.h"
#include "client/words/why.h"

namespace squeezeout::bench {
namespace {

using look::Align;
using look::Canvas;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

// The chain as it would run: what happens when.
void steps(Canvas& canvas, Rect at, const Scene& scene, const PhaseTimes& t, const Recipe& recipe) {
  const words::Context c = scene.context();
  struct Moment {
    const char* word;
    Instant at;
    Phase phase;
  };
  std::vector<Moment> moments{{"gear out", t.stage_begin, Phase::stage},
                              {"glue", t.open_begin, Phase::open},
                              {"clamps on", t.clamped_begin, Phase::clamped},
                              {"off about", t.release_begin, Phase::waiting}};
  if (recipe.glues.empty()) moments[1] = {"begin", t.open_begin, Phase::stage};
  moments.push_back({"ready", t.ready_at, Phase::ready});
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
    canvas.words(text.cut_top(canvas.line_px(Type::small)), m.word, Type::small,
                 {Role::muted, Role::background});
  }
}

// Two keys beside the big one: another time, and where the figures come from.
void side_keys(Canvas& canvas, Rect& keys, const Scene& scene, const Quotes::Answer& answer) {
  const float gap = canvas.gap();
  Rect column = keys.cut_right(canvas.px(40));
  keys.cut_right(gap);
  canvas.button(column.cut_bottom((column.h - gap) / 2), {.id = "why",
                                                          .label = "Why these figures",
                                                          .key_name = "W",
                                                          .keys = {'W'},
                                                          .intent = ShowFigures{}});
  column.cut_bottom(gap);
  if (!answer) return;
  Reserve later = scene.view.wanted;
  later.after = std::max(answer->slot.times.stage_begin, scene.now) + Minutes{30};
  canvas.button(column, {.id = "later",
                         .label = "Later",
                         .sub = "+30 min",
                         .key_name = "L",
                         .keys = {'L'},
                         .intent = Pick{later}});
}

void no_reserve(Canvas& canvas, Rect keys) {
  canvas.button(keys, {.id = "reserve", .label = "RESERVE", .look = Look::off, .type = Type::big});
}

Reserve from_now(Reserve wanted, Instant now) {
  wanted.after = std::max(wanted.after, now);
  return wanted;
}

// The glue does not suit: reserved all the same, for a reason that goes on record.
void reason_keys(Canvas& canvas, Rect at, const Scene& scene) {
  canvas.words(at.cut_top(canvas.line_px(Type::title)), "RESERVE ANYWAY, because", Type::title, {});
  at.cut_top(canvas.px(1));
  const float gap = canvas.gap();
  const float width = (at.w - gap * (kReasons.size() - 1)) / kReasons.size();
  for (std::size_t i = 0; i < kReasons.size(); ++i) {
    Reserve wanted = from_now(scene.view.wanted, scene.now);
    wanted.reason = kReasons[i];
    const char letter = static_cast<char>('X' + static_cast<char>(i));
    canvas.button(at.cut_left(width), {.id = fmt::format("reserve.because.{}", i),
                                       .label = kReasons[i],
                                       .key_name = std::string(1, letter),
                                       .keys = {letter},
                                       .intent = Ask{wanted}});
    at.cut_left(gap);
  }
}

void not_possible(Canvas& canvas, Rect area, const Scene& scene, const Refusal& why) {
  const words::Told told = words::refusal(scene.context(), scene.view.wanted, why);
  canvas.words(area.cut_top(canvas.px(14)), "Not possible now", Type::head, {});
  area.cut_top(canvas.paragraph(area, told.why, Type::title, {}, 4));
  canvas.paragraph(area, told.next, Type::title, {Role::muted, Role::background}, 3);
}

// What holds an earlier start back, in the fewest facts.
void why_not_now(Canvas& canvas, Rect area, const Scene& scene) {
  const auto& why = scene.quotes.why(scene.floor, scene.view.wanted, scene.now);
  if (!why || why->blockers.empty()) return;
  canvas.paragraph(area, words::not_before(scene.context(), *why), Type::body, {},
                   static_cast<int>(area.h / canvas.line_px(Type::body)));
}

// EARLIEST hh:mm, off about hh:mm: below each other, or side by side where the way to it needs the room.
void earliest_at(Canvas& canvas, Rect& area, const Scene& scene, const PhaseTimes& t, float below) {
  const words::Context c = scene.context();
  const bool wanted_later = scene.view.wanted.after > scene.now;
  const bool now = t.stage_begin <= scene.now + Minutes{1};
  canvas.words(area.cut_top(canvas.line_px(Type::title)),
               wanted_later ? "EARLIEST after " + words::clock(c, scene.view.wanted.after)
                            : std::string(now ? "EARLIEST · now" : "EARLIEST"),
               Type::title, {Role::muted, Role::background});
  area.cut_top(canvas.px(4));
  const std::string clock = words::clock(c, t.stage_begin);
  const std::string off = "off about " + words::clock(c, t.release_begin);
  const auto fits = [&](Type type) {
    return canvas.figures_width(clock, type) <= area.w &&
           area.h - below >= canvas.cap(type) + canvas.px(8) + canvas.line_px(Type::head);
  };
  if (!fits(Type::huge)) {
    Rect line = area.cut_top(canvas.cap(Type::giant));
    const float wide = canvas.figures_width(clock, Type::giant);
    canvas.figures(line.cut_left(wide), clock, Type::giant, {});
    line.cut_left(canvas.px(6));
    canvas.words(line.cut_bottom(canvas.cap(Type::title)), off, Type::title, {});
    area.cut_top(canvas.px(4));
    return;
  }
  const Type size = fits(Type::colossal) ? Type::colossal : Type::huge;
  canvas.figures(area.cut_top(canvas.cap(size)), clock, size, {});
  area.cut_top(canvas.px(5));
  canvas.words(area.cut_top(canvas.line_px(Type::head)), off, Type::head, {});
  area.cut_top(canvas.px(3));
}

void when(Canvas& canvas, Rect area, const Scene& scene, const Recipe& recipe, const Offer& offer) {
  Rect keys = area.cut_bottom(canvas.px(45));
  area.cut_bottom(canvas.gap());
  side_keys(canvas, keys, scene, offer.quote);

  if (scene.stale()) {
    canvas.words(area.cut_top(canvas.px(12)), "NOT LIVE", Type::title, {});
    canvas.paragraph(area, "Nothing can be reserved until the server answers again.", Type::title,
                     {Role::muted, Role::background}, 3);
    return no_reserve(canvas, keys);
  }
  if (!offer.quote) {
    not_possible(canvas, area, scene, offer.quote.error());
    return no_reserve(canvas, keys);
  }
  const PhaseTimes& t = offer.quote->slot.times;
  const bool waits = t.stage_begin > scene.now + Minutes{1};
  if (waits && !others_of(scene).empty()) {
    others_row(canvas, area.cut_bottom(canvas.px(kOtherMm)), scene);
    area.cut_bottom(canvas.px(3));
  }
  const float below = canvas.px(24) + (waits ? canvas.line_px(Type::body) * 3 : 0);
  earliest_at(canvas, area, scene, t, below);
  steps(canvas, area.cut_top(canvas.px(22)), scene, t, recipe);
  area.cut_top(canvas.px(2));
  if (waits) why_not_now(canvas, area, scene);
  if (offer.wants == Offer::Wants::reason) return reason_keys(canvas, keys, scene);
  canvas.button(keys, {.id = "reserve",
                       .label = "RESERVE",
                       .key_name = "Space",
                       .keys = {' ', look::kEnter},
                       .intent = Ask{from_now(scene.view.wanted, scene.now)},
                       .look = Look::key,
                       .type = Type::big});
}

}  // namespace

look::Frame lay_out_reserve(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = panels::chrome_with_hint(canvas, scene);
  const Reserve& wanted = scene.view.wanted;
  const Recipe* recipe = scene.floor.recipe(wanted.recipe);
  if (recipe == nullptr) {
    canvas.words(body, "Nothing is chosen. Esc goes back to the tiles.", Type::head,
                 {Role::muted, Role::background}, Align::centre);
    return canvas.take();
  }
  const words::Context c = scene.context();
  const Offer offer = offer_of(scene);
  Rect left = body.cut_left(body.w * 0.46F - canvas.px(5));
  body.cut_left(canvas.px(10));

  Rect head = left.cut_top(canvas.touch());
  glue_pages(canvas, head, left, scene, offer);
  canvas.words(head.cut_top(canvas.line_px(Type::head)), recipe->name, Type::head, {});
  std::string sub = words::builder(c, wanted.builder);
  if (const Build* build = scene.floor.build(wanted.build)) sub = build->name + " · for " + sub;
  if (wanted.bench) sub += " · " + words::bench(c, wanted.bench);
  canvas.words(head.cut_top(canvas.line_px(Type::body)), sub, Type::body,
               {Role::muted, Role::background});
  left.cut_top(canvas.gap());
  joint_column(canvas, left, scene, *recipe, offer);
  when(canvas, body, scene, *recipe, offer);
  return canvas.take();
}

}  // namespace squeezeout::bench
