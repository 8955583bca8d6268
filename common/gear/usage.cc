#include "common/gear/usage.h"

#include <algorithm>
#include <limits>

namespace squeezeout {

void Usage::Summary::push(std::vector<Step>& steps) {
  if (waiting == 0) return;
  for (Step& s : steps) s.level += waiting;
  waiting = 0;
}

void Usage::Summary::pull(const std::vector<Step>& steps) {
  most = std::numeric_limits<int>::min();
  for (const Step& s : steps) most = std::max(most, s.level);
}

Usage::Steps::Place Usage::at_or_after(Instant t) const {
  return steps_.behind([t](const Step& s) { return s.at < t; });
}

int Usage::level_before(Steps::Place p) const {
  if (p.index == 0) {
    if (p.block == 0) return 0;
    --p.block;
    p.index = steps_.all()[p.block].items.size();
  }
  --p.index;
  return steps_.item(p).level + steps_.all()[p.block].summary.waiting;
}

void Usage::split(Instant t) {
  const auto p = at_or_after(t);
  if (const auto at = steps_.here_or_next(p); steps_.holds(at) && steps_.item(at).at == t) return;
  steps_.insert(p, {t, level_before(p)});
}

void Usage::merge(Instant t) {
  const auto p = steps_.here_or_next(at_or_after(t));
  if (steps_.item(p).level + steps_.all()[p.block].summary.waiting == level_before(p))
    steps_.erase(p);
}

void Usage::add(Span span, int count) {
  if (span.empty() || count == 0) return;
  split(span.begin);
  split(span.end);
  steps_.change(
      at_or_after(span.begin), at_or_after(span.end), [count](Step& s) { s.level += count; },
      [count](Summary& s) {
        s.waiting += count;
        s.most += count;
      });
  merge(span.end);
  merge(span.begin);
}

int Usage::level(Instant t) const {
  return level_before(steps_.behind([t](const Step& s) { return s.at <= t; }));
}

// Of the plain levels; a last_end beyond the window is the end of the step that is the highest at the window's end.
Usage::Peak Usage::highest(Span window) const {
  Peak peak;
  if (window.empty()) return peak;
  const auto& blocks = steps_.all();
  auto p = steps_.behind([&](const Step& s) { return s.at <= window.begin; });
  peak.level = level_before(p);
  // Behind the last step of the block with the last highest level; at the outset behind the step that the window begins in.
  Steps::Place last = p;
  std::size_t from = p.index;
  for (; p.block < blocks.size(); p = {p.block + 1, 0}) {
    const auto& [first, summary, steps] = blocks[p.block];
    if (first.at >= window.end) break;
    const bool all = p.block + 1 < blocks.size() && blocks[p.block + 1].first.at <= window.end;
    const std::size_t end =
        all ? steps.size()
            : steps_.behind_in(p.block, [&](const Step& s) { return s.at < window.end; });
    if (p.index >= end) continue;
    int most = summary.most;
    if (p.index > 0 || !all) {
      most = steps[p.index].level;
      for (std::size_t i = p.index; i < end; ++i) most = std::max(most, steps[i].level);
      most += summary.waiting;
    }
    if (most < peak.level) continue;
    peak.level = most;
    last = {p.block, end};
    from = p.index;
  }
  if (peak.level <= 0) return {};
  while (last.index > from && level_before(last) != peak.level) --last.index;
  const auto over = steps_.here_or_next(last);
  peak.last_end = steps_.holds(over) ? steps_.item(over).at : kNever;
  return peak;
}

Usage::Peak Usage::peak(Span window, Own own) const {
  if (own.count == 0 || own.span.empty()) return highest(window);
  // Where a claim of the asker ends and another of the same count begins there is no step: each part has its own end.
  Peak peak = highest(window.intersect({Instant::min(), own.span.begin}));
  peak.last_end = std::min(peak.last_end, own.span.begin);
  Peak within = highest(window.intersect(own.span));
  within.level -= own.count;
  if (within.level > 0 && within.level >= peak.level)
    peak = {within.level, std::min(within.last_end, own.span.end)};
  const Peak after = highest(window.intersect({own.span.end, kNever}));
  if (after.level > 0 && after.level >= peak.level) peak = after;
  return peak.level > 0 ? peak : Peak{};
}

}  // namespace squeezeout
