// What was asked and is done.

#include "client/sync/overload.h"
#include "client/words/parts.h"
#include "client/words/say.h"

namespace squeezeout::words {
namespace {

std::string kind_name(const Context& c, GearKindId id, int count) {
  const GearKind* kind = c.floor.kind(id);
  return kind ? number(count, kind->name) : say_n(count, "{} piece", "{} pieces");
}

// Where the glue-up stands now: "No. 14 · bridge: off 15:40."; nothing when the mirror does not hold it.
std::string after(const Context& c, GlueUpId id) {
  const GlueUp* g = c.floor.glue_up(id);
  return g ? title(c, *g) + ": " + phase(c, *g) + "." : "";
}

std::string with(const std::string& said, const std::string& more) {
  return more.empty() ? said : said + " " + more;
}

std::string sheet_name(const Context& c, SheetId id) { return capital(glue_of(c, id)); }

std::string bottle(const Context& c, const Lot& lot) {
  const std::string glue = sheet_name(c, lot.sheet);
  return lot.label.empty() ? glue : say("{}, bottle {}", glue, lot.label);
}

std::string mixed_words(const Context& c, const MixPot& mix) {
  const Pot* last = nullptr;
  for (const auto& [id, pot] : c.floor.pots)
    if (pot.sheet == mix.sheet && pot.bench == mix.bench) last = &pot;
  const std::string glue = sheet_name(c, mix.sheet);
  return last ? say("{} mixed. It sets in the pot {}.", glue, clock(c, last->until))
              : say("{} mixed.", glue);
}

std::string taken_back(const Context& c, const UndoPlan& b) {
  const auto plan = c.floor.plans.find(b.plan);
  if (plan == c.floor.plans.end()) return tr("Plan taken back.");
  return say_n(plan->second.glue_ups.size(), "Plan taken back, {} glue-up as before.",
               "Plan taken back, {} glue-ups as before.");
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
  const std::string start = clock(c, t.stage_begin), glue = clock(c, t.open_begin),
                    off = clock(c, t.release_begin), ready = clock(c, t.ready_at);
  const bool stages = t.open_begin > t.stage_begin, waits = t.ready_at > t.release_end;
  if (stages && waits)
    return say("Start {}, glue {}, off about {}, ready {}.", start, glue, off, ready);
  if (stages) return say("Start {}, glue {}, off about {}.", start, glue, off);
  if (waits) return say("Start {}, off about {}, ready {}.", start, off, ready);
  return say("Start {}, off about {}.", start, off);
}

std::string done(const Context& c, const Body& asked, GlueUpId g) {
  return std::visit(
      Overload{
          [&](const LoadShop& b) { return say("Shop \"{}\" loaded.", b.shop.name); },
          [&](const Reserve&) { return with(tr("Reserved."), planned(c, g)); },
          [&](const Move&) { return with(tr("Moved."), planned(c, g)); },
          [&](const Cancel&) { return tr("Cancelled. Its gear is free."); },
          [&](const Start&) { return with(tr("Started."), after(c, g)); },
          [&](const ClampsOn&) { return with(tr("Clamps on."), after(c, g)); },
          [&](const ClampsOff&) { return with(tr("Clamps off, its gear is free."), after(c, g)); },
          [&](const Scraped&) { return with(tr("Scraped."), after(c, g)); },
          [&](const Late& b) { return with(say("Late by {}.", length(b.by)), after(c, g)); },
          [&](const Spoiled&) { return with(tr("Spoiled."), after(c, g)); },
          [&](const Undo&) { return with(tr("Last press taken back."), after(c, g)); },
          [&](const GearBroken& b) { return say("{} out of use.", kind_name(c, b.kind, b.count)); },
          [&](const GearMended& b) {
            return say("{} back in use.", kind_name(c, b.kind, b.count));
          },
          [&](const SetStock& b) { return say("Stock: {}.", kind_name(c, b.kind, b.count)); },
          [&](const ClimateReading& b) {
            return say("Climate {}, {:g} % taken.", degrees(c, b.air), b.humidity.value);
          },
          [&](const Tick&) { return tr("The clock moved on."); },
          [&](const ReadClimate& b) {
            return say_n(b.readings.size(), "{} reading of the air taken.",
                         "{} readings of the air taken.");
          },
          [&](const SetForecast& b) {
            return b.points.empty() ? tr("The forecast is taken away.")
                                    : say("Forecast taken, till {}.", clock(c, b.points.back().at));
          },
          [&](const PutLot& b) {
            const std::string what = bottle(c, b.lot);
            return b.lot.used_up ? say("{}: used up.", what) : say("{}: on record.", what);
          },
          [&](const MixPot& b) { return mixed_words(c, b); },
          [&](const AdoptPlan& b) {
            return say_n(b.moves.size(), "{} glue-up moved.", "{} glue-ups moved.");
          },
          [&](const UndoPlan& b) { return taken_back(c, b); }},
      asked);
}

}  // namespace squeezeout::words
