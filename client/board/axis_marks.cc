#include "client/board/axis_marks.h"

#include <fmt/format.h>

#include <cmath>

#include "client/words/say.h"

namespace squeezeout::board {
namespace {

using look::Align;
using look::Canvas;
using look::Ink;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kFoldMm = 17, kNowHeadMm = 5;
constexpr Ink kQuiet{Role::muted, Role::background}, kShut{Role::muted, Role::closed};

// A step between ticks that leaves room for their labels.
Seconds tick_step(const TimeAxis& axis, float least_px) {
  using std::chrono::hours;
  for (const Seconds s :
       {Seconds{Minutes{5}}, Seconds{Minutes{10}}, Seconds{Minutes{15}}, Seconds{Minutes{30}},
        Seconds{hours{1}}, Seconds{hours{2}}, Seconds{hours{4}}, Seconds{hours{6}}})
    if (static_cast<float>(s.count()) * axis.px_per_second() >= least_px) return s;
  return hours{12};
}

// Ticks on round local times within one open piece.
std::vector<Instant> ticks(const TimeAxis::Piece& piece, const Zone& zone, Seconds step) {
  std::vector<Instant> out;
  const auto since_midnight = [&](Instant t) {
    const LocalTime local = zone.local(t);
    return local - std::chrono::floor<std::chrono::days>(local);
  };
  Instant t = piece.span.begin;
  while (t <= piece.span.end) {
    const Seconds past = Seconds{since_midnight(t).count() % step.count()};
    if (past > Seconds{0}) t += step - past;
    if (t > piece.span.end) break;
    out.push_back(t);
    t += step;
  }
  return out;
}

// The head of the now line stands where how long it is closed is said; it goes before that.
void closed_strip(Canvas& canvas, const TimeAxis::Piece& p, Rect head, Rect lanes, float now_x) {
  const float x0 = std::max(p.x0, head.x), x1 = std::min(p.x1, head.right());
  if (x1 <= x0) return;
  canvas.box({x0, head.y, x1 - x0, lanes.bottom() - head.y}, Role::closed);
  if (p.kind != TimeAxis::Piece::Kind::folded || x1 - x0 < p.x1 - p.x0 - 1) return;
  Rect text{x0, head.y, x1 - x0, head.h};
  canvas.words(text.cut_top(text.h * 0.5F), words::tr("closed"), Type::small, kShut, Align::centre);
  const std::string length = closed_length(p.span.length());
  const float reach = canvas.width(Type::small, length) / 2 + canvas.px(kNowHeadMm / 2 + 1);
  if (std::abs(now_x - text.centre().x) < reach) return;
  canvas.words(text, length, Type::small, kShut, Align::centre);
}

}  // namespace

std::string closed_length(Seconds s) {
  using std::chrono::hours;
  if (s >= hours{48}) return words::length(s);
  if (s < hours{1}) return words::length(s);
  const auto halves = (s + Minutes{15}) / Minutes{30};
  return halves % 2 == 0 ? fmt::format("{} h", halves / 2) : fmt::format("{} 1/2 h", halves / 2);
}

float fold_px(const Canvas& canvas) {
  const float closed = canvas.width(Type::small, words::tr("closed"));
  return std::max(canvas.px(kFoldMm), closed + canvas.px(2));
}

void axis_marks(Canvas& canvas, const Scene& scene, const TimeAxis& axis, Rect head, Rect lanes,
                float now_x) {
  const words::Context c = scene.context();
  const Zone& zone = *scene.floor.zone;
  const Seconds step = tick_step(axis, canvas.px(19));
  Rect days = head;
  const Rect clocks = days.cut_bottom(head.h * 0.5F);
  float free_from = head.x;  // the next clock label may stand from here
  float day_free_from = head.x;
  std::optional<Date> last_day;
  // The days first of where they begin to be seen, then at each midnight.
  const auto day_label = [&](Instant t, float x, float end) {
    if (last_day == zone.date(t)) return;
    const std::string day = words::day(c, t);
    const float width = canvas.width(Type::small, day);
    const float left = std::max(x + canvas.px(1), day_free_from);
    if (left + width > end) return;
    canvas.words({left, days.y, width + 1, days.h}, day, Type::small, kQuiet);
    last_day = zone.date(t);
    day_free_from = left + width + canvas.px(3);
  };
  for (const TimeAxis::Piece& p : axis.pieces()) {
    const float x0 = std::max(p.x0, head.x), x1 = std::min(p.x1, head.right());
    if (p.kind != TimeAxis::Piece::Kind::open) {
      closed_strip(canvas, p, head, lanes, now_x);
      free_from = std::max(free_from, x1 + canvas.px(1));
      day_free_from = std::max(day_free_from, x1);
      continue;
    }
    const Instant seen = axis.at(x0);
    day_label(std::max(seen, p.span.begin), x0, x1);
    for (Instant midnight = zone.day(zone.date(seen)).end; midnight < p.span.end;
         midnight = zone.day(zone.date(midnight)).end) {
      const float x = axis.x(midnight);
      if (x > x1) break;
      canvas.box({x - 1, days.y, 2, lanes.bottom() - days.y}, Role::grid);
      day_label(midnight, x, x1);
    }
    for (const Instant t : ticks(p, zone, step)) {
      const float x = axis.x(t);
      if (x < head.x || x > head.right()) continue;
      canvas.box({x, lanes.y, 1, lanes.h}, Role::grid);
      const std::string label = words::clock_only(c, t);
      const float width = canvas.width(Type::body, label);
      const float left = std::max(x - width / 2, free_from);
      if (left > x + canvas.px(2) || left + width > std::min(x1, head.right())) continue;
      if (left < now_x + canvas.px(3.5F) && left + width > now_x - canvas.px(3.5F)) continue;
      canvas.words({left, clocks.y, width + 1, clocks.h}, label, Type::body, kQuiet);
      free_from = left + width + canvas.px(4);
    }
  }
}

void now_line(Canvas& canvas, Rect head, Rect lanes, float now_x) {
  if (now_x <= lanes.x || now_x >= lanes.right()) return;
  canvas.box({now_x - 1.5F, head.bottom(), 3, lanes.h}, Role::text);
  const float side = canvas.px(kNowHeadMm);
  canvas.icon(look::Glyph::head, {now_x - side / 2, head.bottom() - side, side, side}, Role::text);
}

void break_marks(Canvas& canvas, const TimeAxis& axis, Rect bar, Role ground) {
  for (const TimeAxis::Piece& p : axis.pieces()) {
    if (p.x0 <= bar.x || p.x1 >= bar.right()) continue;
    if (p.kind == TimeAxis::Piece::Kind::skipped)
      canvas.box({p.x0, bar.y, p.x1 - p.x0, bar.h}, ground);
    if (p.kind != TimeAxis::Piece::Kind::folded) continue;
    const float x = (p.x0 + p.x1) / 2;
    canvas.box({x - 3, bar.y, 2, bar.h}, ground);
    canvas.box({x + 1, bar.y, 2, bar.h}, ground);
  }
}

}  // namespace squeezeout::board
