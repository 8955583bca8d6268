// The critical chain: link by link back to what could not start sooner.

#include <algorithm>
#include <set>

#include "common/floor/ask.h"
#include "common/floor/why_facts.h"

namespace squeezeout {
namespace {

constexpr Minutes kJustBefore{1};

bool has_glue_up(const std::vector<Blocker>& blockers) {
  return std::any_of(blockers.begin(), blockers.end(), glue_up_of);
}
bool all_closed(const std::vector<Blocker>& blockers) {
  return std::all_of(blockers.begin(), blockers.end(),
                     [](const Blocker& b) { return std::holds_alternative<ClosedHours>(b); });
}

// What rules out the last moments before its start. Where only closed hours do, those before closing time count too.
std::vector<Blocker> because(const Floor& f, const GlueUp& g, Instant now) {
  if (g.progress != Progress::reserved) return {};
  const Instant start = g.times.stage_begin, wanted = std::max(g.wanted_from, now);
  auto query = query_again(f, g, start, now);
  if (!query) return {};
  if (g.outside_hours) query->attended = SlotQuery::Hours::ignore;
  const Hours hours = f.hours_for(g.builder);
  const SlotView view = view_of(f, hours);
  const Seconds attended = query->demand.stage + query->demand.assembly;

  std::vector<Blocker> out;
  for (Instant from = start - kJustBefore; from >= wanted;) {
    query->after = from;
    const auto slot = earliest_slot(view, *query);
    if (slot && slot->times.stage_begin < start) return out;  // before that it was chosen
    out = least_blockers(f, *query, start);
    if (has_glue_up(out) || !all_closed(out)) return out;
    const std::vector<Span> open = hours.open_spans({wanted, from});
    if (open.empty()) return out;
    from = std::min(from - kJustBefore, open.back().end - attended);
  }
  return out;
}

}  // namespace

std::vector<ChainLink> critical_chain(const Floor& f, GlueUpId last, Instant now) {
  std::vector<ChainLink> out;
  std::set<GlueUpId> seen;
  for (const GlueUp* g = f.glue_up(last); g && seen.insert(g->id).second;) {
    out.push_back({g->id, because(f, *g, now)});
    const GlueUp* next = nullptr;
    for (const Blocker& b : out.back().because) {  // the one that ends last comes first
      const GlueUp* by = f.glue_up(glue_up_of(b));
      if (!next && by && by->times.stage_begin < g->times.stage_begin) next = by;
    }
    g = next;
  }
  return out;
}

std::vector<ChainLink> critical_chain(const Floor& f, Instant now) {
  const GlueUp* last = nullptr;
  for (const auto& [id, g] : f.glue_ups) {
    const bool placed = live(g) && g.progress != Progress::displaced;
    if (placed && (!last || g.times.ready_at > last->times.ready_at)) last = &g;
  }
  return last ? critical_chain(f, last->id, now) : std::vector<ChainLink>{};
}

}  // namespace squeezeout
