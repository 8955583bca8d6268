#include "client/board/why_model.h"

#include <fmt/format.h>

#include <algorithm>

#include "client/board/controls_model.h"
#include "client/board/lane_model.h"
#include "client/panels/room.h"
#include "client/words/say.h"
#include "client/words/why.h"

namespace squeezeout::board {
namespace {

using look::Canvas;
using look::Ink;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

constexpr Minutes kAMoment{1};  // starts are whole minutes

// Where it stands, in a sentence; the reason of its link, when the chain is shown.
std::string reason(const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  if (g.started_at)
    return words::say("Started {}: it stays where it is.", words::clock(c, *g.started_at));
  if (g.progress == Progress::displaced) {
    const std::string snag = words::snag(c, g);
    return snag.empty() ? words::phase(c, g) : words::say("It {}.", snag);
  }
  const Instant start = g.times.stage_begin;
  for (const ChainLink& link : chain_of(scene))
    if (link.glue_up == g.id && !link.because.empty())
      return words::not_before(c, {start - kAMoment, start, link.because});
  if (std::string weather = words::weather(c, g); moved_by_weather(g) && !weather.empty())
    return words::say("The weather: {}.", weather);
  if (start <= g.wanted_from + kAMoment) return words::tr("It starts when it was wanted.");
  const auto& why = scene.quotes.why(scene.floor, g.id, scene.now);
  if (!why) return words::phase(c, g);
  if (why->start && *why->start + kAMoment < start)
    return words::say("It was put there: nothing holds it back, {} can be had.",
                      words::clock(c, *why->start));
  if (why->blockers.empty()) return words::tr("It starts as soon as it can.");
  return words::not_before(c, *why);
}

GlueUpId told_of(const Scene& scene) {
  if (scene.view.picked) return scene.view.picked;
  const auto& chain = chain_of(scene);
  return chain.empty() ? GlueUpId{} : chain.front().glue_up;
}

std::string heading(const Scene& scene, const GlueUp& g) {
  const words::Context c = scene.context();
  const auto& chain = chain_of(scene);
  const auto& plan = scene.quotes.chain(scene.floor, {}, scene.now);
  std::string out = fmt::format("{} · {} · {}", words::clock(c, span_on_board(scene, g).begin),
                                words::title(c, g), words::builder(c, g.builder));
  if (!chain.empty() && !plan.empty() && plan.front().glue_up == g.id)
    out += " · " + words::say("ready last, {}", words::clock(c, g.times.ready_at));
  return out;
}

// From the right: what is beside the text.
class Keys {
 public:
  Keys(Canvas& canvas, Rect& row) : canvas_(canvas), row_(row) {}
  void add(const char* id, std::string label, int key, Intent intent, Look look = Look::normal) {
    const float width = panels::narrow(canvas_) ? 0 : canvas_.px(24);
    const Rect at = row_.cut_right(std::max(width, key_px(canvas_, label)));
    canvas_.button(at.middle(at.w, canvas_.touch()),
                   {.id = id,
                    .label = std::move(label),
                    .key_name = std::string(1, static_cast<char>(key)),
                    .keys = {key},
                    .intent = std::move(intent),
                    .look = look});
    row_.cut_right(canvas_.gap());
  }

