// What was asked and is done.

#include <fmt/format.h>

#include "client/sync/overload.h"
#include "client/words/words.h"

namespace squeezeout::words {
namespace {

std::string kind_name(const Context& c, GearKindId id, int count) {
  const GearKind* kind = c.floor.kind(id);
  return number(count, kind ? kind->name : "piece");
}

// Where the glue-up stands now: ", off 15:40"; nothing when the mirror does not hold it.
std::string after(const Context& c, GlueUpId id) {
  const GlueUp* g = c.floor.glue_up(id);
  return g ? fmt::format("{}: {}.", title(c, *g), phase(c, *g)) : "";
}

std::string with(const std::string& said, const std::string& more) {
  return more.empty() ? said : said + " " + more;
}

std::string planned(const Context& c, GlueUpId id) {
  const GlueUp* g = c.floor.glue_up(id);
  return g ? slot(c, g->times) : "";
}

}  // namespace

std::string slot(const Context& c, const PhaseTimes& t) {
  std::string out = "Start " + clock(c, t.stage_begin);
  if (t.open_begin > t.stage_begin) out += ", glue " + clock(c, t.open_begin);
  out += ", off about " + clock(c, t.release_begin);
  if (t.ready_at > t.release_end) out += ", ready " + clock(c, t.ready_at);
  return out + ".";
}

std::string done(const Context& c, const Body& asked, GlueUpId g) {
  return std::visit(
      Overload{[&](const LoadShop& b) { return fmt::format("Shop \"{}\" loaded.", b.shop.name); },
               [&](const Reserve&) { return with("Reserved.", planned(c, g)); },
               [&](const Move&) { return with("Moved.", planned(c, g)); },
               [&](const Cancel&) { return std::string("Cancelled. Its gear is free."); },
               [&](const Start&) { return with("Started.", after(c, g)); },
               [&](const ClampsOn&) { return with("Clamps on.", after(c, g)); },
               [&](const ClampsOff&) { return with("Clamps off, its gear is free.", after(c, g)); },
               [&](const Scraped&) { return with("Scraped.", after(c, g)); },
               [&](const Late& b) { return with("Late by " + length(b.by) + ".", after(c, g)); },
               [&](const Spoiled&) { return with("Spoiled.", after(c, g)); },
               [&](const Undo&) { return with("Last press taken back.", after(c, g)); },
               [&](const GearBroken& b) { return kind_name(c, b.kind, b.count) + " out of use."; },
               [&](const GearMended& b) { return kind_name(c, b.kind, b.count) + " back in use."; },
               [&](const SetStock& b) { return "Stock: " + kind_name(c, b.kind, b.count) + "."; },
               [&](const ClimateReading& b) {
                 return fmt::format("Climate {:g} C, {:g} % taken.", b.air.value, b.humidity.value);
               },
               [&](const Tick&) { return std::string("The clock moved on."); }},
      asked);
}

}  // namespace squeezeout::words
