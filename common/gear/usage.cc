#include "common/gear/usage.h"

namespace squeezeout {
namespace {

using Steps = std::map<Instant, int>;

Steps::iterator split(Steps& steps, Instant t) {
  auto it = steps.lower_bound(t);
  if (it != steps.end() && it->first == t) return it;
  const int level = it == steps.begin() ? 0 : std::prev(it)->second;
  return steps.emplace_hint(it, t, level);
}

void merge(Steps& steps, Steps::iterator it) {
  const int before = it == steps.begin() ? 0 : std::prev(it)->second;
  if (it->second == before) steps.erase(it);
}

}  // namespace

void Usage::add(Span span, int count) {
  if (span.empty() || count == 0) return;
  const auto first = split(steps_, span.begin);
  const auto last = split(steps_, span.end);
  for (auto it = first; it != last; ++it) it->second += count;
  merge(steps_, last);
  merge(steps_, first);
}

int Usage::level(Instant t) const {
  const auto it = steps_.upper_bound(t);
  return it == steps_.begin() ? 0 : std::prev(it)->second;
}

Usage::Peak Usage::peak(Span window, Own own) const {
  Peak peak;
  auto it = steps_.upper_bound(window.begin);
  int now = it == steps_.begin() ? 0 : std::prev(it)->second;
  for (Instant t = window.begin; t < window.end;) {
    // Where a claim of the asker ends and another of the same count begins there is no step: look at both of its ends too.
    Instant end = it == steps_.end() ? kNever : it->first;
    for (const Instant edge : {own.span.begin, own.span.end}) {
      if (t < edge) end = std::min(end, edge);
    }
    const int level = own.span.contains(t) ? now - own.count : now;
    if (level > 0 && level >= peak.level) peak = {level, end};
    if (it != steps_.end() && it->first == end) {
      now = it->second;
      ++it;
    }
    t = end;
  }
  return peak;
}

}  // namespace squeezeout
