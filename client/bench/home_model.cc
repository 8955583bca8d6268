#include "client/bench/home_model.h"

#include <fmt/format.h>

#include <algorithm>

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

constexpr float kRowMm = 21, kTileMm = 25, kTallestTileMm = 38, kHeadMm = 14, kElsewhereMm = 10;

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
  Rect right = row.cut_right(canvas.width(Type::strong, "00 min over") + canvas.px(5));
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
  if (const std::string weather = words::weather_short(c, g); !weather.empty())
    sub = weather + " · " + sub;
  canvas.words(text, sub, Type::small, {Role::muted, Role::lane});
}

// What the others run: to be read, not pressed.
void elsewhere(Canvas& canvas, const Scene& scene, Rect area) {
  std::vector<const GlueUp*> rows;
  for (const auto& [id, g] : scene.floor.glue_ups)
    if (running(g) && !own(scene, g)) rows.push_back(&g);
  std::sort(rows.begin(), rows.end(), [](const GlueUp* a, const GlueUp* b) {
    return std::pair{a->times.release_begin, a->id} < std::pair{b->times.release_begin, b->id};
  });
  const int fitting = static_cast<int>(area.h / canvas.px(kElsewhereMm)) - 1;
  if (fitting < 1) return;
  const words::Context c = scene.context();
  canvas.words(area.cut_top(canvas.px(kElsewhereMm)),
               rows.empty() ? "Nothing is clamped elsewhere" : "Elsewhere", Type::strong,
               {Role::muted, Role::background});
  const int shown = std::min(fitting, static_cast<int>(rows.size()));
  for (int i = 0; i < shown; ++i) {
    const GlueUp& g = *rows[static_cast<std::size_t>(i)];
    Rect row = area.cut_top(canvas.px(kElsewhereMm));
    swatch(canvas, row.cut_left(canvas.px(7)).middle(canvas.px(7), canvas.px(7)),
           phase_at(g, scene.now), g, scene);
    row.cut_left(canvas.px(4));
    const std::string clock = words::clock(c, shown_time(g, scene.now));
    const std::string usual = "Fri 00:00";
    canvas.words(row.cut_left(canvas.width(Type::strong, usual)), clock, Type::strong, {});
    row.cut_left(canvas.px(3));
    const Remaining left = remaining(scene, g);
    canvas.words(row.cut_right(canvas.width(Type::body, "00 min over") + 1), left.words, Type::body,
                 {Role::muted, Role::background}, Align::right);
    row.cut_right(canvas.px(3));
    canvas.words(
        row,
        words::initials(c, g.builder) + " · " + words::title(c, g) + " · " + words::gear(c, g.held),
        Type::body, {Role::muted, Role::background});
  }
}

void mine(Canvas& canvas, const Scene& scene, Rect area) {
  const auto own = own_glue_ups(scene.floor, scene.view.builder, scene.view.bench, scene.now);
  Rect next = area.cut_bottom(canvas.px(40));
  area.cut_bottom(canvas.gap());
  Rect head = area.cut_top(canvas.px(kHeadMm));
  canvas.words(head, who_and_where(scene), Type::head, {});
  if (own.empty()) {
    canvas.box(next, Role::lane);
    canvas.edge(next, Role::grid, 0.35F);
    canvas.words(next.inset(canvas.px(7), 0), "Nothing of yours is glued or planned: press a tile",
                 Type::title, {Role::muted, Role::lane}, Align::centre);
  } else {
    next_button(canvas, next, scene, *own.front());
  }
  const float pitch = canvas.px(kRowMm + look::kGapMm);
  const int fitting = static_cast<int>((area.h + canvas.gap()) / pitch);
  const int all = static_cast<int>(own.size());
  const int shown = std::min(all, fitting);
  for (int i = 0; i < shown; ++i) {
    glue_up_row(canvas, area.cut_top(canvas.px(kRowMm)), scene, *own[static_cast<std::size_t>(i)]);
    area.cut_top(canvas.gap());
  }
  if (all > shown)
    canvas.words(head, fmt::format("+{} later", all - shown), Type::strong,
                 {Role::muted, Role::background}, Align::right);
  elsewhere(canvas, scene, area);
}

