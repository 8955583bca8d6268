#include "client/board/other_time_model.h"

#include <fmt/format.h>

#include <algorithm>

#include "client/board/controls_model.h"
#include "client/board/label_model.h"
#include "client/panels/room.h"
#include "client/words/say.h"

namespace squeezeout::board {
namespace {

using look::Align;
using look::Canvas;
using look::Ink;
using look::Look;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kFreeMm = 5.5F, kGhostMm = 8.5F, kPadMm = 1.5F;
constexpr int kTriesAFrame = 24;  // some milliseconds on a floor in full work

Instant to_quarter(Instant t, Seconds by) {
  const Seconds past = t.time_since_epoch() % kStartGrid;
  if (past == Seconds{0}) return t + by;
  return by > Seconds{0} ? t - past + kStartGrid : t - past;
}

// The same time of the clock on another day.
Instant days_later(const Zone& zone, Instant t, int days) {
  return zone.instant(zone.local(t) + std::chrono::days{days});
}

std::vector<GlueUpId> holders(const Hindrance& h) {
  std::vector<GlueUpId> out;
  const auto add = [&](GlueUpId id) {
    if (id) out.push_back(id);
  };
  if (const auto* gear = std::get_if<GearShort>(&h.fact))
    for (const HeldBy& by : gear->holders)
      if (by.holder.what == Holder::What::glue_up) add(GlueUpId{by.holder.id});
  if (const auto* busy = std::get_if<BuilderBusy>(&h.fact)) add(busy->with);
  if (const auto* before = std::get_if<NotReadyYet>(&h.fact)) add(before->waits_for);
  if (const auto* heat = std::get_if<BesideHeat>(&h.fact)) add(heat->with);
  if (const auto* bench = std::get_if<BenchBusy>(&h.fact)) add(bench->with);
  return out;
}

// Both sides of what is laid in a lane, clear of the now line.
Rect clear_of(Rect at, float now_x) {
  if (now_x + 5 <= at.x || now_x - 5 >= at.right()) return at;
  const Rect left{at.x, at.y, now_x - 5 - at.x, at.h};
  const Rect right{now_x + 5, at.y, at.right() - now_x - 5, at.h};
  return left.w > right.w ? left : right;
}

void first_that_fits(Canvas& canvas, Rect at, const std::vector<std::string>& forms, Type type,
                     Ink ink) {
  for (const std::string& form : forms)
    if (const float width = canvas.width(type, form); width <= at.w) {
      canvas.box({at.x - 1, at.y, width + 2, at.h}, ink.on);
      canvas.words(at, form, type, ink);
      return;
    }
}

// Where the stretch after this moment begins, as far as it has been worked out.
std::optional<Instant> next_stretch(const Scene& scene, Instant after) {
  for (const Span& s : scene.quotes.free_starts().stretches())
    if (s.begin > after) return s.begin;
  return std::nullopt;
}

// "8:00 to 12:45"; of one that goes on past what has been worked out only from when. The longest first.
std::vector<std::string> stretch_words(const words::Context& c, const Span& s, Instant known_to) {
  const std::string from = words::clock_only(c, s.begin);
  if (s.end >= known_to) return {words::say("from {}", from), from};
  const Instant last = last_start(s);
  if (last == s.begin) return {from};
  return {words::say("{} to {}", from, words::clock_only(c, last)), from};
}

std::string verdict(const Scene& scene, const Sought& s) {
  const words::Context c = scene.context();
  if (s.fits()) {
    const PhaseTimes t = s.times();
    return words::say("It fits: off about {}, ready {}.", words::clock(c, t.release_begin),
                      words::clock(c, t.ready_at));
  }
  const words::Told told =
      words::refusal(c, Move{s.glue_up->id, s.wish, Override::no}, s.answer.error());
  return told.why.empty() ? told.what : told.why;
}

}  // namespace

PhaseTimes Sought::times() const {
  if (answer) return answer->slot.times;
  PhaseTimes t = glue_up->times;
  const Seconds by = wish - t.stage_begin;
  for (Instant* at : {&t.stage_begin, &t.open_begin, &t.clamped_begin, &t.release_begin,
                      &t.release_end, &t.ready_at})
    *at += by;
  return t;
}

std::optional<Instant> Sought::can() const {
  if (answer) return wish;
  const auto* no = std::get_if<DoesNotFit>(&answer.error());
  if (no == nullptr || !no->next) return std::nullopt;
  return no->next->times.stage_begin;
}

std::vector<GlueUpId> Sought::in_the_way() const {
  std::vector<GlueUpId> out;
  if (answer) return out;
  if (const auto* no = std::get_if<DoesNotFit>(&answer.error()))
    for (const Hindrance& h : no->why)
      for (const GlueUpId id : holders(h))
        if (std::find(out.begin(), out.end(), id) == out.end()) out.push_back(id);
  return out;
}

std::optional<Sought> sought_of(const Scene& scene) {
  const auto& asked = scene.view.other_time;
  const GlueUp* g = asked ? scene.floor.glue_up(asked->glue_up) : nullptr;
  if (g == nullptr || !movable(*g)) return std::nullopt;
  const Instant wish = std::max(asked->wish, Instant{std::chrono::ceil<Minutes>(scene.now)});
  return Sought{g, wish, scene.quotes.at(scene.floor, g->id, wish, scene.now)};
}

look::Frame::Work find_stretches(const Scene& scene, const Sought& sought, Span window) {
  FreeStarts& free = scene.quotes.free_starts();
  window.begin = std::max(window.begin, scene.now);
  if (window.empty()) return look::Frame::Work::done;
  free.look(scene.floor, sought.glue_up->id, window, scene.now, kTriesAFrame);
  return free.knows(window) ? look::Frame::Work::done : look::Frame::Work::more;
}

float ghost_lane_px(const Canvas& canvas) { return canvas.px(kFreeMm + kGhostMm + 3 * kPadMm); }

void ghost_lane(Canvas& canvas, Rect header, Rect lane, const Scene& scene, const Sought& sought,
                const TimeAxis& axis, float now_x) {
  const words::Context c = scene.context();
  canvas.box({header.x, header.y, header.w + lane.w, lane.h}, Role::panel);
  Rect text = header.inset(canvas.px(2), 0);
  text = text.middle(text.w, canvas.line_px(Type::strong) + canvas.line_px(Type::small));
  canvas.words(text.cut_top(canvas.line_px(Type::strong)), words::tr("Other time"), Type::strong,
               {Role::text, Role::panel});
  canvas.words(text, words::tr("when it can start"), Type::small, {Role::muted, Role::panel});

  lane.cut_top(canvas.px(kPadMm));
  const Rect free = lane.cut_top(canvas.px(kFreeMm));
  lane.cut_top(canvas.px(kPadMm));
  const Rect row = lane.cut_top(canvas.px(kGhostMm));
  for (const Span& s : scene.quotes.free_starts().stretches()) {
    const float x0 = axis.x(s.begin);
    const Rect at = Rect{x0, free.y, std::max(axis.x(s.end) - x0, 2.0F), free.h}.intersect(free);
    if (at.empty()) continue;
    canvas.box(at, Role::clamped);
    const Rect room = clear_of(at.inset(canvas.px(1), 1), now_x);
    first_that_fits(canvas, room, stretch_words(c, s, scene.quotes.free_starts().known_to()),
                    Type::small, {Role::on_clamped, Role::clamped});
  }
  const PhaseTimes t = sought.times();
  const float x0 = axis.x(t.stage_begin);
  const Rect ghost =
      Rect{x0, row.y, std::max(axis.x(t.release_end) - x0, canvas.px(1)), row.h}.intersect(row);
  if (ghost.empty()) return;
  canvas.edge(ghost, sought.fits() ? Role::text : Role::amber, 0.9F,
              ghost.w >= kIconPx ? look::Line::dashed : look::Line::solid);
  // A stem up to the moment it starts at.
  if (x0 >= row.x) canvas.box({x0, free.bottom(), 2, row.y - free.bottom()}, Role::text);
  Rect room = clear_of(ghost.inset(canvas.px(1.5F), canvas.px(1.2F)), now_x);
  if (!sought.fits() && room.w >= room.h) {
    canvas.warn_tag(room.cut_left(room.h));
    room.cut_left(canvas.px(1));
  }
  const std::string when = words::clock(c, t.stage_begin);
  first_that_fits(canvas, room,
                  {fmt::format("{} · {}", when, words::title(c, *sought.glue_up)),
                   fmt::format("{} · {}", when, words::recipe(c, sought.glue_up->recipe)), when},
                  Type::strong, {Role::text, Role::panel});
}

void in_the_way_marks(Canvas& canvas, const Sought& sought, const Places& places) {
  for (const GlueUpId id : sought.in_the_way())
    for (const BarPlace& p : places.of(id)) canvas.edge(p.at, Role::amber, 0.9F);
}

float other_time_px(const Canvas& canvas) { return canvas.touch() * 1.5F + canvas.px(3); }

void other_time_strip(Canvas& canvas, Rect at, const Scene& scene, const Sought& sought,
                      const Outlook& here, const TimeAxis& axis) {
  const words::Context c = scene.context();
  const GlueUpId id = sought.glue_up->id;
  canvas.box(at, Role::background);
  Rect row = at.inset(canvas.gap(), 0);
  row = row.middle(row.w, canvas.touch() * 1.5F);

  // Next: there, or the first time after that fits.
  const auto can = sought.can();
  const Rect next = row.cut_right(canvas.touch() * 3);
  row.cut_right(canvas.gap());
  const bool now = can && !scene.stale();
  const auto hours = sought.glue_up->outside_hours ? Override::knowingly : Override::no;
  const std::string verb =
      can ? words::say("Move to {}", words::clock(c, *can)) : words::tr("Move");
  Type type = Type::head;
  for (const Type less : {Type::title, Type::strong})
    if (canvas.width(type, verb) > next.w - canvas.px(4)) type = less;
  canvas.button(next, {.id = "next",
                       .label = verb,
                       .sub = scene.stale()    ? words::tr("not while NOT LIVE")
                              : !can           ? words::tr("no time was found")
                              : !sought.fits() ? words::tr("the next that fits")
                                               : std::string(),
                       .key_name = words::tr("Space"),
                       .keys = {' ', look::kEnter},
                       .intent = Ask{Move{id, can.value_or(sought.wish), hours}},
                       .look = now ? Look::key : Look::off,
                       .type = type});

  const Span window = axis.visible();
  const auto to = [&](Instant wish) {
    Outlook there = here;
    if (!window.contains(wish)) there = {.at = wish, .part = 0.3F, .find = here.find};
    return OtherTime{id, wish, there};
  };
  const auto key = [&](const char* name, std::string label, const char* sign, int code,
                       std::optional<Instant> wish) {
    const bool can_go = wish && *wish >= scene.now;
    const float width = key_px(canvas, label);
    canvas.button(row.cut_right(width).middle(width, canvas.touch()),
                  {.id = name,
                   .label = std::move(label),
                   .key_name = sign,
                   .keys = {code},
                   .intent = to(wish.value_or(sought.wish)),
                   .look = can_go ? Look::normal : Look::off});
    row.cut_right(canvas.gap());
  };
  const Zone& zone = *scene.floor.zone;
  const bool narrow = panels::narrow(canvas);
  const std::string leave = narrow ? "×" : words::tr("Leave");
  const float leave_px = key_px(canvas, leave);
  canvas.button(row.cut_right(leave_px).middle(leave_px, canvas.touch()),
                {.id = "other.leave",
                 .label = leave,
                 .key_name = "Esc",
                 .keys = {look::kEscape},
                 .intent = OtherTime{{}, {}, here}});
  row.cut_right(canvas.gap());
  key("other.free", words::tr(narrow ? "free" : "next free"), "E", 'E',
      sought.fits() ? next_stretch(scene, sought.wish) : sought.can());
  key("other.day_later", words::tr(narrow ? "+1 d" : "+1 day"), "↓", look::kDown,
      days_later(zone, sought.wish, 1));
  key("other.later", words::tr(narrow ? "+15" : "+15 min"), "→", look::kRight,
      to_quarter(sought.wish, kStartGrid));
  key("other.earlier", words::tr(narrow ? "-15" : "-15 min"), "←", look::kLeft,
      to_quarter(sought.wish, -kStartGrid));
  key("other.day_earlier", words::tr(narrow ? "-1 d" : "-1 day"), "↑", look::kUp,
      days_later(zone, sought.wish, -1));

  const std::string why = verdict(scene, sought);
  Rect title = row.cut_top(canvas.line_px(Type::strong));
  if (!sought.fits()) {
    const float side = std::min(title.h, canvas.cap(Type::strong) * 1.7F);
    canvas.warn_tag(title.cut_left(side).middle(side, side));
    title.cut_left(canvas.px(2));
  }
  const std::string when = words::clock(c, sought.wish);
  canvas.one_of(title,
                {fmt::format("{} · {} · {}", when, words::title(c, *sought.glue_up),
                             words::builder(c, sought.glue_up->builder)),
                 fmt::format("{} · {}", when, words::title(c, *sought.glue_up)), when},
                Type::strong, {});
  const int most = std::max(1, static_cast<int>(row.h / canvas.line_px(Type::small)));
  canvas.paragraph(row, why, Type::body, {Role::text, Role::background}, most);
}

}  // namespace squeezeout::board
