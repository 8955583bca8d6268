#include "client/board/time_axis.h"

#include <algorithm>
#include <cmath>

namespace squeezeout::board {
namespace {

constexpr Seconds kFarthest = std::chrono::hours{24 * 400};

float seconds(Seconds s) { return static_cast<float>(s.count()); }

// When the clocks are put forward within the span; its end: they are not.
Instant spring(const Zone& zone, Span span) {
  const Seconds before = zone.offset(span.begin);
  if (zone.offset(span.end - Seconds{1}) <= before) return span.end;
  Instant low = span.begin, high = span.end;
  while (high - low > Seconds{1}) {
    const Instant middle = low + (high - low) / 2;
    (zone.offset(middle) == before ? low : high) = middle;
  }
  return high;
}

}  // namespace

TimeAxis::TimeAxis(const Hours& hours, const Wish& wish) : wish_(wish) {
  const float width = wish.right - wish.left;
  px_per_second_ = width / seconds(wish.open_time);
  // A shop is open a quarter of the time, or less: farther both ways until what is visible is covered.
  const auto covers = [&] { return all_.front().x0 <= wish.left && all_.back().x1 >= wish.right; };
  Seconds reach = wish.open_time * 4 + std::chrono::hours{24 * 4};
  for (build(hours, reach); !covers() && reach < kFarthest; reach *= 2) build(hours, reach * 2);
  for (const Piece& p : all_)
    if (p.x1 > wish.left && p.x0 < wish.right) pieces_.push_back(p);
}

void TimeAxis::build(const Hours& hours, Seconds reach) {
  all_.clear();
  const Span window{wish_.at - reach, wish_.at + reach};
  const std::vector<Span> open = hours.open_spans(window);
  Instant from = window.begin;
  for (const Span s : open) {
    add(hours.zone(), {from, s.begin}, Piece::Kind::closed);
    add(hours.zone(), s, Piece::Kind::open);
    from = s.end;
  }
  // A shop without hours has nothing to fold.
  add(hours.zone(), {from, window.end}, open.empty() ? Piece::Kind::open : Piece::Kind::closed);
  const float shift = wish_.left + wish_.part * (wish_.right - wish_.left) - x(wish_.at);
  for (Piece& p : all_) p.x0 += shift, p.x1 += shift;
}

void TimeAxis::add(const Zone& zone, Span span, Piece::Kind kind) {
  if (span.empty()) return;
  const float natural = seconds(span.length()) * px_per_second_;
  if (kind == Piece::Kind::closed) {
    const bool fold = natural > wish_.fold_px;
    push(span, fold ? wish_.fold_px : natural, fold ? Piece::Kind::folded : kind);
    return;
  }
  if (const Instant at = spring(zone, span); at < span.end) {
    push({span.begin, at}, seconds(at - span.begin) * px_per_second_, kind);
    push({at, at}, wish_.skip_px, Piece::Kind::skipped);
    span.begin = at;
  }
  push(span, seconds(span.length()) * px_per_second_, kind);
}

void TimeAxis::push(Span span, float width, Piece::Kind kind) {
  const float begin = all_.empty() ? 0 : all_.back().x1;
  all_.push_back({span, begin, begin + width, kind});
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

Instant TimeAxis::at(float x) const {
  const auto beyond = [&](float px) {
    return Seconds{static_cast<long>(std::llround(px / px_per_second_))};
  };
  if (x < all_.front().x0) return all_.front().span.begin - beyond(all_.front().x0 - x);
  if (x >= all_.back().x1) return all_.back().span.end + beyond(x - all_.back().x1);
  const auto it = std::upper_bound(all_.begin(), all_.end(), x,
                                   [](float v, const Piece& p) { return v < p.x1; });
  const double part = static_cast<double>(x - it->x0) / static_cast<double>(it->x1 - it->x0);
  const double past = part * static_cast<double>(it->span.length().count());
  return it->span.begin + Seconds{static_cast<long>(std::llround(past))};
}

Span TimeAxis::visible() const { return {at(wish_.left), at(wish_.right)}; }

}  // namespace squeezeout::board
