#include "client/alarm/alarm_words.h"

#include "client/words/say.h"
#include "common/trade/bend.h"

namespace squeezeout::alarm {
namespace {

using words::say;
using words::tr;

Line wet(const words::Context& c, const GlueUp& g, Instant by) {
  const std::string title = words::title(c, g), clock = words::clock(c, by);
  if (c.now < by)
    return {say("{}: clamps on by {}, {} left.", title, clock, words::countdown(by - c.now)),
            tr("Put the clamps on now.")};
  return {say("{}: clamps were due on by {}.", title, clock),
          tr("Still wet: clamps on now. Skinned: press Spoiled, start over.")};
}

Line hot(const words::Context& c, const GlueUp& g, Instant limit) {
  return {
      say("{}: heat was due off at {}.", words::title(c, g), words::clock(c, limit)),
      say("Heat off, let it cool. It burns skin from {}: gloves.", words::degrees(c, kHotToTouch))};
}

Line due(const words::Context& c, const GlueUp& g, const Alarm& a) {
  const std::string what =
      say("{}: clamps can come off since {}.", words::title(c, g), words::clock(c, a.limit));
  const GlueUp* next = c.floor.glue_up(a.wanted_by);
  if (next == nullptr) return {what, tr("Take them off when you can.")};
  return {what,
          say("{} waits for them: {}.", words::builder(c, next->builder), words::title(c, *next))};
}

}  // namespace

Line line_of(const words::Context& c, const Alarm& a) {
  const GlueUp* g = c.floor.glue_up(a.glue_up);
  if (g == nullptr) return {};
  switch (a.reason) {
    case Reason::wet:
      return wet(c, *g, a.limit);
    case Reason::form:
      return hot(c, *g, a.limit);
    case Reason::clamps:
      return due(c, *g, a);
  }
  CHECK(!"a reason outside the enumeration");
}

Line line_of(const words::Context& c, const Told& told) {
  if (told.alarms.empty()) return {};
  if (too_many(told))
    return {say("{} alarms within 10 min.", told.lately),
            tr("Look at the Bench screen: what cannot wait stands on top.")};
  Line line = line_of(c, told.alarms.front());
  if (const std::size_t more = told.alarms.size() - 1; more > 0)
    line.what += " " + words::say_n(more, "{} more alarm.", "{} more alarms.");
  return line;
}

}  // namespace squeezeout::alarm
