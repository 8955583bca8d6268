#include "client/board/chain_model.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "client/words/why.h"

namespace squeezeout::board {
namespace {

using look::Align;
using look::Canvas;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kOutlineMm = 0.9F, kPickedMm = 1.5F, kLineMm = 0.6F, kKeyMm = 21;

const BarPlace* first_of(const std::vector<BarPlace>& places, GlueUpId id) {
  const auto it = std::find_if(places.begin(), places.end(),
                               [&](const BarPlace& p) { return p.glue_up == id; });
  return it == places.end() ? nullptr : &*it;
}

// The bars of two links that stand nearest: in one lane, when they share one.
struct Tie {
  const BarPlace* from = nullptr;
  const BarPlace* to = nullptr;
};
Tie nearest(const std::vector<BarPlace>& places, GlueUpId from, GlueUpId to) {
  Tie best;
  float least = 0;
  for (const BarPlace& a : places) {
    if (a.glue_up != from) continue;
    for (const BarPlace& b : places) {
      if (b.glue_up != to) continue;
      const float apart = a.lane == b.lane ? 0 : std::abs(a.at.centre().y - b.at.centre().y);
      if (best.from != nullptr && apart >= least) continue;
      best = {&a, &b};
      least = apart;
    }
  }
  return best;
}

// From the end of one bar to the begin of the other: along, down or up, and in.
void line_between(Canvas& canvas, Rect a, Rect b) {
  const float px = std::max(2.0F, std::round(canvas.px(kLineMm)));
  const float ya = a.centre().y, yb = b.centre().y;
  const float x = std::max(std::min(a.right(), b.x), b.x - canvas.px(2));
  const auto along = [&](float from, float to, float y) {
    if (to > from) canvas.box({from, y - px / 2, to - from, px}, Role::text);
  };
  along(a.right(), x, ya);
  if (ya != yb)
    canvas.box({x - px / 2, std::min(ya, yb) - px / 2, px, std::abs(ya - yb) + px}, Role::text);
  along(x, b.x, yb);
}

// Where it stands, in a sentence; the reason of its link, when the chain is shown.
std::string reason(const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  if (g.started_at) return "Started " + words::clock(c, *g.started_at) + ": it stays where it is.";
  for (const ChainLink& link : chain_of(scene)) {
    if (link.glue_up != g.id) continue;
    const Instant start = g.times.stage_begin;
    if (link.because.empty()) return "It starts when it was wanted.";
    return words::not_before(c, {start - Minutes{1}, start, link.because});
  }
  const auto& why = scene.quotes.why(scene.floor, g.id, scene.now);
  if (!why) return words::phase(c, g);
  return words::not_before(c, *why);
}

GlueUpId shown(const Scene& scene) {
  if (scene.view.picked) return scene.view.picked;
  const auto& chain = chain_of(scene);
  return chain.empty() ? GlueUpId{} : chain.front().glue_up;
}

void step_key(Canvas& canvas, Rect& at, const char* id, const char* label, int key, GlueUpId to) {
  canvas.button(at.cut_right(canvas.px(kKeyMm)),
                {.id = id,
                 .label = label,
                 .key_name = std::string(1, static_cast<char>(key)),
                 .keys = {key},
                 .intent = PickBar{to},
                 .look = to ? Look::normal : Look::off});
  at.cut_right(canvas.gap());
}

}  // namespace

const std::vector<ChainLink>& chain_of(const Scene& scene) {
  static const std::vector<ChainLink> none;
  if (scene.view.chain == Chain::hidden) return none;
  const GlueUp* picked = scene.floor.glue_up(scene.view.picked);
  // A pick along the plan's own chain shows that chain; another shows what leads to it.
  const auto& plan = scene.quotes.chain(scene.floor, {}, scene.now);
  if (picked == nullptr || !live(*picked) || on_chain(plan, picked->id)) return plan;
  return scene.quotes.chain(scene.floor, picked->id, scene.now);
}

bool on_chain(const std::vector<ChainLink>& chain, GlueUpId glue_up) {
  return std::any_of(chain.begin(), chain.end(),
                     [&](const ChainLink& l) { return l.glue_up == glue_up; });
}

void chain_marks(Canvas& canvas, const std::vector<ChainLink>& chain,
                 const std::vector<BarPlace>& places) {
  for (std::size_t i = 0; i + 1 < chain.size(); ++i) {
    const Tie tie = nearest(places, chain[i + 1].glue_up, chain[i].glue_up);
    if (tie.from != nullptr) line_between(canvas, tie.from->at, tie.to->at);
  }
  for (const BarPlace& p : places)
    if (on_chain(chain, p.glue_up)) canvas.edge(p.at, Role::text, kOutlineMm, p.line);
}

void picked_marks(Canvas& canvas, GlueUpId picked, const std::vector<BarPlace>& places) {
  if (!picked) return;
  for (const BarPlace& p : places)
    if (p.glue_up == picked) canvas.edge(p.at.inset(-canvas.px(0.4F)), Role::text, kPickedMm);
}

bool says_why(const Scene& scene) {
  return scene.view.chain == Chain::shown || scene.floor.glue_up(scene.view.picked) != nullptr;
}

std::vector<GlueUpId> steps_of(const Scene& scene, const std::vector<BarPlace>& places) {
  std::vector<GlueUpId> out;
  for (const ChainLink& link : chain_of(scene)) out.push_back(link.glue_up);
  if (out.empty())
    for (const BarPlace& p : places)
      if (first_of(places, p.glue_up) == &p) out.push_back(p.glue_up);
  const auto start = [&](GlueUpId id) {
    const GlueUp* g = scene.floor.glue_up(id);
    return std::pair{g == nullptr ? kNever : g->times.stage_begin, id};
  };
  std::sort(out.begin(), out.end(), [&](GlueUpId a, GlueUpId b) { return start(a) < start(b); });
  return out;
}

void key_to_first(Canvas& canvas, const Scene& scene, const std::vector<GlueUpId>& steps,
                  const std::vector<BarPlace>& places) {
  GlueUpId first = steps.empty() ? GlueUpId{} : steps.back();
  for (auto id = steps.rbegin(); id != steps.rend(); ++id)
    if (const GlueUp* g = scene.floor.glue_up(*id); g != nullptr && !g->started_at) first = *id;
  const BarPlace* bar = first_of(places, first);
  if (bar != nullptr) canvas.also_by('K', fmt::format("bar.{}.{}", bar->lane, first.value));
}

void why_strip(Canvas& canvas, Rect at, const Scene& scene, const std::vector<GlueUpId>& steps) {
  canvas.box(at, Role::background);
  Rect row = at.inset(canvas.px(5), canvas.px(2));
  const GlueUpId id = shown(scene);
  const GlueUp* g = scene.floor.glue_up(id);
  if (g == nullptr) {
    canvas.words(row, "Nothing that is planned waits for anything.", Type::title,
                 {Role::muted, Role::background});
    return;
  }
  const auto here = std::find(steps.begin(), steps.end(), id);
  const bool known = here != steps.end();
  step_key(canvas, row, "pick.later", "after", 'K',
           known && here + 1 != steps.end() ? *(here + 1) : GlueUpId{});
  step_key(canvas, row, "pick.earlier", "before", 'J',
           known && here != steps.begin() ? *(here - 1) : GlueUpId{});
  canvas.button(row.cut_right(canvas.px(kKeyMm)), {.id = "open",
                                                   .label = "Open",
                                                   .key_name = "O",
                                                   .keys = {'O'},
                                                   .intent = Go{Screen::card, id}});
  row.cut_right(canvas.gap());
  const words::Context c = scene.context();
  const std::string why = reason(scene, *g);
  const auto lines = static_cast<float>(canvas.letters().wrapped(Type::body, why, row.w, 2).size());
  Rect text = row.middle(row.w, canvas.line_px(Type::strong) + canvas.line_px(Type::body) * lines);
  Rect title = text.cut_top(canvas.line_px(Type::strong));
  if (on_chain(chain_of(scene), id)) {
    const float side = canvas.cap(Type::strong) * 1.5F;
    canvas.icon(look::Glyph::link, title.cut_left(side).middle(side, side), Role::text);
    title.cut_left(canvas.px(2));
  }
  std::string name = words::clock(c, g->times.stage_begin) + " · " + words::title(c, *g) + " · " +
                     words::builder(c, g->builder);
  const auto& chain = chain_of(scene);
  if (!chain.empty() && chain.front().glue_up == id)
    name += fmt::format(" · ready last, {}", words::clock(c, g->times.ready_at));
  canvas.words(title, name, Type::strong, {});
  canvas.paragraph(text, why, Type::body, {Role::text, Role::background}, 2);
}

}  // namespace squeezeout::board
