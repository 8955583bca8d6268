// Where a glue-up stands.

#include <fmt/format.h>

#include "client/words/parts.h"
#include "client/words/say.h"

namespace squeezeout::words {
namespace {

std::string open_words(const Context& c, const GlueUp& g) {
  const auto by = clamps_on_by(g);
  if (!by) return say("under way since {}", clock(c, g.times.open_begin));
  if (c.now > *by) return say("glue wet, clamps should have been on by {}", clock(c, *by));
  return say("glue wet, clamps on by {}", clock(c, *by));
}

std::string release_words(const Context& c, const GlueUp& g) {
  const Instant off = g.times.release_begin;
  if (!over_time(g, c.now)) return say("clamps can come off since {}", clock(c, off));
  return say("{} over, off was {}", length(c.now - off), clock(c, off));
}

std::string ready_words(const Context& c, const GlueUp& g) {
  const Recipe* r = c.floor.recipe(g.recipe);
  return r && !r->finish.empty() ? say("ready: {}", r->finish) : tr("ready");
}

std::string stage_words(const Context& c, const GlueUp& g) {
  const std::string start = clock(c, g.times.open_begin);
  return c.now < g.times.open_begin ? say("lay out the gear, start by {}", start)
                                    : say("to be started, since {}", start);
}

// Which gear of the kinds that the glue-up needs is out of use: "2 deep clamps broke".
std::string broken_gear(const Context& c, const GlueUp& g) {
  std::string out;
  for (const auto& [id, outage] : c.floor.outages) {
    const GearKind* kind = c.floor.kind(outage.kind);
    if (!kind || !outage.span.contains(c.now)) continue;
    for (const GearNeed& n : g.demand.needs) {
      if (!good_enough(*kind, n)) continue;
      out = added(out, say("{} broke", number(outage.count, kind->name)));
      break;
    }
  }
  return out.empty() ? tr("gear broke") : out;
}

std::string taker(const Context& c, const GlueUp& g) {
  const GlueUp* by = c.floor.glue_up(g.snag_by);
  return by ? fmt::format("{} ({})", title(c, *by), builder(c, by->builder))
            : tr("another glue-up");
}

std::string too_cold(const Context& c, const GlueUp& g) {
  if (!g.weather) return say("too cold for {}", glue(c, g));
  return say("too cold for {}, the wood would be at {}", glue(c, g),
             degrees(c, g.weather->coldest));
}

std::string lost_to_weather(const Context& c, const GlueUp& g) {
  if (g.snag_by) return say("{} is later or longer in this weather", taker(c, g));
  if (!g.weather) return say("{} would skin before the clamps are on", glue(c, g));
  return say("{} would skin before the clamps are on, the wood would be at {}", glue(c, g),
             degrees(c, g.weather->coldest));
}

std::string snag_reason(const Context& c, const GlueUp& g) {
  switch (g.snag) {
    case Snag::none:
      return "";
    case Snag::gear_broken:
      return broken_gear(c, g);
    case Snag::other_overran:
      return say("{} ran over", taker(c, g));
    case Snag::not_started:
      return say("not started by {}", clock(c, g.promised.open_begin + kStartGrace));
    case Snag::earlier_step:
      return say("{} comes first and is later now", taker(c, g));
    case Snag::started_over:
      return say("{} was started on its gear or time", taker(c, g));
    case Snag::weather:
      return lost_to_weather(c, g);
    case Snag::too_cold:
      return too_cold(c, g);
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
      return say("starts {}", clock(c, g.times.stage_begin));
    case Phase::stage:
      return stage_words(c, g);
    case Phase::open:
      return open_words(c, g);
    case Phase::clamped:
      return say("off {}", clock(c, g.times.release_begin));
    case Phase::release:
      return release_words(c, g);
    case Phase::waiting:
      return say("wait till {}", clock(c, g.times.ready_at));
    case Phase::ready:
      return ready_words(c, g);
    case Phase::done:
      return g.ended_at ? say("done {}", clock(c, *g.ended_at)) : tr("done");
    case Phase::spoiled:
      return g.ended_at ? say("spoiled {}", clock(c, *g.ended_at)) : tr("spoiled");
    case Phase::cancelled:
      return g.ended_at ? say("cancelled {}", clock(c, *g.ended_at)) : tr("cancelled");
    case Phase::displaced:
      return g.snag == Snag::none ? tr("needs a new time")
                                  : say("needs a new time: {}", snag(c, g));
  }
  CHECK(!"a phase outside the enumeration");
}

std::string snag(const Context& c, const GlueUp& g) {
  const std::string reason = snag_reason(c, g);
  return reason.empty() ? "" : say("lost its place: {}", reason);
}

}  // namespace squeezeout::words