 private:
  Canvas& canvas_;
  Rect& row_;
};

}  // namespace

bool says_why(const Scene& scene) {
  return scene.view.chain == Chain::shown || scene.floor.glue_up(scene.view.picked) != nullptr;
}

float why_px(const Canvas& canvas) {
  const float text = canvas.line_px(Type::strong) + 2 * canvas.line_px(Type::small);
  return std::max(canvas.touch(), text) + canvas.px(3);
}

Neighbours neighbours_of(const Scene& scene, GlueUpId id) {
  const GlueUp* at = scene.floor.glue_up(id);
  if (at == nullptr) return {};
  const auto key = [&](const GlueUp& g) { return std::pair{span_on_board(scene, g).begin, g.id}; };
  const auto here = key(*at);
  const GlueUp* before = nullptr;
  const GlueUp* after = nullptr;
  const auto look = [&](const GlueUp& g) {
    const auto k = key(g);
    if (k < here && (before == nullptr || k > key(*before))) before = &g;
    if (k > here && (after == nullptr || k < key(*after))) after = &g;
  };
  const auto& chain = chain_of(scene);
  for (const ChainLink& link : chain)
    if (const GlueUp* g = scene.floor.glue_up(link.glue_up)) look(*g);
  if (chain.empty())
    for (const auto& [other, g] : scene.floor.glue_ups)
      if (on_board(scene, g)) look(g);
  return {before ? before->id : GlueUpId{}, after ? after->id : GlueUpId{}};
}

void key_to_first(Canvas& canvas, const Scene& scene, const Places& places) {
  const BarPlace* first = nullptr;
  Instant start = kNever;
  for (const BarPlace& p : places.all()) {
    const GlueUp* g = scene.floor.glue_up(p.glue_up);
    if (g == nullptr || g->progress != Progress::reserved || g->times.stage_begin >= start)
      continue;
    first = &p, start = g->times.stage_begin;
  }
  if (first != nullptr)
    canvas.also_by('K', fmt::format("bar.{}.{}", first->lane, first->glue_up.value));
}

void why_strip(Canvas& canvas, Rect at, const Scene& scene, const Outlook& here) {
  canvas.box(at, Role::background);
  Rect row = at.inset(canvas.gap(), 0);
  row = row.middle(row.w, at.h - canvas.px(3));
  const GlueUpId id = told_of(scene);
  const GlueUp* g = scene.floor.glue_up(id);
  if (g == nullptr) {
    canvas.words(row, words::tr("Nothing that is planned waits for anything."), Type::title,
                 {Role::muted, Role::background});
    return;
  }
  Outlook there = here;
  there.find = Outlook::Find::bar;
  const Neighbours beside = neighbours_of(scene, id);
  const auto look_if = [](bool can) { return can ? Look::normal : Look::off; };
  Keys keys{canvas, row};
  keys.add("pick.later", words::tr("after"), 'K', PickBar{beside.after, there},
           look_if(bool{beside.after}));
  keys.add("pick.earlier", words::tr("before"), 'J', PickBar{beside.before, there},
           look_if(bool{beside.before}));
  const auto& chain = chain_of(scene);
  if (const auto& plan = scene.quotes.chain(scene.floor, {}, scene.now);
      !chain.empty() && !plan.empty()) {
    const GlueUpId last = plan.front().glue_up;
    keys.add("pick.last", words::tr(panels::narrow(canvas) ? "Last" : "What is last"), 'L',
             PickBar{last, there}, look_if(last != scene.view.picked));
  }
  if (g->progress == Progress::reserved || g->progress == Progress::displaced)
    keys.add("other_time", words::tr("Other time"), 'M',
             OtherTime{id, std::max(scene.now, span_on_board(scene, *g).begin), there});
  keys.add("open", words::tr("Open"), 'O', Go{Screen::card, id});

  const std::string why = reason(scene, *g);
  const int most = std::max(
      1, static_cast<int>((row.h - canvas.line_px(Type::strong)) / canvas.line_px(Type::small)));
  const auto lines =
      static_cast<float>(canvas.letters().wrapped(Type::body, why, row.w, most).size());
  Rect text = row.middle(
      row.w, std::min(row.h, canvas.line_px(Type::strong) + canvas.line_px(Type::body) * lines));
  Rect title = text.cut_top(canvas.line_px(Type::strong));
  if (on_chain(chain, id)) {
    const float side = canvas.cap(Type::strong) * 1.5F;
    canvas.icon(look::Glyph::link, title.cut_left(side).middle(side, side), Role::text);
    title.cut_left(canvas.px(2));
  }
  const words::Context c = scene.context();
  canvas.one_of(
      title,
      {heading(scene, *g),
       fmt::format("{} · {}", words::clock(c, span_on_board(scene, *g).begin), words::title(c, *g)),
       words::title(c, *g)},
      Type::strong, {});
  canvas.paragraph(text, why, Type::body, {Role::text, Role::background}, most);
}

}  // namespace squeezeout::board
