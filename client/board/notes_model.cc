#include "client/board/notes_model.h"

#include <fmt/format.h>

#include <algorithm>

#include "client/words/say.h"

namespace squeezeout::board {
namespace {

using look::Align;
using look::Canvas;
using look::Ink;
using look::Rect;
using look::Role;
using look::Type;

constexpr Ink kQuiet{Role::muted, Role::background};

bool no_hours(const Scene& scene) { return scene.floor.shop->hours == WeekHours{}; }

// "Free all this time: short clamp, deck A +3".
void idle_words(Canvas& canvas, Rect at, const std::vector<std::string>& idle, bool was) {
  if (idle.empty()) return;
  const auto said = [&](const std::string& names) {
    return was ? words::say("Was free all this time: {}", names)
               : words::say("Free all this time: {}", names);
  };
  std::string names;
  for (std::size_t i = 0; i < idle.size(); ++i) {
    const std::string more = (i == 0 ? "" : ", ") + idle[i];
    const std::string tail = i + 1 == idle.size() ? "" : fmt::format(" +{}", idle.size() - i - 1);
    if (canvas.width(Type::body, said(names + more + tail)) > at.w) {
      names += fmt::format(" +{}", idle.size() - i);
      break;
    }
    names += more;
  }
  canvas.words(at, said(names), Type::body, kQuiet);
}

}  // namespace

bool has_note(const Scene& scene, const LaneSet& set) {
  return !set.idle.empty() || scene.view.only || no_hours(scene);
}

void note(Canvas& canvas, Rect at, const Scene& scene, const LaneSet& set) {
  if (no_hours(scene)) {
    canvas.words(at,
                 words::tr("No opening hours: nothing can be planned. Next: set them in Set-up."),
                 Type::body, kQuiet);
    return;
  }
  const Build* only = scene.floor.build(scene.view.only);
  if (only == nullptr) return idle_words(canvas, at, set.idle, scene.stale());
  int shown = 0, all = 0;
  for (const auto& [id, g] : scene.floor.glue_ups)
    if (live(g)) ++all, shown += g.build == only->id ? 1 : 0;
  canvas.words(at, words::say("Only {}: {} of {} glue-ups.", only->name, shown, all), Type::body,
               kQuiet);
}

void empty_words(Canvas& canvas, Rect lanes, const Scene& scene, const LaneSet& set, Span window) {
  for (const Lane& lane : set.lanes)
    if (!lane.bars.empty()) return;
  const words::Context c = scene.context();
  const auto& all = scene.floor.glue_ups;
  const bool idle =
      std::none_of(all.begin(), all.end(), [](const auto& g) { return live(g.second); });
  Rect text = lanes.middle(std::min(lanes.w * 0.8F, canvas.px(190)),
                           std::min(lanes.h, canvas.px(14) + canvas.touch() * 1.5F));
  if (!idle || scene.stale()) {
    const std::string what =
        idle ? words::tr("Nothing was curing or planned.")
             : words::say("Nothing from {} to {}.", words::clock(c, window.begin),
                          words::clock(c, window.end));
    canvas.box(text.middle(text.w, canvas.line_px(Type::title)), Role::background);
    canvas.words(text, what, Type::title, kQuiet, Align::centre);
    return;
  }
  canvas.box(text, Role::background);
  canvas.words(text.cut_top(text.h - canvas.touch() * 1.5F),
               scene.floor.outages.empty() ? words::tr("Nothing curing. Gear all free.")
                                           : words::tr("Nothing curing or planned."),
               Type::title, {}, Align::centre);
  canvas.button(text.middle(std::max(canvas.px(80), canvas.touch() * 3), text.h),
                {.id = "board.reserve",
                 .label = words::tr("Reserve a glue-up"),
                 .key_name = words::tr("Space"),
                 .keys = {' ', look::kEnter},
                 .intent = Go{Screen::bench, {}},
                 .look = look::Look::key});
}

void legend(Canvas& canvas, Rect at, const Scene& scene) {
  struct Entry {
    Phase phase;
    const char* word;
  };
  constexpr Entry entries[] = {{Phase::open, "wet"},
                               {Phase::clamped, "clamped"},
                               {Phase::waiting, "waiting"},
                               {Phase::ready, "ready"},
                               {Phase::planned, "planned"}};
  const float side = canvas.px(9);
  for (const Entry& e : entries) {
    const std::string word = words::tr(e.word);
    const float width = canvas.width(Type::body, word);
    if (at.w < side + width + canvas.px(6)) return;
    swatch(canvas, at.cut_left(side).middle(side, side), e.phase, GlueUp{}, scene);
    at.cut_left(canvas.px(2));
    canvas.words(at.cut_left(width + 1), word, Type::body, {Role::text, Role::lane});
    at.cut_left(canvas.px(8));
  }
  const std::string over = words::tr("still on past its time");
  if (at.w < side + canvas.width(Type::body, over) + canvas.px(6)) return;
  const Rect box = at.cut_left(side).middle(side, side);
  canvas.box(box, Role::clamped);
  canvas.box(box, Role::hatch, look::Fill::hatch);
  canvas.edge(box, Role::amber, 0.9F);
  at.cut_left(canvas.px(2));
  canvas.words(at, over, Type::body, {Role::text, Role::lane});
}

}  // namespace squeezeout::board
