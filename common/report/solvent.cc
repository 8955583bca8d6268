#include "common/report/solvent.h"

#include <algorithm>
#include <tuple>

namespace squeezeout {
namespace {

// When its glue was spread, or is to be.
std::optional<Instant> spread(const GlueUp& g) {
  if (g.started_at) return g.started_at;
  if (g.progress == Progress::reserved) return g.times.open_begin;
  return std::nullopt;
}

}  // namespace

SolventSheet solvent_sheet(const Floor& f, Date date) {
  CHECK(f.shop && f.zone);
  const Span day = f.zone->day(date);
  std::vector<SolventLine> lines;
  std::vector<SolventUse> uses;
  for (const auto& [id, g] : f.glue_ups) {
    const AdhesiveSheet* sheet = f.sheet(g.sheet);
    const auto at = spread(g);
    if (!sheet || sheet->solvent.name.empty() || !at || !day.contains(*at)) continue;
    const auto facts = solvent(sheet->solvent.name);
    lines.push_back({id, *at, sheet->solvent.grams_per_use, facts ? *facts : nullptr});
    if (facts) uses.push_back({*facts, sheet->solvent.grams_per_use});
  }
  std::sort(lines.begin(), lines.end(), [](const SolventLine& a, const SolventLine& b) {
    return std::tie(a.spread, a.glue_up) < std::tie(b.spread, b.glue_up);
  });
  const Room& room = f.shop->room;
  return {day, std::move(lines),
          solvent_day(uses, room.volume_m3, room.air_m3_per_minute, room.limits)};
}

}  // namespace squeezeout
