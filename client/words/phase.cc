// Where a glue-up stands.

#include <fmt/format.h>

#include "client/words/words.h"

namespace squeezeout::words {
namespace {

std::string open_words(const Context& c, const GlueUp& g) {
  const auto by = clamps_on_by(g);
  if (!by) return "under way since " + clock(c, g.times.open_begin);
  if (c.now > *by) return "glue wet, clamps should have been on by " + clock(c, *by);
  return "glue wet, clamps on by " + clock(c, *by);
}

std::string release_words(const Context& c, const GlueUp& g) {
  const Instant off = g.times.release_begin;
  if (!over_time(g, c.now)) return "clamps can come off since " + clock(c, off);
  return fmt::format("{} over, off was {}", length(c.now - off), clock(c, off));
}

std::string ready_words(const Context& c, const GlueUp& g) {
  const Recipe* r = c.floor.recipe(g.recipe);
  return r && !r->finish.empty() ? "ready: " + r->finish : "ready";
}

std::string ended_words(const Context& c, const char* word, const GlueUp& g) {
  return g.ended_at ? fmt::format("{} {}", word, clock(c, *g.ended_at)) : word;
}

// Which gear of the kinds that the glue-up needs is out of use: "2 deep clamps broke".
std::string broken_gear(const Context& c, const GlueUp& g) {
  std::string out;
  for (const auto& [id, outage] : c.floor.outages) {
    const GearKind* kind = c.floor.kind(outage.kind);
    if (!kind || !outage.span.contains(c.now)) continue;
    for (const GearNeed& n : g.demand.needs) {
      if (!good_enough(*kind, n)) continue;
      out += (out.empty() ? "" : ", ") + number(outage.count, kind->name) + " broke";
      break;
    }
  }
  return out.empty() ? "gear broke" : out;
}

std::string taker(const Context& c, const GlueUp& g) {
  const GlueUp* by = c.floor.glue_up(g.snag_by);
  return by ? fmt::format("{} ({})", title(c, *by), builder(c, by->builder)) : "another glue-up";
}

std::string coldest(const Context& c, const GlueUp& g) {
  return g.weather ? fmt::format(", the wood would be at {}", degrees(c, g.weather->coldest)) : "";
}

std::string lost_to_weather(const Context& c, const GlueUp& g) {
  if (g.snag_by) return taker(c, g) + " is later or longer in this weather";
  return glue(c, g) + " would skin before the clamps are on" + coldest(c, g);
}

std::string snag_reason(const Context& c, const GlueUp& g) {
  switch (g.snag) {
    case Snag::none:
      return "";
    case Snag::gear_broken:
      return broken_gear(c, g);
    case Snag::other_overran:
      return taker(c, g) + " ran over";
    case Snag::not_started:
      return "not started by " + clock(c, g.promised.open_begin + kStartGrace);
    case Snag::earlier_step:
      return taker(c, g) + " comes first and is later now";
    case Snag::started_over:
      return taker(c, g) + " was started on its gear or time";
    case Snag::weather:
      return lost_to_weather(c, g);
    case Snag::too_cold:
      return "too cold for " + glue(c, g) + coldest(c, g);
  }
  CHECK(!"a snag outside the enumeration");
}

}  // namespace

std::string_view progress_word(Progress p) {
  switch (p) {
    case Progress::reserved:
      return "reserved";
    case Progress::open:
      return "open";
    case Progress::clamped:
      return "clamped";
    case Progress::waiting:
      return "waiting";
    case Progress::done:
      return "done";
    case Progress::spoiled:
      return "spoiled";
    case Progress::cancelled:
      return "cancelled";
    case Progress::displaced:
      return "displaced";
  }
  CHECK(!"a progress outside the enumeration");
}

std::string phase(const Context& c, const GlueUp& g) {
  switch (phase_at(g, c.now)) {
    case Phase::planned:
      return "starts " + clock(c, g.times.stage_begin);
    case Phase::stage:
      return c.now < g.times.open_begin
                 ? "lay out the gear, start by " + clock(c, g.times.open_begin)
                 : "to be started, since " + clock(c, g.times.open_begin);
    case Phase::open:
      return open_words(c, g);
    case Phase::clamped:
      return "off " + clock(c, g.times.release_begin);
    case Phase::release:
      return release_words(c, g);
    case Phase::waiting:
      return "wait till " + clock(c, g.times.ready_at);
    case Phase::ready:
      return ready_words(c, g);
    case Phase::done:
      return ended_words(c, "done", g);
    case Phase::spoiled:
      return ended_words(c, "spoiled", g);
    case Phase::cancelled:
      return ended_words(c, "cancelled", g);
    case Phase::displaced:
      return g.snag == Snag::none ? "needs a new time" : "needs a new time: " + snag(c, g);
  }
  CHECK(!"a phase outside the enumeration");
}

std::string snag(const Context& c, const GlueUp& g) {
  const std::string reason = snag_reason(c, g);
  return reason.empty() ? "" : "lost its place: " + reason;
}

}  // namespace squeezeout::words
