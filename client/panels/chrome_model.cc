#include "client/panels/chrome_model.h"

#include <fmt/format.h>

#include "client/panels/alarm_strip.h"
#include "client/view/next.h"
#include "client/words/say.h"

namespace squeezeout::panels {
namespace {

using look::Align;
using look::Button;
using look::Canvas;
using look::Fill;
using look::Glyph;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kMarginMm = 5;

struct Tab {
  Screen screen;
  const char* label;
  int key;
};
constexpr Tab kTabs[] = {{Screen::bench, "Bench", '1'},     {Screen::board, "Board", '2'},
                         {Screen::gear, "Gear", '3'},       {Screen::snags, "Snags", '4'},
                         {Screen::day, "Day", '5'},         {Screen::air, "Air", '6'},
                         {Screen::what_if, "What if", '7'}, {Screen::setup, "Set-up", '8'}};

// The bar above and the foot below: a key, and 2.5 mm of glass around it.
float bar_px(const Canvas& canvas) { return canvas.touch() + canvas.gap(); }
Rect keys_in(const Canvas& canvas, Rect bar) { return bar.inset(canvas.gap(), canvas.gap() / 2); }

// As they are known to be: none while nobody is heard.
int snags(const Scene& scene) {
  if (!scene.floor.shop || scene.stale()) return 0;
  int n = static_cast<int>(scene.quotes.at_risk(scene.floor, scene.now).size());
  for (const auto& [id, g] : scene.floor.glue_ups)
    n += g.progress == Progress::displaced || moved_by_weather(g) ? 1 : 0;
  return n;
}

// The tab of a screen that has none of its own.
Screen tab_of(const View& view) {
  const Screen s = view.screen;
  if (s == Screen::plan)
    return view.plan == plan_ahead::Task::repair ? Screen::snags : Screen::board;
  const bool of_bench = s == Screen::reserve || s == Screen::card || s == Screen::figures;
  return of_bench ? Screen::bench : s;
}

// Screens with a way back of their own; help has one too.
bool has_escape(const View& view) {
  return view.help == Help::open || view.screen == Screen::figures || view.screen == Screen::plan ||
         (view.screen == Screen::board && view.other_time);
}

void tabs(Canvas& canvas, const Scene& scene, Rect bar) {
  constexpr float count = std::size(kTabs);
  const float width = std::min((bar.w + canvas.gap()) / count - canvas.gap(), canvas.px(31));
  const int open_snags = snags(scene);
  for (const Tab& tab : kTabs) {
    if (!scene.floor.shop && tab.screen != Screen::setup) continue;  // there is nothing to see yet
    const Rect at = bar.cut_left(width);
    bar.cut_left(canvas.gap());
    Button b{.id = fmt::format("tab.{}", to_string(tab.screen))};
    b.keys = {tab.key};
    b.key_name = std::string(1, static_cast<char>(tab.key));
    b.label = words::tr(tab.label);
    if (tab.screen == Screen::bench && !has_escape(scene.view)) b.keys.push_back(look::kEscape);
    b.intent = Go{tab.screen, {}};
    if (tab_of(scene.view) == tab.screen)
      b.look = Look::chosen;
    else if (tab.screen == Screen::snags && open_snags > 0)
      b.look = Look::act;
    if (tab.screen == Screen::snags && open_snags > 0) b.label = words::say("Snags {}", open_snags);
    b.on = Role::lane;
    canvas.button(at, std::move(b));
  }
}

void link(Canvas& canvas, const Scene& scene, Rect at) {
  const bool live = scene.link == Link::live;
  std::string words = link_words(scene);
  if (live && scene.floor.shop)
    words += " · " + words::degrees_whole(scene.context(), scene.floor.climate.air);
  const Rect text = canvas.words(at, words, Type::strong,
                                 {live ? Role::muted : Role::text, Role::lane}, Align::right);
  if (live) {
    const float side = canvas.cap(Type::strong) * 1.2F;
    canvas.icon(Glyph::tick, Rect{text.x - side * 1.5F, at.y, side, at.h}.middle(side, side),
                Role::muted);
  }
}

void help_key(Canvas& canvas, const Scene& scene, Rect at) {
  const bool open = scene.view.help == Help::open;
  canvas.button(at, {.id = "help",
                     .label = "?",
                     .key_name = "F1",
                     .keys = {look::kF1},
                     .intent = ShowHelp{open ? Help::closed : Help::open},
                     .look = open ? Look::chosen : Look::normal,
                     .on = Role::lane});
}

// What Undo takes back here. A plan wherever plans are looked at, and where it was accepted last.
std::optional<UndoKey> undo_here(const Scene& scene) {
  const View& view = scene.view;
  const GlueUpId pressed = view.screen == Screen::card ? view.glue_up : view.touched;
  const PlanRecord* plan = last_plan(scene.floor, scene.now);
  const GlueUp* g = scene.floor.glue_up(pressed);
  const bool plans =
      view.screen == Screen::plan || view.screen == Screen::snags || view.screen == Screen::board;
  const bool shown =
      plan != nullptr && (plans || (view.adopted == plan->id && view.screen != Screen::card));
  if (shown && (g == nullptr || g->pressed_at <= plan->at))
    return UndoKey{words::tr("Undo plan"), UndoPlan{plan->id}};
  return undo_key(scene.floor, pressed);
}

// Returns the place that is left when there is no message.
Rect foot(Canvas& canvas, const Scene& scene, Rect at) {
  canvas.box(at, Role::lane);
  Rect line = keys_in(canvas, at);
  if (const auto undo = undo_here(scene)) {
    const Rect key = line.cut_right(canvas.px(46));
    canvas.button(key, {.id = "undo",
                        .label = undo->label,
                        .key_name = "U",
                        .keys = {'U'},
                        .intent = Ask{undo->body},
                        .on = Role::lane});
    line.cut_right(canvas.gap());
  }
  if (alarm_takes_the_foot(scene)) {
    alarm_strip(canvas, scene, line);
    return {};
  }
  if (const auto& message = scene.view.message) {
    if (message->fix) {
      const Rect key = line.cut_right(canvas.px(46));
      canvas.button(key, {.id = "fix",
                          .label = message->fix_label,
                          .key_name = "T",
                          .keys = {'T'},
                          .intent = *message->fix,
                          .look = Look::act,
                          .on = Role::lane});
      line.cut_right(canvas.gap());
    }
    if (message->tone == Message::Tone::refused) {
      const float side = canvas.cap(Type::title) * 1.7F;
      canvas.warn_tag(line.cut_left(side).middle(side, side));
      line.cut_left(canvas.px(3));
    }
    const auto lines = [&](const std::string& text, Type type) {
      return static_cast<float>(canvas.letters().wrapped(type, text, line.w, 2).size()) *
             canvas.line_px(type);
    };
    const float tall = lines(message->what, Type::strong) + lines(message->why, Type::body);
    Rect text = line.middle(line.w, std::min(line.h, tall));
    text.cut_top(canvas.paragraph(text, message->what, Type::strong, {Role::text, Role::lane}, 2));
    if (!message->why.empty())
      canvas.paragraph(text, message->why, Type::body, {Role::muted, Role::lane}, 2);
    return {};
  }
  return line;
}

}  // namespace

std::string link_words(const Scene& scene) {
  switch (scene.link) {
    case Link::live:
      return words::tr("LIVE");
    case Link::late:
      return words::say("{} s late", scene.silent.count());
    case Link::not_live:
      return words::tr("NOT LIVE");
    case Link::connecting:
      return words::tr("connecting");
  }
  return {};
}

Rect banner(Canvas& canvas, const Scene& scene, Rect area, Type type) {
  if (!scene.stale()) return area;
  Rect strip = area.cut_top(canvas.cap(type) * 2.6F);
  canvas.box(strip, Role::text);
  const std::string words = scene.link == Link::connecting
                                ? words::tr("NOT LIVE · connecting · times below are plans")
                                : words::say("NOT LIVE since {} · times below are plans",
                                             words::clock(scene.context(), scene.last_heard()));
  canvas.words(strip.inset(canvas.px(kMarginMm), 0), words, type, {Role::background, Role::text});
  return area;
}

Chrome chrome(Canvas& canvas, const Scene& scene) {
  Rect area = canvas.screen();
  canvas.box(area, Role::background);
  const Rect top = area.cut_top(bar_px(canvas));
  canvas.box(top, Role::lane);
  Rect bar = keys_in(canvas, top);
  const bool wide = bar.w > canvas.px(440);
  help_key(canvas, scene, bar.cut_right(canvas.touch()));
  bar.cut_right(canvas.gap());
  const words::Context c = scene.context();
  // Without a shop there is no zone to tell the time in.
  const std::string clock = scene.floor.shop ? words::clock_only(c, scene.now) : std::string();
  const std::string day = scene.floor.shop ? words::day(c, scene.now) : std::string();
  const Type large = wide ? Type::big : Type::head;
  // The clock, the day and the link: beside each other, or the small two below the large one.
  Rect right = bar.cut_right(wide ? canvas.width(large, clock) + canvas.width(Type::title, day) +
                                        canvas.px(54)
                                  : std::max(canvas.width(large, clock), canvas.px(40)));
  if (wide) {
    link(canvas, scene, right.cut_right(canvas.px(44)));
    canvas.words(right.cut_right(canvas.width(large, clock)), clock, large,
                 {Role::text, Role::lane}, Align::right);
    right.cut_right(canvas.px(5));
    canvas.words(right, day, Type::title, {Role::muted, Role::lane}, Align::right);
  } else {
    canvas.words(right.cut_top(right.h * 0.5F), clock, large, {Role::text, Role::lane},
                 Align::right);
    link(canvas, scene, right);
  }
  bar.cut_right(canvas.px(4));
  tabs(canvas, scene, bar);
  area = banner(canvas, scene, area, Type::head);
  const Rect left = foot(canvas, scene, area.cut_bottom(bar_px(canvas)));
  return {area.inset(std::min(canvas.px(kMarginMm), canvas.gap() * 1.4F)), left};
}

Rect chrome_with_hint(Canvas& canvas, const Scene& scene) {
  const Chrome c = chrome(canvas, scene);
  std::string hint = words::tr("Space is the big key. Esc goes back.");
  if (scene.facts_waiting > 0)
    hint = words::say_n(scene.facts_waiting,
                        "{} press is not sent yet: kept here and sent when the server is back.",
                        "{} presses are not sent yet: kept here and sent when the server is back.");
  if (!c.foot.empty()) canvas.words(c.foot, hint, Type::body, {Role::muted, Role::lane});
  return c.body;
}

look::Frame lay_out_waiting(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  canvas.box(canvas.screen(), Role::background);
  Rect text = canvas.screen().middle(canvas.screen().w * 0.7F, canvas.px(60));
  canvas.words(text.cut_top(canvas.px(20)), words::tr("Waiting for the server"), Type::big, {});
  canvas.paragraph(text,
                   scene.trouble.empty()
                       ? words::tr("Connecting. The floor shows as soon as it answers.")
                       : scene.trouble,
                   Type::title, {Role::muted, Role::background}, 4);
  return canvas.take();
}

}  // namespace squeezeout::panels