struct Tile {
  Reserve wanted;
  std::string title;
};

// The next step of each of my builds, then recipes: the usual ones, or all.
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
    if (r.usual || scene.view.tiles == Tiles::all) out.push_back({wanted(r.id, {}, 0), r.name});
  return out;
}

std::string unfit_words(const Unfit& why) {
  if (std::holds_alternative<BelowFloor>(why)) return "too cold for its glue";
  if (std::holds_alternative<OpenTooShort>(why)) return "its glue would skin first";
  if (std::holds_alternative<StaleLot>(why)) return "its bottle is stale";
  return "its glue does not suit";
}

std::string quote_words(const Scene& scene, const Quotes::Answer& answer) {
  const words::Context c = scene.context();
  if (answer) {
    const PhaseTimes& t = answer->slot.times;
    const bool now = t.stage_begin <= scene.now + Minutes{1};
    return fmt::format("{} · off about {}", now ? "now" : words::clock(c, t.stage_begin),
                       words::clock(c, t.release_begin));
  }
  if (const auto* no = std::get_if<NotPossible>(&answer.error())) return unfit_words(no->why);
  if (std::holds_alternative<StepMissing>(answer.error())) return "an earlier step is missing";
  return "no time found: see why";
}

void tile_button(Canvas& canvas, Rect at, const Scene& scene, const Tile& tile, int number) {
  const auto& answer = scene.quotes.earliest_for_wanted(scene.floor, tile.wanted, scene.now);
  canvas.box(at, Role::lane);
  canvas.edge(at, Role::edge, 0.35F);
  Rect text = at.inset(canvas.px(3.5F), canvas.px(3));
  canvas.words(text.cut_bottom(canvas.line_px(Type::small)),
               scene.stale() ? "not known: not live" : quote_words(scene, answer), Type::small,
               {Role::muted, Role::lane});
  const Type type = at.h > canvas.px(30) ? Type::title : Type::strong;
  const auto lines = canvas.letters().wrapped(type, tile.title, text.w, 2);
  Rect name = text.middle(text.w, canvas.line_px(type) * static_cast<float>(lines.size()));
  for (const std::string& line : lines)
    canvas.words(name.cut_top(canvas.line_px(type)), line, type, {Role::text, Role::lane});
  canvas.press(
      {fmt::format("tile.{}", number), tile.title, at, {}, Pick{tile.wanted}, look::Kind::button});
}

void tile_grid(Canvas& canvas, const Scene& scene, Rect area) {
  constexpr int columns = 2;
  const std::vector<Tile> all = tiles(scene);
  const float gap = canvas.gap();
  Rect foot = area.cut_bottom(canvas.px(20));
  area.cut_bottom(gap);
  canvas.words(area.cut_top(canvas.px(kHeadMm)), "Reserve next", Type::head, {});
  const float width = (area.w - gap) / columns;
  const int count = static_cast<int>(all.size());
  const int lines_fitting = static_cast<int>((area.h + gap) / (canvas.px(kTileMm) + gap));
  const panels::Page page = panels::page_of(count, columns * lines_fitting, scene.view.page);
  // Tiles grow into the room that few of them leave.
  const int lines = std::max(1, std::min(lines_fitting, (count + columns - 1) / columns));
  const float height =
      std::min(canvas.px(kTallestTileMm),
               (area.h - gap * static_cast<float>(lines - 1)) / static_cast<float>(lines));
  for (int i = 0; i < page.count; ++i) {
    const float column = static_cast<float>(i % columns), line = static_cast<float>(i / columns);
    tile_button(canvas,
                {area.x + column * (width + gap), area.y + line * (height + gap), width, height},
                scene, all[static_cast<std::size_t>(page.first + i)], page.first + i);
  }
  const bool showing_all = scene.view.tiles == Tiles::all;
  canvas.button(foot.cut_left(canvas.px(44)),
                {.id = "tiles",
                 .label = showing_all ? "Usual only" : "All recipes",
                 .key_name = "R",
                 .keys = {'R'},
                 .intent = ShowTiles{showing_all ? Tiles::usual : Tiles::all}});
  panels::page_keys(canvas, foot, page, count);
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
