#include "client/panels/day_model.h"

#include <fmt/format.h>

#include <algorithm>

#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"
#include "client/panels/room.h"
#include "client/words/say.h"
#include "common/report/day.h"

namespace squeezeout::panels {
namespace {

using look::Align;
using look::Canvas;
using look::Ink;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kLineMm = 9;
constexpr Ink kQuiet{Role::muted, Role::background};

void day_keys(Canvas& canvas, Rect& strip, const Scene& scene) {
  const bool few_words = narrow(canvas);
  const float gap = canvas.gap(), width = std::max(canvas.touch(), canvas.px(few_words ? 17 : 25));
  const auto key = [&](const char* id, const std::string& label, char code, int days, Look look) {
    canvas.button(strip.cut_right(width), {.id = id,
                                           .label = label,
                                           .key_name = std::string(1, code),
                                           .keys = {code},
                                           .intent = ShowDay{days},
                                           .look = look});
    strip.cut_right(gap);
  };
  key("day.after", words::tr("after"), '.', 1, Look::normal);
  key("day.today", words::tr("today"), '0', 0, scene.view.day == 0 ? Look::chosen : Look::normal);
  key("day.before", words::tr("before"), ',', -1, Look::normal);
}

std::string against(const std::optional<Seconds>& plan, const std::optional<Seconds>& fact) {
  if (!plan && !fact) return "";
  if (!fact) return words::say("{} planned", words::length(*plan));
  if (!plan) return words::length(*fact);
  return words::length(*plan) + " → " + words::length(*fact);
}

std::string late_words(const DayLine& l) {
  if (!l.release_late) return "";
  if (*l.release_late < Minutes{1}) return words::tr("on time");
  return "+" + words::length(*l.release_late);
}

void glue_ups(Canvas& canvas, Rect area, const Scene& scene, const DaySheet& sheet, Page page) {
  const words::Context c = scene.context();
  const float open_w = area.w * 0.18F, dwell_w = area.w * 0.24F, late_w = area.w * 0.13F;
  struct Line {
    std::vector<std::string> name;
    std::string open, dwell, late;
  };
  const auto columns = [&](Rect at, const Line& line, Ink name_ink, Ink ink) {
    canvas.words(at.cut_right(late_w), line.late, Type::body, ink, Align::right);
    at.cut_right(canvas.px(2));
    canvas.words(at.cut_right(dwell_w - canvas.px(2)), line.dwell, Type::body, ink, Align::right);
    at.cut_right(canvas.px(2));
    canvas.words(at.cut_right(open_w - canvas.px(2)), line.open, Type::body, ink, Align::right);
    at.cut_right(canvas.px(3));
    canvas.one_of(at, line.name, Type::strong, name_ink);
  };
  columns(area.cut_top(canvas.px(kLineMm)),
          {{words::tr("Glue-up")}, words::tr("open"), words::tr("clamped"), words::tr("off late")},
          kQuiet, kQuiet);
  canvas.box({area.x, area.y, area.w, 1}, Role::edge);
  if (sheet.lines.empty())
    canvas.paragraph(area,
                     scene.view.day > 0 ? words::tr("Nothing is glued yet on this day.")
                                        : words::tr("Nothing was glued on this day."),
                     Type::title, kQuiet, 2);
  for (int i = 0; i < page.count; ++i) {
    const DayLine& l = sheet.lines[static_cast<std::size_t>(page.first + i)];
    const GlueUp* g = scene.floor.glue_up(l.glue_up);
    if (g == nullptr) continue;
    const Role ground = i % 2 == 0 ? Role::lane : Role::background;
    const Rect line = area.cut_top(canvas.px(kLineMm));
    canvas.box(line, ground);
    const std::string title = words::title(c, *g), who = words::initials(c, g->builder);
    const std::string recipe = words::recipe(c, g->recipe);
    columns(line.inset(canvas.px(1.5F), 0),
            {{title + " · " + who, title, recipe + " · " + who, recipe},
             against(l.open_planned, l.open_actual),
             against(l.dwell_planned, l.dwell_actual),
             late_words(l)},
            {Role::text, ground}, {Role::text, ground});
  }
}

void gear_use(Canvas& canvas, Rect area, const Scene& scene, const DaySheet& sheet) {
  Rect head = area.cut_top(canvas.px(kLineMm));
  canvas.words(head.cut_left(head.w * 0.45F), words::tr("Gear at work"), Type::strong, kQuiet);
  canvas.words(head, words::tr("held, of opening hours"), Type::small, kQuiet, Align::right);
  canvas.box({area.x, area.y, area.w, 1}, Role::edge);
  std::vector<const KindLine*> busy;
  for (const KindLine& k : sheet.kinds)
    if (k.held > Seconds{0}) busy.push_back(&k);
  std::stable_sort(busy.begin(), busy.end(), [](const KindLine* a, const KindLine* b) {
    return a->utilisation > b->utilisation;
  });
  const int fitting = static_cast<int>(area.h / canvas.px(kLineMm));
  const int all = static_cast<int>(busy.size());
  const int shown = all <= fitting ? all : std::max(0, fitting - 1);
  for (int i = 0; i < shown; ++i) {
    const KindLine* k = busy[static_cast<std::size_t>(i)];
    Rect line = area.cut_top(canvas.px(kLineMm));
    const std::string share = fmt::format("{:.0f} %", k->utilisation * 100);
    canvas.words(line.cut_right(canvas.width(Type::body, "000 %") + 1), share, Type::body, {},
                 Align::right);
    line.cut_right(canvas.px(3));
    Rect bar = line.cut_right(line.w * 0.36F).inset(0, canvas.px(2.6F));
    canvas.box(bar, Role::lane);
    canvas.box({bar.x, bar.y, bar.w * static_cast<float>(std::min(1.0, k->utilisation)), bar.h},
               Role::clamped);
    line.cut_right(canvas.px(3));
    canvas.words(line, scene.floor.kind(k->kind)->name, Type::body, {});
  }
  if (shown < all)
    canvas.words(area.cut_top(canvas.px(kLineMm)), words::say("+{} more", all - shown), Type::body,
                 kQuiet);
  if (busy.empty())
    canvas.words(area.cut_top(canvas.px(kLineMm)), words::tr("none was held"), Type::body, kQuiet);
}

// As many as stand on the line, and how many more there are.
void list(Canvas& canvas, Rect at, const Scene& scene, const std::string& head,
          const std::vector<NextCall>& calls) {
  const words::Context c = scene.context();
  canvas.words(at.cut_left(std::max(canvas.px(44), canvas.width(Type::small, head) + 1)), head,
               Type::strong, kQuiet);
  at.cut_left(canvas.px(3));
  const auto said = [&](bool full) {
    std::string text;
    for (std::size_t i = 0; i < calls.size(); ++i) {
      const GlueUp* g = scene.floor.glue_up(calls[i].glue_up);
      if (g == nullptr) continue;
      const std::string more = (text.empty() ? "" : "; ") +
                               (full ? words::title(c, *g) : words::recipe(c, g->recipe)) + " " +
                               words::clock(c, calls[i].at);
      const std::string tail = fmt::format(" +{}", calls.size() - i);
      const bool last = i + 1 == calls.size();
      if (canvas.width(Type::body, text + more + (last ? "" : tail)) > at.w) return text + tail;
      text += more;
    }
    return text;
  };
  std::string text = said(true);
  if (text.starts_with(" +")) text = said(false);
  canvas.words(at, text.empty() ? words::tr("none") : text, Type::body, {});
}

// The first figures that stand on the line.
std::string sums_words(const Canvas& canvas, float width, const DaySheet& sheet) {
  std::vector<std::string> pieces{words::say("{} started", sheet.started),
                                  words::say("{} finished", sheet.finished),
                                  words::say("{} spoiled", sheet.spoiled)};
  if (sheet.displaced > 0) pieces.push_back(words::say("{} lost their place", sheet.displaced));
  if (sheet.waited_for_gear > Seconds{0})
    pieces.push_back(words::say("waited for gear {}", words::length(sheet.waited_for_gear)));
  return pieces_that_fit(canvas, Type::small, width, pieces);
}

}  // namespace

look::Frame lay_out_day(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = chrome_with_hint(canvas, scene);
  if (!scene.floor.zone || !scene.floor.shop) return canvas.take();
  const words::Context c = scene.context();
  const Date today = scene.floor.zone->date(scene.now);
  const Date date{std::chrono::sys_days{today} + std::chrono::days{scene.view.day}};
  const DaySheet sheet = day_sheet(scene.floor, date, scene.now);

  const bool few = narrow(canvas);
  Rect head = body.cut_top(canvas.touch());
  day_keys(canvas, head, scene);
  const Rect figures = body.cut_top(canvas.px(few ? 8 : 10));
  const Rect tomorrow = body.cut_bottom(canvas.px(8));
  const Rect overnight = body.cut_bottom(canvas.px(8));
  body.cut_bottom(canvas.px(few ? 1 : 3));
  // With little room, the gear has a page of its own behind the glue-ups.
  const int lines = static_cast<int>(sheet.lines.size());
  const int fitting = std::max(1, static_cast<int>(body.h / canvas.px(kLineMm)) - 1);
  const int table_pages = std::max(1, (lines + fitting - 1) / fitting);
  Page page = page_of(lines, fitting, scene.view.page);
  const bool gear_page = few && scene.view.page >= table_pages;
  int beyond = lines;
  if (few) {
    page.pages = table_pages + 1;
    beyond = lines + 1;
    if (gear_page) page = {lines, 1, table_pages + 1, table_pages, scene.view.page};
  }
  page_keys(canvas, head, page, beyond);
  const std::string day = words::day(c, sheet.span.begin);
  canvas.one_of(head, {words::say("Day sheet · {}", day), day}, Type::head, {});
  canvas.words(figures, sums_words(canvas, figures.w, sheet), Type::title, kQuiet);

  if (!gear_page) glue_ups(canvas, few ? body : body.cut_left(body.w * 0.62F), scene, sheet, page);
  if (!few) body.cut_left(canvas.px(10));
  if (!few || gear_page) gear_use(canvas, body, scene, sheet);
  std::vector<NextCall> curing;
  for (const GlueUpId id : sheet.curing_overnight)
    if (const GlueUp* g = scene.floor.glue_up(id)) curing.push_back({g->times.ready_at, id});
  list(canvas, overnight, scene, words::tr("Curing overnight"), curing);
  list(canvas, tomorrow, scene, words::tr("First tomorrow"), sheet.first_tomorrow);
  return canvas.take();
}

}  // namespace squeezeout::panels
