#include "client/panels/day_model.h"

#include <fmt/format.h>

#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"
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

void day_keys(Canvas& canvas, Rect& strip, const Scene& scene) {
  const float gap = canvas.gap(), width = canvas.px(25);
  const auto key = [&](const char* id, const char* label, char code, int days, Look look) {
    canvas.button(strip.cut_right(width), {.id = id,
                                           .label = label,
                                           .key_name = std::string(1, code),
                                           .keys = {code},
                                           .intent = ShowDay{days},
                                           .look = look});
    strip.cut_right(gap);
  };
  key("day.after", "after", '.', 1, Look::normal);
  key("day.today", "today", '0', 0, scene.view.day == 0 ? Look::chosen : Look::normal);
  key("day.before", "before", ',', -1, Look::normal);
}

std::string against(const std::optional<Seconds>& plan, const std::optional<Seconds>& fact) {
  if (!plan && !fact) return "";
  if (!fact) return words::length(*plan) + " planned";
  if (!plan) return words::length(*fact);
  return words::length(*plan) + " → " + words::length(*fact);
}

void glue_ups(Canvas& canvas, Rect area, const Scene& scene, const DaySheet& sheet, Page page) {
  const words::Context c = scene.context();
  const Ink quiet{Role::muted, Role::background};
  const float open_w = area.w * 0.19F, dwell_w = area.w * 0.25F, late_w = area.w * 0.13F;
  const auto columns = [&](Rect line, const std::string& name, const std::string& open,
                           const std::string& dwell, const std::string& late, Ink name_ink,
                           Ink ink) {
    canvas.words(line.cut_right(late_w), late, Type::body, ink, Align::right);
    canvas.words(line.cut_right(dwell_w), dwell, Type::body, ink, Align::right);
    canvas.words(line.cut_right(open_w), open, Type::body, ink, Align::right);
    line.cut_right(canvas.px(3));
    canvas.words(line, name, Type::strong, name_ink);
  };
  columns(area.cut_top(canvas.px(kLineMm)), "Glue-up", "open", "clamped", "off late", quiet, quiet);
  canvas.box({area.x, area.y, area.w, 1}, Role::edge);
  if (sheet.lines.empty())
    canvas.words(area.cut_top(canvas.px(14)), "Nothing was glued on this day.", Type::title, quiet);
  for (int i = 0; i < page.count; ++i) {
    const DayLine& l = sheet.lines[static_cast<std::size_t>(page.first + i)];
    const GlueUp* g = scene.floor.glue_up(l.glue_up);
    if (g == nullptr) continue;
    const Role ground = i % 2 == 0 ? Role::lane : Role::background;
    const Rect line = area.cut_top(canvas.px(kLineMm));
    canvas.box(line, ground);
    std::string late;
    if (l.release_late && *l.release_late >= Minutes{1})
      late = "+" + words::length(*l.release_late);
    else if (l.release_late)
      late = "on time";
    columns(line.inset(canvas.px(1.5F), 0),
            words::title(c, *g) + " · " + words::initials(c, g->builder),
            against(l.open_planned, l.open_actual), against(l.dwell_planned, l.dwell_actual), late,
            {Role::text, ground}, {Role::text, ground});
  }
}

void gear_use(Canvas& canvas, Rect area, const Scene& scene, const DaySheet& sheet) {
  const Ink quiet{Role::muted, Role::background};
  Rect head = area.cut_top(canvas.px(kLineMm));
  canvas.words(head, "Gear at work", Type::strong, quiet);
  canvas.words(head, "share of opening hours", Type::small, quiet, Align::right);
  canvas.box({area.x, area.y, area.w, 1}, Role::edge);
  std::vector<const KindLine*> busy;
  for (const KindLine& k : sheet.kinds)
    if (k.held > Seconds{0}) busy.push_back(&k);
  std::stable_sort(busy.begin(), busy.end(), [](const KindLine* a, const KindLine* b) {
    return a->utilisation > b->utilisation;
  });
  const int fitting = static_cast<int>(area.h / canvas.px(kLineMm));
  int shown = 0;
  for (const KindLine* k : busy) {
    if (shown == fitting) break;
    ++shown;
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
  if (busy.empty())
    canvas.words(area.cut_top(canvas.px(kLineMm)), "none was held", Type::body, quiet);
}

void list(Canvas& canvas, Rect at, const Scene& scene, const std::string& head,
          const std::vector<NextCall>& calls) {
  const words::Context c = scene.context();
  canvas.words(at.cut_left(canvas.px(44)), head, Type::strong, {Role::muted, Role::background});
  std::string text;
  for (std::size_t i = 0; i < calls.size(); ++i) {
    const GlueUp* g = scene.floor.glue_up(calls[i].glue_up);
    if (g == nullptr) continue;
    const std::string more =
        (text.empty() ? "" : "; ") + words::title(c, *g) + " " + words::clock(c, calls[i].at);
    const std::string tail = fmt::format(" +{}", calls.size() - i);
    if (canvas.width(Type::body, text + more + tail) > at.w) {
      text += tail;
      break;
    }
    text += more;
  }
  canvas.words(at, text.empty() ? "none" : text, Type::body, {});
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

  Rect head = body.cut_top(canvas.px(20));
  day_keys(canvas, head, scene);
  const Rect figures = body.cut_top(canvas.px(10));
  Rect tomorrow = body.cut_bottom(canvas.px(8));
  Rect overnight = body.cut_bottom(canvas.px(8));
  body.cut_bottom(canvas.px(3));
  const int lines = static_cast<int>(sheet.lines.size());
  const Page page =
      page_of(lines, static_cast<int>(body.h / canvas.px(kLineMm)) - 1, scene.view.page);
  page_keys(canvas, head, page, lines);
  canvas.words(head, "Day sheet · " + words::day(c, sheet.span.begin), Type::head, {});
  std::string sums = fmt::format("{} started · {} finished · {} spoiled", sheet.started,
                                 sheet.finished, sheet.spoiled);
  if (sheet.displaced > 0) sums += fmt::format(" · {} lost their place", sheet.displaced);
  sums += " · waited for gear " + words::length(sheet.waited_for_gear);
  canvas.words(figures, sums, Type::title, {Role::muted, Role::background});

  glue_ups(canvas, body.cut_left(body.w * 0.62F), scene, sheet, page);
  body.cut_left(canvas.px(10));
  gear_use(canvas, body, scene, sheet);
  std::vector<NextCall> curing;
  for (const GlueUpId id : sheet.curing_overnight)
    if (const GlueUp* g = scene.floor.glue_up(id)) curing.push_back({g->times.ready_at, id});
  list(canvas, overnight, scene, "Curing overnight", curing);
  list(canvas, tomorrow, scene, "First tomorrow", sheet.first_tomorrow);
  return canvas.take();
}

}  // namespace squeezeout::panels
