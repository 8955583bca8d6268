#include "common/floor/mend.h"

#include <algorithm>
#include <map>

namespace squeezeout {
namespace {

struct GivesWay {
  Snag snag = Snag::none;
  GlueUpId by;
};
using Victims = std::map<GlueUpId, GivesWay>;

const GlueUp* reserved_holder(const Floor& f, const HeldBy& h) {
  if (h.holder.what != Holder::What::glue_up) return nullptr;
  const GlueUp* g = f.glue_up(GlueUpId{h.holder.id});
  return g && g->progress == Progress::reserved ? g : nullptr;
}

// Adds to `victims` until the claim fits. False: it cannot.
bool make_room(const Floor& f, Holder own, const Claim& claim, GivesWay reason, Victims& victims) {
  const int stock = f.gear.stock(claim.kind);
  const Span span = claim.span.intersect({f.gear.stock_since(claim.kind), kNever});
  if (span.empty()) return true;  // all of it lies before the stock was last set
  if (f.gear.free_over(claim.kind, span, own) >= claim.count) return true;

  const std::vector<HeldBy> holders = f.gear.holders(claim.kind, span);
  Usage usage;
  for (const HeldBy& h : holders) {
    const bool gone = h.holder == own || (h.holder.what == Holder::What::glue_up &&
                                          victims.contains(GlueUpId{h.holder.id}));
    if (!gone) usage.add(h.span, h.count);
  }
  std::vector<std::pair<const GlueUp*, HeldBy>> reserved;
  for (const HeldBy& h : holders) {
    const GlueUp* g = reserved_holder(f, h);
    if (g && h.holder != own && !victims.contains(g->id)) reserved.emplace_back(g, h);
  }
  std::sort(reserved.begin(), reserved.end(), [](const auto& a, const auto& b) {
    return std::pair{a.first->times.stage_begin, a.first->id} >
           std::pair{b.first->times.stage_begin, b.first->id};
  });
  // Each one that goes only lowers the levels, so one that is not in the way now will not be later.
  const int most = stock - claim.count;
  for (const auto& [g, h] : reserved) {
    if (usage.peak(h.span.intersect(span), {}).level <= most) continue;
    victims.emplace(g->id, reason);
    usage.add(h.span, -h.count);
  }
  return usage.peak(span, {}).level <= most;
}

// The later steps of a build that can no longer start when they should, once `g` is as given and those in `victims` are gone.
void later_steps(const Floor& f, const GlueUp& g, Victims& victims) {
  if (!g.build) return;
  const auto chain = f.chain.find(g.build);
  if (chain == f.chain.end()) return;
  bool broken = g.progress == Progress::displaced || g.progress == Progress::cancelled ||
                g.progress == Progress::spoiled;
  for (auto it = chain->second.upper_bound(g.step); it != chain->second.end(); ++it) {
    const GlueUp& later = f.glue_ups.at(it->second);
    if (later.progress != Progress::reserved) return;
    if (!broken && later.times.stage_begin >= g.times.ready_at) return;
    victims.emplace(later.id, GivesWay{Snag::earlier_step, g.id});
    broken = true;
  }
}

std::vector<Event> displaced(const Floor& f, Victims victims, GlueUpId except) {
  const Victims first = victims;
  for (const auto& [id, reason] : first) {
    GlueUp gone = f.glue_ups.at(id);
    gone.progress = Progress::displaced;
    later_steps(f, gone, victims);
  }
  victims.erase(except);  // it is the one that changes
  std::vector<Event> events;
  for (const auto& [id, reason] : victims) {
    GlueUp g = f.glue_ups.at(id);
    g.progress = Progress::displaced;
    g.held.clear();
    g.snag = reason.snag;
    g.snag_by = reason.by;
    events.push_back(GlueUpChanged{Change::displaced, std::move(g)});
  }
  return events;
}

SlotQuery query_of(const GlueUp& g) {
  SlotQuery q;
  q.demand = g.demand;
  q.builder = g.builder;
  q.ignoring = g.id;
  q.attended = g.outside_hours ? SlotQuery::Hours::ignore : SlotQuery::Hours::keep;
  return q;
}

Instant release_for(const Floor& f, const GlueUp& g, Instant from) {
  const Hours hours = f.hours_for(g.builder);
  const SlotView view{f.gear, f.builders, f.shop->gear, hours, f.fumes};
  return release_after(view, query_of(g), from).value_or(from);
}

}  // namespace

std::optional<std::vector<Event>> change(const Floor& floor, Change what, GlueUp after,
                                         Snag snag_of_others) {
  Victims victims;
  for (const Claim& c : claims_of(after)) {
    if (c.span.empty()) continue;
    if (!make_room(floor, Holder::of(after.id), c, {snag_of_others, after.id}, victims))
      return std::nullopt;
  }
  later_steps(floor, after, victims);
  std::vector<Event> events = displaced(floor, std::move(victims), after.id);
  events.push_back(GlueUpChanged{what, std::move(after)});
  return events;
}

std::optional<std::vector<Event>> take_out(const Floor& floor, const Outage& outage) {
  Victims victims;
  const Claim claim{outage.kind, outage.count, outage.span};
  if (!make_room(floor, Holder::of(outage.id), claim, {Snag::gear_broken, {}}, victims))
    return std::nullopt;
  std::vector<Event> events = displaced(floor, std::move(victims), {});
  events.push_back(OutageChanged{outage});
  return events;
}

void plan_release(const Floor& floor, GlueUp& g, Instant from) {
  const Instant longest = g.times.stage_begin + kMaxClaim;
  g.times.release_begin = std::min(release_for(floor, g, std::max(off_from(g), from)), longest);
  g.times.release_end = std::min(g.times.release_begin + g.demand.release, longest);
  g.times.ready_at = std::max(g.times.release_end, g.times.clamped_begin + g.demand.wait);
}

void hold_on(const Floor& floor, GlueUp& g, Instant at) {
  ++g.overruns;
  const Seconds step = std::min<Seconds>(kOverrunStep * g.overruns, std::chrono::hours{24});
  const Instant release_end =
      release_for(floor, g, at + step - g.demand.release) + g.demand.release;
  g.times.release_end = std::min(std::max(release_end, at + step), g.times.stage_begin + kMaxClaim);
  g.times.ready_at = std::max(g.times.release_end, g.times.clamped_begin + g.demand.wait);
}

}  // namespace squeezeout
