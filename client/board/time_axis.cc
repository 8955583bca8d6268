#include "client/board/time_axis.h"

#include <algorithm>
#include <cmath>

namespace squeezeout::board {
namespace {

float seconds(Seconds s) { return static_cast<float>(s.count()); }

}  // namespace

TimeAxis::TimeAxis(const Hours& hours, const Wish& wish) : wish_(wish) {
  const float width = wish.right - wish.left;
  px_per_second_ = width / seconds(wish.open_time);
  // Far enough both ways that what is visible is surely covered: a shop is open a quarter of the time.
  const float widths = 1 + std::abs(wish.pan_px) / width;
  const Seconds reach =
      wish.open_time * static_cast<int>(std::ceil(widths * 4)) + std::chrono::hours{24 * 5};
  const Span window{wish.now - reach, wish.now + reach};

  Instant at = window.begin;
  const auto add = [&](Instant end, Piece::Kind kind) {
    if (end <= at) return;
    const float natural = seconds(end - at) * px_per_second_;
    if (kind == Piece::Kind::closed && natural > wish.fold_px) kind = Piece::Kind::folded;
    const float begin = all_.empty() ? 0 : all_.back().x1;
    all_.push_back(
        {{at, end}, begin, begin + (kind == Piece::Kind::folded ? wish.fold_px : natural), kind});
    at = end;
  };
  const std::vector<Span> open = hours.open_spans(window);
  for (const Span s : open) {
    add(s.begin, Piece::Kind::closed);
    add(s.end, Piece::Kind::open);
  }
  // A shop without hours has nothing to fold.
  add(window.end, open.empty() ? Piece::Kind::open : Piece::Kind::closed);

  const float shift = wish.left + 0.3F * width - wish.pan_px - x(wish.now);
  for (Piece& p : all_) {
    p.x0 += shift, p.x1 += shift;
    if (p.x1 > wish.left && p.x0 < wish.right) pieces_.push_back(p);
  }
}

float TimeAxis::x(Instant t) const {
  const Piece& first = all_.front();
  const Piece& last = all_.back();
  if (t < first.span.begin) return first.x0 - seconds(first.span.begin - t) * px_per_second_;
  if (t >= last.span.end) return last.x1 + seconds(t - last.span.end) * px_per_second_;
  const auto it = std::upper_bound(all_.begin(), all_.end(), t,
                                   [](Instant v, const Piece& p) { return v < p.span.end; });
  return it->x0 + (it->x1 - it->x0) * seconds(t - it->span.begin) / seconds(it->span.length());
}

Span TimeAxis::visible() const {
  const auto instant = [](const Piece& p, float at) {
    const float part = std::clamp((at - p.x0) / (p.x1 - p.x0), 0.0F, 1.0F);
    return p.span.begin + Seconds{static_cast<long>(std::llround(part * seconds(p.span.length())))};
  };
  if (pieces_.empty()) return {wish_.now, wish_.now};
  return {instant(pieces_.front(), wish_.left), instant(pieces_.back(), wish_.right)};
}

}  // namespace squeezeout::board
