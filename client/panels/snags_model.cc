#include "client/panels/snags_model.h"

#include <fmt/format.h>

#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"
#include "client/words/plan.h"

namespace squeezeout::panels {
namespace {

using look::Align;
using look::Canvas;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kSnagMm = 31, kKeysMm = 32, kNextMm = 70;

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
void said(Canvas& canvas, Rect row, const std::string& title, const std::string& why) {
  const float side = canvas.px(10);
  canvas.warn_tag(row.cut_left(side).middle(side, side));
  row.cut_left(canvas.px(5));
  const std::size_t lines = canvas.letters().wrapped(Type::body, why, row.w, 2).size();
  Rect text = row.middle(
      row.w, canvas.line_px(Type::title) + canvas.line_px(Type::body) * static_cast<float>(lines));
  canvas.words(text.cut_top(canvas.line_px(Type::title)), title, Type::title,
               {Role::text, Role::lane});
  canvas.paragraph(text, why, Type::body, {Role::muted, Role::lane}, 2);
}

void said(Canvas& canvas, Rect row, const Scene& scene, const GlueUp& g, const std::string& why) {
  const words::Context c = scene.context();
  said(canvas, row, words::title(c, g) + " · " + words::builder(c, g.builder), why);
}

Intent move_to(const GlueUp& g, Instant start) {
  return Ask{Move{g.id, start, g.outside_hours ? Override::knowingly : Override::no}};
}

void lost_row(Canvas& canvas, Rect row, const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  const float gap = canvas.gap(), width = canvas.px(40);
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
  const float gap = canvas.gap(), width = canvas.px(40);
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

// A build that will be late, days ahead.
void risk_row(Canvas& canvas, Rect row, const Scene& scene, const AtRisk& risk) {
  const words::Context c = scene.context();
  if (scene.floor.glue_up(risk.last) != nullptr)
    canvas.button(row.cut_right(canvas.px(40)), {.id = fmt::format("last.{}", risk.build.value),
                                                 .label = "What is last",
                                                 .sub = "why so late",
                                                 .intent = Go{Screen::board, risk.last},
                                                 .on = Role::lane});
  row.cut_right(canvas.gap());
  const Build* build = scene.floor.build(risk.build);
  said(canvas, row, build == nullptr ? "A build" : build->name + " will be late",
       words::at_risk(c, risk));
}

std::string heading(int lost, int moved, int late) {
  const auto count = [](int n, const char* one, const char* more) {
    return n == 1 ? std::string("1 glue-up ") + one : fmt::format("{} glue-ups {}", n, more);
  };
  std::string out;
  const auto add = [&](const std::string& words) { out += (out.empty() ? "" : ", ") + words; };
  if (lost > 0) add(count(lost, "lost its place", "lost their place"));
  if (moved > 0) add(count(moved, "moved by the weather", "moved by the weather"));
  if (late > 0)
    add(late == 1 ? "1 build will be late" : fmt::format("{} builds will be late", late));
  return out.empty() ? "No snags" : out;
}

// One of the two is the Next key: a repair where something lost its place, else a replan for what will be late.
void plan_keys(Canvas& canvas, Rect at, int lost) {
  using plan_ahead::Task;
  const float gap = canvas.gap();
  if (lost > 0) {
    canvas.button(at.cut_left(canvas.px(kNextMm)), {.id = "repair",
                                                    .label = "REPAIR",
                                                    .sub = "as few moves as can be",
                                                    .key_name = "Space",
                                                    .keys = {' ', look::kEnter},
                                                    .intent = PlanAhead{Task::repair},
                                                    .look = Look::key,
                                                    .type = Type::big});
    at.cut_left(gap);
  }
  look::Button replan{.id = "replan",
                      .label = "REPLAN",
                      .sub = "all not started",
                      .key_name = "R",
                      .keys = {'R'},
                      .intent = PlanAhead{Task::replan}};
  if (lost == 0) {
    replan.key_name = "Space";
    replan.keys = {' ', look::kEnter, 'R'};
    replan.look = Look::key;
    replan.type = Type::big;
  }
  canvas.button(at.cut_left(canvas.px(lost == 0 ? kNextMm : 44)), std::move(replan));
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
  const std::vector<AtRisk>& late = scene.quotes.at_risk(scene.floor, scene.now);
  const int of_glue_ups = static_cast<int>(snags.size());
  const int all = of_glue_ups + static_cast<int>(late.size());
  if ((lost > 0 || !late.empty()) && !scene.stale()) {
    plan_keys(canvas, body.cut_bottom(canvas.px(kKeysMm)), lost);
    body.cut_bottom(canvas.gap());
  }
  Rect head = body.cut_top(canvas.px(20));
  body.cut_top(canvas.px(3));
  const float pitch = canvas.px(kSnagMm + look::kGapMm);
  const Page page =
      page_of(all, static_cast<int>((body.h + canvas.gap()) / pitch), scene.view.page);
  page_keys(canvas, head, page, all);
  canvas.words(head, heading(lost, of_glue_ups - lost, static_cast<int>(late.size())), Type::head,
               {});
  if (all == 0)
    canvas.paragraph(body,
                     "Everything that is reserved has its gear and its time, and every build will "
                     "be ready when it is due.",
                     Type::title, {Role::muted, Role::background}, 2);
  for (int i = 0; i < page.count; ++i) {
    const Rect at = body.cut_top(canvas.px(kSnagMm));
    body.cut_top(canvas.gap());
    canvas.box(at, Role::lane);
    const Rect row = at.inset(canvas.px(4), canvas.px(3));
    const int n = page.first + i;
    if (n >= of_glue_ups) {
      risk_row(canvas, row, scene, late[static_cast<std::size_t>(n - of_glue_ups)]);
      continue;
    }
    const GlueUp& g = *snags[static_cast<std::size_t>(n)];
    g.progress == Progress::displaced ? lost_row(canvas, row, scene, g)
                                      : moved_row(canvas, row, scene, g);
  }
  return canvas.take();
}

}  // namespace squeezeout::panels
