#pragma once
// Instants and spans of elapsed time.
//   Shape   a span is half-open, [begin, end): gear that is freed at an instant can be taken at it
//   Units   whole seconds since 1970-01-01 UTC, no leap seconds; dwell is elapsed, so no zone here

#include <algorithm>
#include <chrono>
#include <compare>

namespace squeezeout {

using Instant = std::chrono::sys_seconds;
using Seconds = std::chrono::seconds;
using Minutes = std::chrono::minutes;

struct Span {
  Instant begin{};
  Instant end{};
  constexpr bool empty() const { return end <= begin; }
  constexpr Seconds length() const { return empty() ? Seconds{0} : end - begin; }
  constexpr bool contains(Instant t) const { return begin <= t && t < end; }
  constexpr bool overlaps(Span o) const {
    return begin < o.end && o.begin < end && !empty() && !o.empty();
  }
  constexpr Span intersect(Span o) const {
    return {std::max(begin, o.begin), std::min(end, o.end)};
  }
  friend constexpr auto operator<=>(const Span&, const Span&) = default;
};

inline constexpr Instant kNever = Instant::max();
inline constexpr Seconds kMaxClaim =
    std::chrono::hours{24 * 366};  // no claim is longer: it keeps every look-up short

}  // namespace squeezeout
