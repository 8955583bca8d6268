// Which glue-ups of this bench give reason for an alarm.

#include <algorithm>
#include <tuple>

#include "client/alarm/alarm.h"
#include "client/alarm/wants.h"

namespace squeezeout::alarm {
namespace {

bool own(const Heard& heard, const GlueUp& g) {
  if (g.bench && heard.bench) return g.bench == heard.bench;
  return heard.builder && g.builder == heard.builder;
}

bool heard_lately(const Heard& heard) {
  return heard.link == Link::live || heard.link == Link::late;
}

std::optional<Instant> skins(const Heard& heard, const GlueUp& g) {
  const auto by = clamps_on_by(g);
  if (g.progress != Progress::open || !by) return std::nullopt;
  const Seconds lead = std::min(kOpenLeft, g.demand.open_limit / 2);
  return heard.now >= *by - lead ? by : std::nullopt;
}

std::optional<Instant> form_limit(const Heard& heard, const GlueUp& g) {
  const Recipe* recipe = heard.floor.recipe(g.recipe);
  if (g.progress != Progress::clamped || recipe == nullptr || !recipe->heat) return std::nullopt;
  if (recipe->heat->hold <= Seconds{0}) return std::nullopt;
  const Instant limit = g.times.clamped_begin + recipe->heat->hold;
  return heard.now >= limit ? std::optional{limit} : std::nullopt;
}

// Who is kept waiting, or has lost its place to it.
GlueUpId next_of(const Heard& heard, const GlueUp& g) {
  const GlueUp* first = wanted_by(heard.floor, g, heard.now + kWantedWithin);
  for (const auto& [id, other] : heard.floor.glue_ups) {
    const bool lost = other.progress == Progress::displaced && other.snag == Snag::other_overran &&
                      other.snag_by == g.id;
    if (lost && (first == nullptr || other.times.stage_begin < first->times.stage_begin))
      first = &other;
  }
  return first == nullptr ? GlueUpId{} : first->id;
}

}  // namespace

bool at_risk(const Alarm& a) { return a.reason != Reason::clamps; }

std::vector<Alarm> reasons(const Heard& heard) {
  std::vector<Alarm> out;
  for (const auto& [id, g] : heard.floor.glue_ups) {
    if (!running(g) || !own(heard, g)) continue;
    if (const auto by = skins(heard, g)) out.push_back({id, Reason::wet, *by, {}});
    if (const auto limit = form_limit(heard, g)) out.push_back({id, Reason::form, *limit, {}});
    if (g.progress != Progress::clamped || heard.now < g.times.release_begin) continue;
    if (!heard_lately(heard)) continue;  // nobody knows who wants what
    if (const GlueUpId next = next_of(heard, g))
      out.push_back({id, Reason::clamps, g.times.release_begin, next});
  }
  std::sort(out.begin(), out.end(), [](const Alarm& a, const Alarm& b) {
    return std::tuple{a.reason, a.limit, a.glue_up} < std::tuple{b.reason, b.limit, b.glue_up};
  });
  return out;
}

}  // namespace squeezeout::alarm
