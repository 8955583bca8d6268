#include "client/bench/home_model.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "client/bench/next_button.h"
#include "client/bench/tiles.h"
#include "client/panels/chrome_model.h"
#include "client/panels/room.h"
#include "client/words/say.h"

namespace squeezeout::bench {
namespace {

using look::Align;
using look::Canvas;
using look::Ink;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kRowMm = 21, kElsewhereMm = 10, kNextMm = 40, kNarrowNextMm = 26;
constexpr Ink kQuiet{Role::muted, Role::background};

std::string who_and_where(const Scene& scene) {
  const words::Context c = scene.context();
  std::string out;
  if (scene.view.builder) out = words::builder(c, scene.view.builder);
  if (scene.view.bench) out += (out.empty() ? "" : " · ") + words::bench(c, scene.view.bench);
  return out.empty() ? words::tr("Nobody's bench") : out;
}

// How long it is still, or that its time is over.
void time_left(Canvas& canvas, Rect at, const Remaining& left, Align align) {
  if (left.tone != Remaining::Tone::loud) {
    canvas.words(at, left.words, Type::strong, {Role::text, Role::lane}, align);
    return;
  }
  const float width = std::min(at.w, canvas.width(Type::strong, left.words) + canvas.px(4));
  Rect tag = at;
  tag = (align == Align::right ? tag.cut_right(width) : tag.cut_left(width))
            .middle(width, std::min(at.h, canvas.cap(Type::strong) * 2.4F));
  canvas.box(tag, Role::amber);
  canvas.edge(tag, Role::keyline, 0.35F);
  canvas.words(tag, left.words, Type::strong, {Role::on_amber, Role::amber}, Align::centre);
}

std::array<std::string, 4> sub_of(const Scene& scene, const GlueUp& g, const std::string& clock) {
  const words::Context c = scene.context();
  const Phase phase = phase_at(g, scene.now);
  const bool planned = phase == Phase::planned || phase == Phase::stage;
  const std::string first = phase == Phase::open ? words::say("clamps on by {}", clock)
                            : planned            ? words::tr("start")
                                                 : std::string();
  return {words::weather_short(c, g), first,
          running(g) || planned ? words::gear(c, g.held) : std::string(), words::glue(c, g)};
}

void glue_up_row(Canvas& canvas, Rect at, const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  const Phase phase = phase_at(g, scene.now);
  const Remaining left = remaining(scene, g);
  canvas.box(at, Role::lane);
  if (left.tone == Remaining::Tone::loud) canvas.edge(at, Role::amber, 0.8F);
  canvas.press({fmt::format("mine.{}", g.id.value),
                words::title(c, g),
                at,
                {},
                Go{Screen::card, g.id},
                look::Kind::button});
  Rect row = at.inset(canvas.px(2.5F), canvas.px(2.5F));
  swatch(canvas, row.cut_left(row.h), phase, g, scene);
  row.cut_left(canvas.px(4));

  // The clock first; the countdown to its right, ranged right, or below it.
  const Instant shown = phase == Phase::open ? clamps_on_by(g).value_or(shown_time(g, scene.now))
                                             : shown_time(g, scene.now);
  const std::string clock = words::clock(c, shown);
  const float clock_width =
      std::max(canvas.width(Type::head, "00:00"), canvas.width(Type::head, clock));
  const float left_width =
      std::max(canvas.width(Type::strong, "00 min over"), canvas.width(Type::strong, left.words)) +
      canvas.px(5);
  if (panels::narrow(canvas)) {
    Rect times = row.cut_left(std::min(std::max(clock_width, left_width), row.w * 0.42F));
    canvas.words(times.cut_top(times.h * 0.5F), clock, Type::head, {Role::text, Role::lane});
    time_left(canvas, times, left, Align::left);
  } else {
    canvas.words(row.cut_left(clock_width), clock, Type::head, {Role::text, Role::lane});
    time_left(canvas, row.cut_right(left_width), left, Align::right);
  }
  row.cut_left(canvas.px(5));
  row.cut_right(canvas.px(3));
  const std::string sub =
      panels::pieces_that_fit(canvas, Type::small, row.w, sub_of(scene, g, clock));
  const bool one = canvas.width(Type::small, words::title(c, g)) <= row.w;
  const float name = one ? canvas.line_px(Type::strong) : 2 * canvas.line_px(Type::small);
  Rect text = row.middle(row.w, std::min(row.h, name + canvas.line_px(Type::small)));
  const Rect foot = text.cut_bottom(canvas.line_px(Type::small));
  canvas.words(text, words::title(c, g), Type::strong, {Role::text, Role::lane});
  canvas.words(foot, sub, Type::small, {Role::muted, Role::lane});
}

// Nothing runs and nothing is out of use, in the whole shop.
bool all_at_rest(const Floor& floor) {
  return floor.outages.empty() && std::none_of(floor.glue_ups.begin(), floor.glue_ups.end(),
                                               [](const auto& g) { return running(g.second); });
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
  if (fitting < 1 || (rows.empty() && all_at_rest(scene.floor))) return;
  const words::Context c = scene.context();
  const int all = static_cast<int>(rows.size()), shown = std::min(fitting, all);
  canvas.words(area.cut_top(canvas.px(kElsewhereMm)),
               all == 0       ? scene.stale() ? words::tr("Nothing was clamped elsewhere")
                                              : words::tr("Nothing is clamped elsewhere")
                     : all == shown ? words::tr("Elsewhere")
                              : words::say("Elsewhere, and {} more", all - shown),
               Type::strong, kQuiet);
  for (int i = 0; i < shown; ++i) {
    const GlueUp& g = *rows[static_cast<std::size_t>(i)];
    Rect row = area.cut_top(canvas.px(kElsewhereMm));
    swatch(canvas, row.cut_left(canvas.px(7)).middle(canvas.px(7), canvas.px(7)),
           phase_at(g, scene.now), g, scene);
    row.cut_left(canvas.px(4));
    const std::string clock = words::clock(c, shown_time(g, scene.now));
    canvas.words(row.cut_left(std::max(canvas.width(Type::strong, "Fri 00:00"),
                                       canvas.width(Type::strong, clock))),
                 clock, Type::strong, {});
    row.cut_left(canvas.px(3));
    const Remaining left = remaining(scene, g);
    const float wide =
        std::max(canvas.width(Type::body, "00 min over"), canvas.width(Type::body, left.words));
    canvas.words(row.cut_right(wide + 1), left.words, Type::body, kQuiet, Align::right);
    row.cut_right(canvas.px(3));
    const std::array pieces{words::initials(c, g.builder), words::title(c, g),
                            words::gear(c, g.held)};
    const std::string full = panels::pieces_that_fit(canvas, Type::body, row.w, pieces);
    canvas.one_of(row, {full, words::title(c, g), words::recipe(c, g.recipe)}, Type::body, kQuiet);
  }
}

// Nothing of mine: what to do about it is the big key.
void nothing_of_mine(Canvas& canvas, Rect next, Rect& area, const Scene& scene,
                     const std::vector<Tile>& all) {
  const std::string what = scene.stale() ? words::tr("Nothing of yours was glued or planned.")
                           : all_at_rest(scene.floor)
                               ? words::tr("Nothing curing. Gear all free.")
                               : words::tr("Nothing of yours is glued or planned.");
  area.cut_top(canvas.px(2));
  area.cut_top(canvas.paragraph(area, what, Type::title, kQuiet, 2));
  area.cut_top(canvas.px(4));
  if (all.empty())
    return canvas.button(next, {.id = "set-up",
                                .label = words::tr("SET UP THE SHOP"),
                                .sub = words::tr("gear, glues and recipes"),
                                .key_name = "Space",
                                .keys = {' ', look::kEnter},
                                .intent = Go{Screen::setup, {}},
                                .look = look::Look::key,
                                .type = Type::head});
  canvas.button(next, {.id = "reserve.first",
                       .label = words::tr("RESERVE A GLUE-UP"),
                       .sub = all.front().title,
                       .key_name = "Space",
                       .keys = {' ', look::kEnter},
                       .intent = Pick{all.front().wanted},
                       .look = look::Look::key,
                       .type = Type::head});
}

void mine(Canvas& canvas, const Scene& scene, Rect area, const std::vector<Tile>& all_tiles) {
  const auto own = own_glue_ups(scene.floor, scene.view.builder, scene.view.bench, scene.now);
  const Rect next =
      area.cut_bottom(panels::next_px(canvas, panels::narrow(canvas) ? kNarrowNextMm : kNextMm));
  area.cut_bottom(canvas.gap());
  Rect head = area.cut_top(canvas.line_px(Type::head));
  const float row = std::max(canvas.touch(), canvas.px(kRowMm)), pitch = row + canvas.gap();
  const int fitting = static_cast<int>((area.h + canvas.gap()) / pitch);
  const int all = static_cast<int>(own.size());
  const int shown = std::min(all, fitting);
  if (all > shown) {
    const std::string more = words::say("+{} later", all - shown);
    canvas.words(head.cut_right(canvas.width(Type::strong, more) + 1), more, Type::strong, kQuiet,
                 Align::right);
    head.cut_right(canvas.px(4));
  }
  canvas.words(head, who_and_where(scene), Type::head, {});
  if (own.empty())
    nothing_of_mine(canvas, next, area, scene, all_tiles);
  else
    next_button(canvas, next, scene, *own.front());
  for (int i = 0; i < shown; ++i) {
    glue_up_row(canvas, area.cut_top(row), scene, *own[static_cast<std::size_t>(i)]);
    area.cut_top(canvas.gap());
  }
  elsewhere(canvas, scene, area);
}

}  // namespace

look::Frame lay_out_home(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = panels::chrome_with_hint(canvas, scene);
  const std::vector<Tile> all = tiles(scene);
  mine(canvas, scene, body.cut_left(body.w * 0.57F - canvas.gap()), all);
  body.cut_left(canvas.gap() * 1.5F);
  tile_grid(canvas, body, scene, all);
  return canvas.take();
}

}  // namespace squeezeout::bench
