#include "client/panels/snags_model.h"

#include <fmt/format.h>

#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"

namespace squeezeout::panels {
namespace {

using look::Align;
using look::Canvas;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kSnagMm = 31;

Instant next_morning(const Floor& floor, Instant now) {
  return floor.zone ? floor.zone->day(floor.zone->date(now)).end : now;
}

// The earliest time, and the earliest on another day: each computed, each one press.
std::vector<Instant> ways_out(const Scene& scene, const GlueUp& g) {
  std::vector<Instant> out;
  if (scene.stale()) return out;
  const auto ask = [&](Instant after) {
    const auto& answer = scene.quotes.earliest_again(scene.floor, g.id, after, scene.now);
    if (answer && (out.empty() || out.back() != answer->slot.times.stage_begin))
      out.push_back(answer->slot.times.stage_begin);
  };
  ask(std::chrono::floor<Minutes>(scene.now) + Minutes{1});
  if (!out.empty()) ask(next_morning(scene.floor, out.front()));
  return out;
}

// Title and reason, with a sign before them.
void said(Canvas& canvas, Rect row, const Scene& scene, const GlueUp& g, const std::string& why) {
  const words::Context c = scene.context();
  const float side = canvas.px(10);
  canvas.warn_tag(row.cut_left(side).middle(side, side));
  row.cut_left(canvas.px(5));
  const std::size_t lines = canvas.letters().wrapped(Type::body, why, row.w, 2).size();
  Rect text = row.middle(
      row.w, canvas.line_px(Type::title) + canvas.line_px(Type::body) * static_cast<float>(lines));
  canvas.words(text.cut_top(canvas.line_px(Type::title)),
               words::title(c, g) + " · " + words::builder(c, g.builder), Type::title,
               {Role::text, Role::lane});
  canvas.paragraph(text, why, Type::body, {Role::muted, Role::lane}, 2);
}

Intent move_to(const GlueUp& g, Instant start) {
  return Ask{Move{g.id, start, g.outside_hours ? Override::knowingly : Override::no}};
}

void lost_row(Canvas& canvas, Rect row, const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  const float gap = canvas.px(look::kGapMm), width = canvas.px(40);
  canvas.button(row.cut_right(canvas.px(30)), {.id = fmt::format("drop.{}", g.id.value),
                                               .label = "Drop it",
                                               .intent = Ask{Cancel{g.id}},
                                               .on = Role::lane});
  row.cut_right(gap);
  const std::vector<Instant> ways = ways_out(scene, g);
  for (std::size_t i = ways.size(); i-- > 0;) {
    canvas.button(row.cut_right(width), {.id = fmt::format("take.{}.{}", g.id.value, i),
                                         .label = "Take " + words::clock(c, ways[i]),
                                         .sub = i == 0 ? "the earliest" : "another day",
                                         .intent = Ask{Move{g.id, ways[i]}},
                                         .look = i == 0 ? Look::key : Look::normal,
                                         .on = Role::lane});
    row.cut_right(gap);
  }
  std::string why = words::snag(c, g);
  if (ways.empty() && !scene.stale()) why += ". No other time was found.";
  said(canvas, row, scene, g, why);
}

// It has a new time already: keep it, or take another.
void moved_row(Canvas& canvas, Rect row, const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  const float gap = canvas.px(look::kGapMm), width = canvas.px(40);
  std::vector<Instant> ways = ways_out(scene, g);
  std::erase(ways, g.times.stage_begin);
  for (std::size_t i = ways.size(); i-- > 0;) {
    canvas.button(row.cut_right(width), {.id = fmt::format("take.{}.{}", g.id.value, i),
                                         .label = "Take " + words::clock(c, ways[i]),
                                         .sub = "instead",
                                         .intent = Ask{Move{g.id, ways[i]}},
                                         .on = Role::lane});
    row.cut_right(gap);
  }
  if (!scene.stale()) {
    canvas.button(row.cut_right(width), {.id = fmt::format("keep.{}", g.id.value),
                                         .label = "Keep " + words::clock(c, g.times.stage_begin),
                                         .sub = "as it is now",
                                         .intent = move_to(g, g.times.stage_begin),
                                         .look = Look::key,
                                         .on = Role::lane});
    row.cut_right(gap);
  }
  said(canvas, row, scene, g, words::weather(c, g));
}

std::string heading(int lost, int moved) {
  const auto count = [](int n, const char* one, const char* more) {
    return n == 1 ? std::string("1 glue-up ") + one : fmt::format("{} glue-ups {}", n, more);
  };
  if (lost == 0 && moved == 0) return "No snags";
  if (moved == 0) return count(lost, "lost its place", "lost their place");
  const std::string by_weather = count(moved, "moved by the weather", "moved by the weather");
  if (lost == 0) return by_weather;
  return count(lost, "lost its place, ", "lost their place, ") + by_weather;
}

}  // namespace

look::Frame lay_out_snags(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = chrome_with_hint(canvas, scene);
  std::vector<const GlueUp*> snags, moved;
  for (const auto& [id, g] : scene.floor.glue_ups) {
    if (g.progress == Progress::displaced) snags.push_back(&g);
    if (moved_by_weather(g)) moved.push_back(&g);
  }
  const int lost = static_cast<int>(snags.size());
  snags.insert(snags.end(), moved.begin(), moved.end());
  const int all = static_cast<int>(snags.size());
  Rect head = body.cut_top(canvas.px(20));
  body.cut_top(canvas.px(3));
  const float pitch = canvas.px(kSnagMm + look::kGapMm);
  const Page page =
      page_of(all, static_cast<int>((body.h + canvas.px(look::kGapMm)) / pitch), scene.view.page);
  page_keys(canvas, head, page, all);
  canvas.words(head, heading(lost, all - lost), Type::head, {});
  if (all == 0)
    canvas.paragraph(body, "Everything that is reserved has its gear and its time.", Type::title,
                     {Role::muted, Role::background}, 2);
  for (int i = 0; i < page.count; ++i) {
    const GlueUp& g = *snags[static_cast<std::size_t>(page.first + i)];
    const Rect at = body.cut_top(canvas.px(kSnagMm));
    canvas.box(at, Role::lane);
    const Rect row = at.inset(canvas.px(4), canvas.px(3));
    g.progress == Progress::displaced ? lost_row(canvas, row, scene, g)
                                      : moved_row(canvas, row, scene, g);
    body.cut_top(canvas.px(look::kGapMm));
  }
  return canvas.take();
}

}  // namespace squeezeout::panels
