#include "client/panels/snags_model.h"

#include <fmt/format.h>

#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"
#include "client/panels/plan_model.h"
#include "client/panels/room.h"
#include "client/words/plan.h"
#include "client/words/say.h"

namespace squeezeout::panels {
namespace {

using look::Align;
using look::Canvas;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kSnagMm = 31, kKeysMm = 32, kNarrowKeysMm = 22, kNextMm = 70;

// A key at the right of a row.
float key_px(const Canvas& canvas) {
  return std::max(canvas.touch(), canvas.px(narrow(canvas) ? 29 : 40));
}

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
void said(Canvas& canvas, Rect row, const std::vector<std::string>& title, const std::string& why) {
  const float side = canvas.px(narrow(canvas) ? 7 : 10);
  canvas.warn_tag(row.cut_left(side).middle(side, side));
  row.cut_left(canvas.px(4));
  const float room = row.h - canvas.line_px(Type::title);
  const auto lines = canvas.letters().wrapped(Type::body, why, row.w, 3).size();
  Rect text = row.middle(
      row.w, std::min(row.h, canvas.line_px(Type::title) +
                                 std::max(canvas.line_px(Type::body) * static_cast<float>(lines),
                                          std::min(room, 2.1F * canvas.line_px(Type::small)))));
  canvas.one_of(text.cut_top(canvas.line_px(Type::title)), title, Type::title,
                {Role::text, Role::lane});
  canvas.paragraph(text, why, Type::body, {Role::muted, Role::lane}, 4);
}

void said(Canvas& canvas, Rect row, const Scene& scene, const GlueUp& g, const std::string& why) {
  const words::Context c = scene.context();
  const std::string title = words::title(c, g);
  said(canvas, row,
       {title + " · " + words::builder(c, g.builder), title, words::recipe(c, g.recipe)}, why);
}

Intent move_to(const GlueUp& g, Instant start) {
  return Ask{Move{g.id, start, g.outside_hours ? Override::knowingly : Override::no}};
}

void lost_row(Canvas& canvas, Rect row, const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  const float gap = canvas.gap(), width = key_px(canvas);
  canvas.button(row.cut_right(width * 0.75F), {.id = fmt::format("drop.{}", g.id.value),
                                               .label = words::tr("Drop it"),
                                               .intent = Ask{Cancel{g.id}},
                                               .on = Role::lane});
  row.cut_right(gap);
  const std::vector<Instant> ways = ways_out(scene, g);
  for (std::size_t i = ways.size(); i-- > 0;) {
    key(canvas, row.cut_right(width),
        {.id = fmt::format("take.{}.{}", g.id.value, i),
         .label = words::say("Take {}", words::clock(c, ways[i])),
         .sub = i == 0 ? words::tr("the earliest") : words::tr("another day"),
         .intent = Ask{Move{g.id, ways[i]}},
         .on = Role::lane});
    row.cut_right(gap);
  }
  std::string why = words::snag(c, g);
  if (ways.empty() && !scene.stale()) why = words::say("{}. No other time was found.", why);
  said(canvas, row, scene, g, why);
}

// It has a new time already: keep it, or take another.
void moved_row(Canvas& canvas, Rect row, const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  const float gap = canvas.gap(), width = key_px(canvas);
  std::vector<Instant> ways = ways_out(scene, g);
  std::erase(ways, g.times.stage_begin);
  for (std::size_t i = ways.size(); i-- > 0;) {
    key(canvas, row.cut_right(width),
        {.id = fmt::format("take.{}.{}", g.id.value, i),
         .label = words::say("Take {}", words::clock(c, ways[i])),
         .sub = words::tr("instead"),
         .intent = Ask{Move{g.id, ways[i]}},
         .on = Role::lane});
    row.cut_right(gap);
  }
  if (!scene.stale()) {
    key(canvas, row.cut_right(width),
        {.id = fmt::format("keep.{}", g.id.value),
         .label = words::say("Keep {}", words::clock(c, g.times.stage_begin)),
         .sub = words::tr("as it is now"),
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
    key(canvas, row.cut_right(key_px(canvas)),
        {.id = fmt::format("last.{}", risk.build.value),
         .label = words::tr("What is last"),
         .sub = words::tr("why so late"),
         .intent = Go{Screen::board, risk.last},
         .on = Role::lane});
  row.cut_right(canvas.gap());
  const Build* build = scene.floor.build(risk.build);
  const std::string name = build == nullptr ? words::tr("A build") : build->name;
  const std::string title = scene.stale() ? words::say("{} was going to be late", name)
                                          : words::say("{} will be late", name);
  said(canvas, row, {title, name}, words::at_risk(c, risk));
}

std::string heading(const Scene& scene, int lost, int moved, int late) {
  std::string out;
  const auto add = [&](const std::string& words) { out += (out.empty() ? "" : ", ") + words; };
  if (scene.stale()) {
    if (lost > 0)
      add(words::say_n(lost, "{} glue-up had lost its place", "{} glue-ups had lost their place"));
    if (moved > 0)
      add(words::say_n(moved, "{} had been moved by the weather",
                       "{} had been moved by the weather"));
    if (late > 0)
      add(words::say_n(late, "{} build was going to be late", "{} builds were going to be late"));
    return out.empty() ? words::tr("There were no snags") : out;
  }
  if (lost > 0)
    add(words::say_n(lost, "{} glue-up lost its place", "{} glue-ups lost their place"));
  if (moved > 0) add(words::say_n(moved, "{} moved by the weather", "{} moved by the weather"));
  if (late > 0) add(words::say_n(late, "{} build will be late", "{} builds will be late"));
  return out.empty() ? words::tr("No snags") : out;
}

// One of the two is the Next key: a repair where something lost its place, else a replan for what will be late. Beside them the
// way back to a plan that was worked out.
void plan_keys(Canvas& canvas, Rect at, const Scene& scene, int lost, bool late) {
  using plan_ahead::Task;
  const float gap = canvas.gap(), side = canvas.px(44);
  if (lost > 0) {
    key(canvas, at.cut_left(canvas.px(kNextMm)),
        {.id = "repair",
         .label = words::tr("REPAIR"),
         .sub = words::tr("as few moves as can be"),
         .key_name = "Space",
         .keys = {' ', look::kEnter},
         .intent = PlanAhead{Task::repair},
         .look = Look::key,
         .type = Type::big});
    at.cut_left(gap);
  }
  if (lost > 0 || late) {
    look::Button replan{.id = "replan",
                        .label = words::tr("REPLAN"),
                        .sub = words::tr("all not started"),
                        .key_name = "R",
                        .keys = {'R'},
                        .intent = PlanAhead{Task::replan}};
    if (lost == 0) {
      replan.key_name = "Space";
      replan.keys = {' ', look::kEnter, 'R'};
      replan.look = Look::key;
      replan.type = Type::big;
    }
    key(canvas, at.cut_left(lost == 0 ? canvas.px(kNextMm) : side), std::move(replan));
    at.cut_left(gap);
  }
  if (plan_at_hand(scene))
    key(canvas, at.cut_left(side),
        {.id = "plan",
         .label = words::tr("See the plan"),
         .sub = words::tr("worked out before"),
         .key_name = "V",
         .keys = {'V'},
         .intent = Go{Screen::plan, {}}});
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
  if ((lost > 0 || !late.empty() || plan_at_hand(scene)) && !scene.stale()) {
    const float tall = next_px(canvas, narrow(canvas) ? kNarrowKeysMm : kKeysMm);
    plan_keys(canvas, body.cut_bottom(tall), scene, lost, !late.empty());
    body.cut_bottom(canvas.gap());
  }
  Rect head = body.cut_top(canvas.touch());
  body.cut_top(canvas.px(2));
  const float pitch = canvas.px(kSnagMm) + canvas.gap();
  const Page page =
      page_of(all, static_cast<int>((body.h + canvas.gap()) / pitch), scene.view.page);
  page_keys(canvas, head, page, all);
  canvas.words(head, heading(scene, lost, of_glue_ups - lost, static_cast<int>(late.size())),
               Type::head, {});
  if (all == 0)
    canvas.paragraph(body,
                     scene.stale()
                         ? words::tr("Everything that was reserved had its gear and its time, and "
                                     "every build was going to be ready when it is due.")
                         : words::tr("Everything that is reserved has its gear and its time, and "
                                     "every build will be ready when it is due."),
                     Type::title, {Role::muted, Role::background}, 3);
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
