#include "client/alarm/wants.h"

#include <algorithm>

namespace squeezeout {

bool kept_from(const Floor& floor, const GlueUp& g, const GlueUp& next) {
  const Instant start = next.times.stage_begin;
  if (next.progress != Progress::reserved || start < g.times.release_end) return false;
  const Span then{start, start + Seconds{1}};
  return std::any_of(g.held.begin(), g.held.end(), [&](const Held& held) {
    const bool same = std::any_of(next.held.begin(), next.held.end(),
                                  [&](const Held& h) { return h.kind == held.kind; });
    return same && floor.gear.free_over(held.kind, then) < held.count;
  });
}

const GlueUp* wanted_by(const Floor& floor, const GlueUp& g, Instant until) {
  const GlueUp* first = nullptr;
  for (const auto& [id, other] : floor.glue_ups) {
    const Instant start = other.times.stage_begin;
    if (start > until || (first != nullptr && start >= first->times.stage_begin)) continue;
    if (kept_from(floor, g, other)) first = &other;
  }
  return first;
}

}  // namespace squeezeout
