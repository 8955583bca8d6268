#include "common/floor/glue_up.h"

#include <array>

namespace squeezeout {

std::string_view to_string(Phase p) {
  static constexpr std::array<std::string_view, kPhases> kWords{
      "planned", "stage", "open",    "clamped",   "release",  "waiting",
      "ready",   "done",  "spoiled", "cancelled", "displaced"};
  return kWords.at(static_cast<std::size_t>(p));
}

Phase phase_at(const GlueUp& g, Instant now) {
  switch (g.progress) {
    case Progress::reserved:
      return now < g.times.stage_begin ? Phase::planned : Phase::stage;
    case Progress::open:
      return Phase::open;
    case Progress::clamped:
      return now < g.times.release_begin ? Phase::clamped : Phase::release;
    case Progress::waiting:
      return now < g.times.ready_at ? Phase::waiting : Phase::ready;
    case Progress::done:
      return Phase::done;
    case Progress::spoiled:
      return Phase::spoiled;
    case Progress::cancelled:
      return Phase::cancelled;
    case Progress::displaced:
      return Phase::displaced;
  }
  CHECK(!"a progress outside the enumeration");
}

bool over_time(const GlueUp& g, Instant now) {
  return g.progress == Progress::clamped && (g.overruns > 0 || now > g.times.release_end);
}

bool running(const GlueUp& g) {
  return g.progress == Progress::open || g.progress == Progress::clamped;
}

bool live(const GlueUp& g) {
  return running(g) || g.progress == Progress::reserved || g.progress == Progress::waiting ||
         g.progress == Progress::displaced;
}

std::vector<Claim> claims_of(const GlueUp& g) {
  if (g.progress == Progress::cancelled || g.progress == Progress::displaced) return {};
  const Instant end = g.progress == Progress::spoiled && !g.off_at
                          ? g.ended_at.value_or(g.times.release_end)
                          : g.off_at.value_or(g.times.release_end);
  std::vector<Claim> out;
  for (const Held& h : g.held) out.push_back({h.kind, h.count, {g.times.stage_begin, end}});
  return out;
}

std::vector<Span> attended_of(const GlueUp& g) {
  const Span spreading{g.times.stage_begin, g.times.clamped_begin};
  const Span release{g.times.release_end - g.demand.release, g.times.release_end};
  switch (g.progress) {
    case Progress::reserved:
    case Progress::open:
      return {spreading, release};
    case Progress::clamped:
      return {release};
    default:
      return {};
  }
}

bool skins_knowingly(const GlueUp& g) {
  return !g.reason.empty() && g.demand.open_limit < g.demand.assembly;
}

std::optional<Instant> clamps_on_by(const GlueUp& g) {
  if (g.demand.open_limit == Seconds{0}) return std::nullopt;
  return g.times.open_begin + g.demand.open_limit;
}

Instant off_from(const GlueUp& g) { return g.times.clamped_begin + g.demand.dwell; }

}  // namespace squeezeout
