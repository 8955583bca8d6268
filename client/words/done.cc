// What was asked and is done.

#include <fmt/format.h>

#include "client/sync/overload.h"
#include "client/words/say.h"
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

std::string sheet_name(const Context& c, SheetId id) {
  const AdhesiveSheet* sheet = c.floor.sheet(id);
  return sheet ? sheet->name : "Glue";
}

std::string bottle(const Context& c, const Lot& lot) {
  const std::string glue = sheet_name(c, lot.sheet);
  return lot.label.empty() ? glue : fmt::format("{}, bottle {}", glue, lot.label);
}

std::string mixed_words(const Context& c, const MixPot& mix) {
  const Pot* last = nullptr;
  for (const auto& [id, pot] : c.floor.pots)
    if (pot.sheet == mix.sheet && pot.bench == mix.bench) last = &pot;
  const std::string said = sheet_name(c, mix.sheet) + " mixed.";
  return last ? said + " It sets in the pot " + clock(c, last->until) + "." : said;
}

std::string planned(const Context& c, GlueUpId id) {
  const GlueUp* g = c.floor.glue_up(id);
  return g ? slot(c, g->times) : "";
}

}  // namespace

std::string back_live(int sent, int needs_you) {
  if (sent == 0) return tr("Live again.");
  if (needs_you == 0) return say_n(sent, "Live. {} press sent.", "Live. {} presses sent.");
  if (sent == 1) return tr("Live. 1 press sent, and it needs you.");
  return needs_you == 1 ? say("Live. {} presses sent, 1 needs you.", sent)
                        : say("Live. {} presses sent, {} need you.", sent, needs_you);
}

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
                 return fmt::format("Climate {}, {:g} % taken.", degrees(c, b.air),
                                    b.humidity.value);
               },
               [&](const Tick&) { return std::string("The clock moved on."); },
               [&](const ReadClimate& b) {
                 const auto n = static_cast<int>(b.readings.size());
                 return number(n, "reading") + " of the air taken.";
               },
               [&](const SetForecast& b) {
                 if (b.points.empty()) return std::string("The forecast is taken away.");
                 return "Forecast taken, till " + clock(c, b.points.back().at) + ".";
               },
               [&](const PutLot& b) {
                 return fmt::format("{}: {}.", bottle(c, b.lot),
                                    b.lot.used_up ? "used up" : "on record");
               },
               [&](const MixPot& b) { return mixed_words(c, b); },
               [&](const AdoptPlan& b) {
                 return number(static_cast<int>(b.moves.size()), "glue-up") + " moved.";
               },
               [&](const UndoPlan& b) {
                 const auto plan = c.floor.plans.find(b.plan);
                 if (plan == c.floor.plans.end()) return std::string("Plan taken back.");
                 const int n = static_cast<int>(plan->second.glue_ups.size());
                 return fmt::format("Plan taken back, {} as before.", number(n, "glue-up"));
               }},
      asked);
}

}  // namespace squeezeout::words
