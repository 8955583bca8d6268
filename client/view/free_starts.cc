#include "client/view/free_starts.h"

#include <algorithm>

namespace squeezeout {

bool movable(const GlueUp& g) {
  return g.progress == Progress::reserved || g.progress == Progress::displaced;
}

Result<SlotQuery, Refusal> query_to_move(const Floor& floor, const GlueUp& g, Instant now) {
  auto query = query_again(floor, g, now, now);
  if (query && g.outside_hours) query->attended = SlotQuery::Hours::ignore;
  return query;
}

void FreeStarts::look(const Floor& floor, GlueUpId id, Span window, Instant now, int tries) {
  window.begin = std::max(window.begin, now);
  const GlueUp* g = floor.glue_up(id);
  if (g == nullptr || window.empty()) return;
  // Another glue-up, or a window that what is known does not reach: begin anew.
  if (!began_ || id != glue_up_ || window.begin < from_ || window.begin > done_to_) {
    glue_up_ = id, began_ = true;
    from_ = done_to_ = window.begin;
    stretches_.clear();
  }
  auto query = query_to_move(floor, *g, now);
  if (!query) {
    done_to_ = std::max(done_to_, window.end);  // it fits nowhere
    return;
  }
  const Hours hours = floor.hours_for(g->builder);
  const SlotView view = view_of(floor, hours);
  for (; tries > 0 && done_to_ < window.end; --tries) {
    const bool goes_on = !stretches_.empty() && stretches_.back().end == done_to_;
    if (goes_on && slot_at(view, *query, done_to_)) {
      done_to_ += kStartGrid;
      stretches_.back().end = done_to_;
      continue;
    }
    query->after = done_to_;
    const auto next = earliest_slot(view, *query);
    if (!next) {
      done_to_ = kNever;
      return;
    }
    // From the first that fits on, then on the quarters of an hour.
    const Instant begin = next->times.stage_begin;
    const Instant quarter =
        std::chrono::floor<Minutes>(begin) - begin.time_since_epoch() % kStartGrid + kStartGrid;
    done_to_ = quarter;
    stretches_.push_back({begin, quarter});
  }
}

}  // namespace squeezeout
