#include "client/bench/home_model.h"

#include <fmt/format.h>

#include "client/bench/next_button.h"
#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"

namespace squeezeout::bench {
namespace {

using look::Align;
using look::Canvas;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kRowMm = 21, kTileMm = 25, kHeadMm = 11;

std::string who_and_where(const Scene& scene) {
  const words::Context c = scene.context();
  std::string out;
  if (scene.view.builder) out = words::builder(c, scene.view.builder);
  if (scene.view.bench) out += (out.empty() ? "" : " · ") + words::bench(c, scene.view.bench);
  return out.empty() ? "Nobody's bench" : out;
}

void glue_up_row(Canvas& canvas, Rect at, const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  const Phase phase = phase_at(g, scene.now);
  const Remaining left = remaining(scene, g);
  const bool loud = left.tone == Remaining::Tone::loud;
  canvas.box(at, Role::lane);
  if (loud) canvas.edge(at, Role::amber, 0.8F);
  canvas.press({fmt::format("mine.{}", g.id.value),
                words::title(c, g),
                at,
                {},
                Go{Screen::card, g.id},
                look::Kind::button});
  Rect row = at.inset(canvas.px(2.5F), canvas.px(2.5F));
  swatch(canvas, row.cut_left(row.h), phase, g, scene);
  row.cut_left(canvas.px(4));

  // The clock first; the countdown to its right, ranged right.
  const Instant shown = phase == Phase::open ? clamps_on_by(g).value_or(shown_time(g, scene.now))
                                             : shown_time(g, scene.now);
  const std::string clock = words::clock(c, shown);
  const float clock_width =
      std::max(canvas.width(Type::head, "00:00"), canvas.width(Type::head, clock));
  canvas.words(row.cut_left(clock_width), clock, Type::head, {Role::text, Role::lane});
  row.cut_left(canvas.px(5));
  Rect right = row.cut_right(canvas.width(Type::strong, "can come off"));
  if (loud) {
    const float width = canvas.width(Type::strong, left.words) + canvas.px(4);
    const Rect tag = Rect{right.right() - width, right.y, width, right.h}.middle(
        width, canvas.cap(Type::strong) * 2.4F);
    canvas.box(tag, Role::amber);
    canvas.edge(tag, Role::keyline, 0.35F);
    canvas.words(tag, left.words, Type::strong, {Role::on_amber, Role::amber}, Align::centre);
  } else {
    canvas.words(right, left.words, Type::strong, {Role::text, Role::lane}, Align::right);
  }
  row.cut_right(canvas.px(3));
  Rect text = row.middle(row.w, canvas.line_px(Type::strong) + canvas.line_px(Type::small));
  canvas.words(text.cut_top(canvas.line_px(Type::strong)), words::title(c, g), Type::strong,
               {Role::text, Role::lane});
  std::string sub = words::glue(c, g);
  if (phase == Phase::open) sub = "clamps on by " + clock + " · " + sub;
  if (const std::string gear = words::gear(c, g.held); !gear.empty() && running(g))
    sub = gear + " · " + sub;
  if (phase == Phase::planned || phase == Phase::stage)
    sub = "start · " + words::gear(c, g.held) + " · " + words::glue(c, g);
  canvas.words(text, sub, Type::small, {Role::muted, Role::lane});
}

void mine(Canvas& canvas, const Scene& scene, Rect area) {
  const auto own = own_glue_ups(scene.floor, scene.view.builder, scene.view.bench, scene.now);
  Rect next = area.cut_bottom(canvas.px(40));
  area.cut_bottom(canvas.px(look::kGapMm));
  Rect head = area.cut_top(canvas.px(kHeadMm));
  canvas.words(head, who_and_where(scene), Type::head, {});
  if (own.empty()) {
    canvas.box(next, Role::lane);
    canvas.edge(next, Role::grid, 0.35F);
    canvas.words(next.inset(canvas.px(7), 0), "Nothing of yours is glued or planned.", Type::title,
                 {Role::muted, Role::lane}, Align::centre);
    canvas.paragraph(area, "Press a tile on the right to reserve a glue-up.", Type::title,
                     {Role::muted, Role::background}, 2);
    return;
  }
  next_button(canvas, next, scene, *own.front());
  const float pitch = canvas.px(kRowMm + look::kGapMm);
  const int fitting = static_cast<int>((area.h + canvas.px(look::kGapMm)) / pitch);
  const int all = static_cast<int>(own.size());
  const int shown = std::min(all, fitting);
  for (int i = 0; i < shown; ++i) {
    glue_up_row(canvas, area.cut_top(canvas.px(kRowMm)), scene, *own[static_cast<std::size_t>(i)]);
    area.cut_top(canvas.px(look::kGapMm));
  }
  if (all > shown)
    canvas.words(head, fmt::format("+{} later", all - shown), Type::strong,
                 {Role::muted, Role::background}, Align::right);
}

struct Tile {
  Reserve wanted;
  std::string title;
};

// The next step of each of my builds, then the usual recipes.
std::vector<Tile> tiles(const Scene& scene) {
  std::vector<Tile> out;
  if (!scene.floor.shop) return out;
  const words::Context c = scene.context();
  const auto wanted = [&](RecipeId recipe, BuildId build, int step) {
    Reserve r;
    r.recipe = recipe, r.build = build, r.step = step;
    r.builder = scene.view.builder, r.bench = scene.view.bench;
    return r;
  };
  for (const Build& b : scene.floor.shop->builds) {
    if (b.builder != scene.view.builder) continue;
    if (const auto next = next_step(scene.floor, b.id))
      out.push_back({wanted(next->recipe, b.id, next->step),
                     b.name + " · " + words::recipe(c, next->recipe)});
  }
  for (const Recipe& r : scene.floor.shop->recipes)
    if (r.usual) out.push_back({wanted(r.id, {}, 0), r.name});
  return out;
}

std::string quote_words(const Scene& scene, const Quotes::Answer& answer) {
  const words::Context c = scene.context();
  if (answer) {
    const PhaseTimes& t = answer->slot.times;
    const bool now = t.stage_begin <= scene.now + Minutes{1};
    return fmt::format("{} · off about {}", now ? "now" : words::clock(c, t.stage_begin),
                       words::clock(c, t.release_begin));
  }
  if (std::holds_alternative<NotPossible>(answer.error())) return "not today: see why";
  if (std::holds_alternative<StepMissing>(answer.error())) return "an earlier step is missing";
  return "no time found: see why";
}

void tile_grid(Canvas& canvas, const Scene& scene, Rect area) {
  Rect head = area.cut_top(canvas.px(kHeadMm));
  canvas.words(head, "Reserve next", Type::head, {});
  const std::vector<Tile> all = tiles(scene);
  const float gap = canvas.px(look::kGapMm);
  const int columns = 2;
  const float width = (area.w - gap) / 2;
  const float pitch = canvas.px(kTileMm) + gap;
  int fitting = columns * static_cast<int>((area.h + gap) / pitch);
  const int count = static_cast<int>(all.size());
  const bool paged = count > fitting;
  if (paged) fitting -= columns;
  const panels::Page page = panels::page_of(count, fitting, scene.view.page);
  for (int i = 0; i < page.count; ++i) {
    const Tile& tile = all[static_cast<std::size_t>(page.first + i)];
    const float column = static_cast<float>(i % columns), line = static_cast<float>(i / columns);
    const Rect at{area.x + column * (width + gap), area.y + line * pitch, width,
                  canvas.px(kTileMm)};
    const auto& answer = scene.quotes.earliest_for_wanted(scene.floor, tile.wanted, scene.now);
    canvas.box(at, Role::lane);
    canvas.edge(at, Role::edge, 0.35F);
    Rect text = at.inset(canvas.px(3), canvas.px(3));
    canvas.words(text.cut_bottom(canvas.line_px(Type::small)),
                 scene.stale() ? "not known: not live" : quote_words(scene, answer), Type::small,
                 {Role::muted, Role::lane});
    const auto lines = canvas.letters().wrapped(Type::strong, tile.title, text.w, 2);
    Rect name =
        text.middle(text.w, canvas.line_px(Type::strong) * static_cast<float>(lines.size()));
    for (const std::string& line_text : lines)
      canvas.words(name.cut_top(canvas.line_px(Type::strong)), line_text, Type::strong,
                   {Role::text, Role::lane});
    canvas.press({fmt::format("tile.{}", page.first + i),
                  tile.title,
                  at,
                  {},
                  Pick{tile.wanted},
                  look::Kind::button});
  }
  if (paged) {
    Rect keys = area.cut_bottom(canvas.px(kTileMm));
    panels::page_keys(canvas, keys, page, count);
  }
}

}  // namespace

look::Frame lay_out_home(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = panels::chrome_with_hint(canvas, scene);
  mine(canvas, scene, body.cut_left(body.w * 0.57F - canvas.px(4)));
  body.cut_left(canvas.px(8));
  tile_grid(canvas, scene, body);
  return canvas.take();
}

}  // namespace squeezeout::bench
