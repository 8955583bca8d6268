#include "client/bench/card_model.h"

#include <fmt/format.h>

#include "client/bench/card_facts.h"
#include "client/bench/dial.h"
#include "client/bench/next_button.h"
#include "client/panels/chrome_model.h"
#include "client/panels/room.h"
#include "client/words/say.h"

namespace squeezeout::bench {
namespace {

using look::Align;
using look::Canvas;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kKeyMm = 40, kNarrowKeyMm = 28, kNextMm = 66;

struct SideKey {
  std::string id, label, sub;
  int key;
  Intent intent;
};

// Clamps off when they really came off: a fact while they are said to be on, a correction afterwards.
void really_off_keys(std::vector<SideKey>& out, const Scene& scene, const GlueUp& g) {
  const bool on = g.progress == Progress::clamped;
  if (!on && scene.stale()) return;  // a correction asks the server
  const Instant from = on ? scene.now : g.off_at.value_or(scene.now);
  int n = 0;
  for (const Instant at : really_off(scene.floor, g, scene.now)) {
    const auto minutes = std::chrono::round<Minutes>(from - at).count();
    const Intent intent = on ? Intent{Ask{ClampsOff{g.id, at}}} : Intent{ReallyOff{g.id, at}};
    out.push_back({fmt::format("off.{}", minutes),
                   words::say("Really off {}", words::clock(scene.context(), at)),
                   on ? words::say("{} min ago", minutes) : words::say("{} min earlier", minutes),
                   n++ == 0 ? 'J' : 'K', intent});
  }
}

// The other things that can happen to it now.
std::vector<SideKey> side_keys(const Scene& scene, const GlueUp& g) {
  std::vector<SideKey> out;
  const auto next = next_key(scene.floor, g);
  if (next && next->from > scene.now && !next->early_word.empty())
    out.push_back(
        {"anyway", next->early_word, words::tr("before its time"), 'A', Ask{next->anyway}});
  really_off_keys(out, scene, g);
  if (g.progress == Progress::reserved || running(g))
    out.push_back({"late", words::tr("Late, +10 min"), words::tr("more time"), 'L',
                   Ask{Late{g.id, Minutes{10}}}});
  if (running(g) || g.progress == Progress::waiting)
    out.push_back({"spoiled", words::tr("Spoiled"), words::tr("start over"), 'S',
                   Ask{Spoiled{g.id, scene.now, ""}}});
  if (g.progress == Progress::reserved || g.progress == Progress::displaced)
    out.push_back(
        {"cancel", words::tr("Cancel it"), words::tr("gear is freed"), 'X', Ask{Cancel{g.id}}});
  if (auto pot = pot_key(scene, g))
    out.push_back({pot->id, pot->label, pot->sub, 'P', Ask{pot->body}});
  if (g.progress == Progress::reserved || running(g))
    out.push_back({"label", words::tr("Tape label"), "", 'B', PrintLabel{g.id}});
  if (live(g)) out.push_back({"why", words::tr("Why these figures"), "", 'W', ShowFigures{g.id}});
  return out;
}

// Beside the Next key, in one row or two; the Next key takes what they leave.
void keys_row(Canvas& canvas, Rect at, const Scene& scene, const GlueUp& g) {
  const auto side = side_keys(scene, g);
  const float gap = canvas.gap();
  const float width = panels::next_px(canvas, panels::narrow(canvas) ? kNarrowKeyMm : kKeyMm);
  const auto across = [&](std::size_t n) { return static_cast<float>(n) * (width + gap); };
  const bool one_row = at.w - across(side.size()) >= canvas.px(kNextMm);
  const std::size_t rows = one_row ? 1 : 2;
  const std::size_t columns = (side.size() + rows - 1) / rows;
  Rect grid = at.cut_right(across(columns));
  next_button(canvas, at, scene, g);
  const float height = (grid.h - gap * static_cast<float>(rows - 1)) / static_cast<float>(rows);
  for (std::size_t i = 0; i < side.size(); ++i) {
    const SideKey& key = side[i];
    const float column = static_cast<float>(i % columns), row = static_cast<float>(i / columns);
    const Rect where{grid.x + gap + column * (width + gap), grid.y + row * (height + gap), width,
                     height};
    panels::key(canvas, where,
                {.id = key.id,
                 .label = key.label,
                 .sub = key.sub,
                 .key_name = std::string(1, static_cast<char>(key.key)),
                 .keys = {key.key},
                 .intent = key.intent});
  }
}

// The first in the size of a title, what follows as a sentence; what does not fit is left out, last first.
void facts_lines(Canvas& canvas, Rect& body, const std::vector<std::string>& lines) {
  const float least = canvas.px(panels::narrow(canvas) ? 34 : 60);
  const auto tall = [&](std::size_t i) {
    const Type type = i == 0 ? Type::title : Type::strong;
    if (canvas.width(Type::small, lines[i]) > body.w) return 2.2F * canvas.line_px(Type::small);
    return canvas.line_px(type) * 1.15F;
  };
  std::size_t fitting = 0;
  float used = canvas.px(2);
  while (fitting < lines.size() && (fitting == 0 || body.h - used - tall(fitting) >= least))
    used += tall(fitting++);
  Rect strip = body.cut_bottom(used);
  strip.cut_top(canvas.px(1));
  for (std::size_t i = 0; i < fitting; ++i)
    canvas.words(strip.cut_top(tall(i)), lines[i], i == 0 ? Type::title : Type::strong, {});
}

}  // namespace

look::Frame lay_out_card(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = panels::chrome_with_hint(canvas, scene);
  const GlueUp* g = scene.floor.glue_up(scene.view.glue_up);
  if (g == nullptr) {
    canvas.paragraph(body, words::tr("This glue-up is gone. Esc goes back to the bench."),
                     Type::head, {Role::muted, Role::background}, 2);
    return canvas.take();
  }
  const words::Context c = scene.context();
  const bool narrow = panels::narrow(canvas);
  Rect head = body.cut_top(canvas.px(narrow ? 11 : 13));
  const std::string who = words::builder(c, g->builder) + " · " + words::bench(c, g->bench);
  const std::string title = words::title(c, *g), glue = words::glue(c, *g);
  canvas.words(head.cut_right(std::min(head.w * 0.36F, canvas.width(Type::title, who) + 1)), who,
               Type::title, {Role::muted, Role::background}, Align::right);
  head.cut_right(canvas.px(5));
  canvas.one_of(head, {title + " · " + glue, title}, Type::head, {});

  const float two_rows = 2 * canvas.touch() + canvas.gap();
  const Rect keys = body.cut_bottom(narrow ? two_rows : std::max(two_rows, canvas.px(46)));
  body.cut_bottom(canvas.px(narrow ? 1 : 3));
  facts_lines(canvas, body, card_facts(scene, *g));
  big_panel(canvas, body, dial(scene, *g));
  keys_row(canvas, keys, scene, *g);
  return canvas.take();
}

}  // namespace squeezeout::bench
