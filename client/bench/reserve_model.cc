#include "client/bench/reserve_model.h"

#include <fmt/format.h>

#include "client/panels/chrome_model.h"

namespace squeezeout::bench {
namespace {

using look::Align;
using look::Canvas;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

void caution(Canvas& canvas, Rect& area, const std::string& text) {
  if (text.empty() || area.h < canvas.line_px(Type::body)) return;
  const float side = canvas.cap(Type::body) * 1.6F;
  Rect row = area;
  const Rect tag = row.cut_left(side);
  canvas.icon(look::Glyph::warn,
              Rect{tag.x, tag.y, side, canvas.line_px(Type::body)}.middle(side, side), Role::red);
  row.cut_left(canvas.px(2));
  const float used = canvas.paragraph(row, text, Type::body, {Role::text, Role::background}, 3);
  area.cut_top(used + canvas.px(1.5F));
}

std::string sheet_words(const Scene& scene, const Recipe& recipe, const AdhesiveSheet& sheet) {
  const auto demand = demand_of(recipe, &sheet, recipe.assembly);
  if (!demand) return "not here and now: press to see why";
  return fmt::format("open {} · clamped {} · work after {}", words::length(demand->open_limit),
                     words::length(demand->dwell), words::length(demand->wait));
}

// Which glue: every one that the recipe allows; pressing one asks again.
void glues(Canvas& canvas, Rect& area, const Scene& scene, const Recipe& recipe) {
  const SheetId chosen = scene.view.wanted.sheet ? scene.view.wanted.sheet
                         : recipe.glues.empty()  ? SheetId{}
                                                 : recipe.glues.front();
  int key = 0;
  for (const SheetId id : recipe.glues) {
    const AdhesiveSheet* sheet = scene.floor.sheet(id);
    if (sheet == nullptr || area.h < canvas.px(60)) continue;
    Reserve wanted = scene.view.wanted;
    wanted.sheet = id;
    const char letter = static_cast<char>('A' + key++);
    canvas.button(area.cut_top(canvas.px(20)),
                  {.id = fmt::format("glue.{}", sheet->key),
                   .label = sheet->name,
                   .sub = sheet_words(scene, recipe, *sheet),
                   .key_name = std::string(1, letter),
                   .keys = {letter},
                   .intent = Pick{wanted},
                   .look = id == chosen ? Look::chosen : Look::normal});
    area.cut_top(canvas.px(look::kGapMm));
  }
  if (recipe.glues.empty()) {
    canvas.words(area.cut_top(canvas.px(10)), "Without glue", Type::title, {});
  }
  caution(canvas, area, recipe.caution);
  if (const AdhesiveSheet* sheet = scene.floor.sheet(chosen)) caution(canvas, area, sheet->caution);
}

void gear(Canvas& canvas, Rect& area, const Scene& scene, const Recipe& recipe,
          const Quotes::Answer& answer) {
  const words::Context c = scene.context();
  canvas.words(area.cut_top(canvas.line_px(Type::strong) * 1.2F), "Gear", Type::strong,
               {Role::muted, Role::background});
  for (const GearNeed& need : recipe.needs) {
    if (area.h < canvas.line_px(Type::body)) return;
    area.cut_top(
        canvas.paragraph(area, words::need(need), Type::body, {Role::text, Role::background}, 2));
  }
  if (recipe.needs.empty())
    canvas.words(area.cut_top(canvas.line_px(Type::body)), "none", Type::body, {});
  if (answer && !answer->slot.held.empty())
    area.cut_top(canvas.paragraph(area, "met by " + words::gear(c, answer->slot.held), Type::body,
                                  {Role::muted, Role::background}, 2));
}

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

void why_not_now(Canvas& canvas, Rect area, const Scene& scene, const Quotes::Answer& answer) {
  if (!answer || answer->slot.times.stage_begin <= scene.now + Minutes{1}) return;
  const auto why = words::why(scene.context(), answer->slot.why_not_earlier);
  if (why.empty() || area.h < canvas.line_px(Type::strong) * 2) return;
  canvas.words(area.cut_top(canvas.line_px(Type::strong) * 1.2F), "Why not now", Type::strong,
               {Role::muted, Role::background});
  for (const std::string& line : why) {
    if (area.h < canvas.line_px(Type::body)) break;
    area.cut_top(canvas.paragraph(area, line, Type::body, {Role::text, Role::background}, 2));
    area.cut_top(canvas.px(1));
  }
}

void when(Canvas& canvas, Rect area, const Scene& scene, const Recipe& recipe,
          const Quotes::Answer& answer) {
  const words::Context c = scene.context();
  const float gap = canvas.px(look::kGapMm);
  Rect keys = area.cut_bottom(canvas.px(40));
  area.cut_bottom(gap);

  if (scene.stale()) {
    canvas.words(area.cut_top(canvas.px(12)), "NOT LIVE", Type::title, {});
    canvas.paragraph(area, "Nothing can be reserved until the server answers again.", Type::title,
                     {Role::muted, Role::background}, 3);
    canvas.button(keys,
                  {.id = "reserve", .label = "RESERVE", .look = Look::off, .type = Type::big});
    return;
  }
  if (!answer) {
    const words::Told told = words::refusal(c, scene.view.wanted, answer.error());
    canvas.words(area.cut_top(canvas.px(14)), "Not possible now", Type::head, {});
    area.cut_top(canvas.paragraph(area, told.why, Type::title, {}, 4));
    canvas.paragraph(area, told.next, Type::title, {Role::muted, Role::background}, 3);
    canvas.button(keys,
                  {.id = "reserve", .label = "RESERVE", .look = Look::off, .type = Type::big});
    return;
  }
  const PhaseTimes& t = answer->slot.times;
  const bool wanted_later = scene.view.wanted.after > scene.now;
  const bool now = t.stage_begin <= scene.now + Minutes{1};
  canvas.words(area.cut_top(canvas.line_px(Type::title)),
               wanted_later ? "EARLIEST after " + words::clock(c, scene.view.wanted.after)
                            : std::string(now ? "EARLIEST · now" : "EARLIEST"),
               Type::title, {Role::muted, Role::background});
  area.cut_top(canvas.px(4));
  const std::string clock = words::clock(c, t.stage_begin);
  const bool roomy =
      area.h > canvas.px(130) && canvas.figures_width(clock, Type::colossal) <= area.w;
  const Type size = roomy ? Type::colossal : Type::huge;
  canvas.figures(area.cut_top(canvas.cap(size)), clock, size, {});
  area.cut_top(canvas.px(5));
  canvas.words(area.cut_top(canvas.line_px(Type::head)),
               "off about " + words::clock(c, t.release_begin), Type::head, {});
  area.cut_top(canvas.px(3));
  steps(canvas, area.cut_top(canvas.px(25)), scene, t, recipe);
  area.cut_top(canvas.px(2));
  Reserve later = scene.view.wanted;
  later.after = std::max(t.stage_begin, scene.now) + Minutes{30};
  canvas.button(keys.cut_right(canvas.px(36)), {.id = "later",
                                                .label = "Later",
                                                .sub = "+30 min",
                                                .key_name = "L",
                                                .keys = {'L'},
                                                .intent = Pick{later}});
  keys.cut_right(gap);
  Reserve sure = scene.view.wanted;
  if (sure.after < scene.now) sure.after = scene.now;
  canvas.button(keys, {.id = "reserve",
                       .label = "RESERVE",
                       .key_name = "Space",
                       .keys = {' ', look::kEnter},
                       .intent = Ask{sure},
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
  const auto& answer = scene.quotes.earliest_for_wanted(scene.floor, wanted, scene.now);
  Rect left = body.cut_left(body.w * 0.46F - canvas.px(5));
  body.cut_left(canvas.px(10));

  canvas.words(left.cut_top(canvas.line_px(Type::head)), recipe->name, Type::head, {});
  std::string sub = words::builder(c, wanted.builder);
  if (const Build* build = scene.floor.build(wanted.build)) sub = build->name + " · for " + sub;
  if (wanted.bench) sub += " · " + words::bench(c, wanted.bench);
  canvas.words(left.cut_top(canvas.line_px(Type::body)), sub, Type::body,
               {Role::muted, Role::background});
  left.cut_top(canvas.px(4));
  glues(canvas, left, scene, *recipe);
  left.cut_top(canvas.px(2));
  gear(canvas, left, scene, *recipe, answer);
  left.cut_top(canvas.px(3));
  why_not_now(canvas, left, scene, answer);
  when(canvas, body, scene, *recipe, answer);
  return canvas.take();
}

}  // namespace squeezeout::bench
