// A refusal as what / why / next.

#include <fmt/format.h>

#include <algorithm>

#include "client/sync/overload.h"
#include "client/words/craft.h"
#include "client/words/parts.h"
#include "client/words/say.h"

namespace squeezeout::words {
namespace {

// "Not reserved."
std::string what(const Body& asked) {
  return std::visit(
      Overload{[](const LoadShop&) { return tr("Shop not loaded."); },
               [](const Reserve&) { return tr("Not reserved."); },
               [](const Move&) { return tr("Not moved."); },
               [](const Cancel&) { return tr("Not cancelled."); },
               [](const Start&) { return tr("Not started."); },
               [](const ClampsOn&) { return tr("Clamps on: not taken."); },
               [](const ClampsOff&) { return tr("Clamps off: not taken."); },
               [](const Scraped&) { return tr("Scraped: not taken."); },
               [](const Late&) { return tr("Late: not taken."); },
               [](const Spoiled&) { return tr("Spoiled: not taken."); },
               [](const Undo&) { return tr("Nothing undone."); },
               [](const GearBroken&) { return tr("Broken gear: not taken."); },
               [](const GearMended&) { return tr("Mended gear: not taken."); },
               [](const SetStock&) { return tr("Stock not changed."); },
               [](const ClimateReading&) { return tr("Climate: not taken."); },
               [](const Tick&) { return tr("Clock tick: not taken."); },
               [](const ReadClimate&) { return tr("Readings: not taken."); },
               [](const SetForecast&) { return tr("Forecast: not taken."); },
               [](const PutLot&) { return tr("Bottle: not taken."); },
               [](const MixPot&) { return tr("Not mixed."); },
               [](const AdoptPlan&) { return tr("Plan not taken, nothing has moved."); },
               [](const UndoPlan&) { return tr("Plan not taken back, nothing has moved."); }},
      asked);
}

std::string joined(const std::vector<std::string>& lines) {
  std::string out;
  for (const auto& line : lines) out += (out.empty() ? "" : " ") + line;
  return out;
}

// Where it stands, and the press that comes next.
Told wrong_progress(const std::string& title, Progress is) {
  switch (is) {
    case Progress::reserved:
      return {"", say("{} is reserved and not started yet.", title), tr("Start comes next.")};
    case Progress::open:
      return {"", say("{} is started and its clamps are not on yet.", title),
              tr("Clamps on comes next.")};
    case Progress::clamped:
      return {"", say("{} has its clamps on.", title), tr("Clamps off comes next.")};
    case Progress::waiting:
      return {"", say("{} has its clamps off.", title), tr("Scraped comes next.")};
    case Progress::done:
      return {"", say("{} is done.", title), tr("Undo takes the last press back.")};
    case Progress::spoiled:
      return {"", say("{} is spoiled.", title), tr("Reserve it again.")};
    case Progress::cancelled:
      return {"", say("{} is cancelled.", title), tr("Reserve it again.")};
    case Progress::displaced:
      return {"", say("{} has lost its place.", title), tr("Move it to a new time, or cancel it.")};
  }
  CHECK(!"a progress outside the enumeration");
}

std::string usable_glues(const Context& c, const Body& asked) {
  const auto* reserve = std::get_if<Reserve>(&asked);
  const Recipe* r = reserve ? c.floor.recipe(reserve->recipe) : nullptr;
  if (!r || r->glues.empty()) return tr("Leave the glue out.");
  std::vector<std::string> glues;
  for (SheetId id : r->glues) glues.push_back(glue_of(c, id));
  return say("It takes {}.", listed(glues, Last::with_or));
}

Told unsuited(const Context& c, const Unsuited& u) {
  std::string why;
  const bool blocked = std::any_of(u.reasons.begin(), u.reasons.end(),
                                   [](const Reason& r) { return r.verdict == Verdict::blocked; });
  for (const Reason& r : u.reasons) why += (why.empty() ? "" : "; ") + rule(r.rule);
  return {"", say("{} does not suit: {}.", glue_of(c, u.sheet), why),
          blocked ? tr("Take another glue.")
                  : tr("Take another glue, or say why it shall be this one.")};
}

Told stale(const Context& c, const StaleLot& u) {
  const Lot* lot = c.floor.lot(u.lot);
  const std::string glue = glue_of(c, u.sheet), since = date(c, u.since);
  return {
      "",
      lot && !lot->label.empty()
          ? say("Bottle {} of {} is stale since {}, and this joint carries load.", lot->label, glue,
                since)
          : say("The bottle of {} is stale since {}, and this joint carries load.", glue, since),
      tr("Open a fresh bottle, or take another glue.")};
}

// How many clamps it takes; none where other gear presses, or where it is not known what is asked for.
int clamps(const Context& c, const Body& asked) {
  const auto* reserve = std::get_if<Reserve>(&asked);
  const Recipe* r = reserve ? c.floor.recipe(reserve->recipe) : nullptr;
  int count = 0;
  if (r)
    for (const GearNeed& n : needs_of(*r, r->joint, c.floor.shop->gear))
      if (n.gear_class == GearClass::clamp) count += n.count;
  return count;
}

Told open_too_short(const Context& c, const Body& asked, const OpenTooShort& u) {
  const std::string glue = glue_of(c, u.sheet), open = exact(u.open), took = exact(u.assembly);
  const int n = clamps(c, asked);
  return {"",
          n == 0 ? say("{}: open time {}, but the clamps usually take you {}.", glue, open, took)
                 : say("{}: open time {}, but {} usually take you {}.", glue, open,
                       say_n(n, "{} clamp", "{} clamps"), took),
          tr("Slower glue, a helper, a dry run.")};
}

Told unfit(const Context& c, const Body& asked, const Unfit& why) {
  return std::visit(
      Overload{[&](const BelowFloor& u) -> Told {
                 return {"",
                         say("{} is too cold for {}: it needs {}.", degrees_below(c, u.wood),
                             glue_of(c, u.sheet), degrees(c, u.floor)),
                         tr("Warm the wood and the shop, or take another glue.")};
               },
               [&](const OpenTooShort& u) { return open_too_short(c, asked, u); },
               [&](const GlueNotInRecipe& u) -> Told {
                 return {"", say("This recipe does not take {}.", glue_of(c, u.sheet)),
                         usable_glues(c, asked)};
               },
               [&](const Unsuited& u) { return unsuited(c, u); },
               [&](const StaleLot& u) { return stale(c, u); }},
      why);
}

// What can be done where the floor offers no other time.
std::string no_slot(const Body& asked, const std::vector<Hindrance>& why) {
  if (std::holds_alternative<Start>(asked)) return tr("Wait for it, or start anyway.");
  if (std::holds_alternative<Undo>(asked))
    return tr("It stays as it is: others have been promised that gear.");
  for (const Hindrance& h : why) {
    if (std::holds_alternative<TooCold>(h.fact))
      return tr("Warm the wood and the shop, or take another glue.");
    if (std::holds_alternative<SkinsFirst>(h.fact)) return tr("Slower glue, a helper, a dry run.");
  }
  for (const Hindrance& h : why)
    if (const auto* gear = std::get_if<GearShort>(&h.fact))
      for (const HeldBy& by : gear->holders)
        if (by.holder.what == Holder::What::outage)
          return tr("Mend what is out of use, or get more gear.");
  if (std::holds_alternative<Reserve>(asked))
    return tr("Change the recipe's needs, or get more gear.");
  return tr("Cancel it and reserve it anew.");
}

Told out_of_range(const std::string& given, const std::string& least, const std::string& most) {
  return {"", say("{} cannot be.", given),
          least == most ? say("It can be {}.", least) : say("It can be {} to {}.", least, most)};
}

// A count with its unit.
std::string counted(const Context& c, const Body& asked, const BadCount& r, int n) {
  if (std::holds_alternative<Late>(asked)) return fmt::format("{} min", n);
  if (!std::holds_alternative<ClimateReading>(asked)) return fmt::format("{}", n);
  return r.least < 0 ? degrees(c, {static_cast<double>(n)}) : fmt::format("{} %", n);
}

Told bad_count(const Context& c, const Body& asked, const BadCount& r) {
  if (r.most < r.least) {
    const bool mended = std::holds_alternative<GearMended>(asked);
    return {"",
            mended ? tr("None of them is out of use.")
                   : tr("None of them is loose: each is in a joint or out of use already."),
            tr("Look at the gear list.")};
  }
  const auto with_unit = [&](int n) { return counted(c, asked, r, n); };
  return out_of_range(with_unit(r.given), with_unit(r.least), with_unit(r.most));
}

Told bad_air(const Context& c, const BadAir& r) {
  const auto of = [&](const auto& with_unit) {
    return out_of_range(say("{} at {}", with_unit(r.given), clock(c, r.at)), with_unit(r.least),
                        with_unit(r.most));
  };
  switch (r.what) {
    case BadAir::What::celsius:
      return of([&](double v) { return degrees(c, {v}); });
    case BadAir::What::humidity:
      return of([](double v) { return fmt::format("{:g} %", v); });
    case BadAir::What::instant:
      return {"", say("The time {} cannot be.", clock(c, r.at)),
              say("Give times from {} to {}, each later than the one before.", clock(c, r.from),
                  clock(c, r.to))};
  }
  CHECK(!"a part of the air outside the enumeration");
}

std::string too_early(const Context& c, const Body& asked, Instant from) {
  const std::string at = clock(c, from);
  const bool scraped = std::holds_alternative<Scraped>(asked);
  if (from <= c.now)
    return scraped ? say("It can be worked from {}.", at) : say("Clamps can come off from {}.", at);
  const std::string wait = countdown(from - c.now);
  return scraped ? say("It can be worked from {}, in {}.", at, wait)
                 : say("Clamps can come off from {}, in {}.", at, wait);
}

Told already_reserved(const Context& c, const AlreadyReserved& r) {
  const GlueUp* g = c.floor.glue_up(r.glue_up);
  const std::string title = titled(c, r.glue_up);
  return {"",
          g ? say("{} has its glue-up already ({}).", title, phase(c, *g))
            : say("{} has its glue-up already.", title),
          tr("Move that one, or cancel it first.")};
}

Told step_missing(const Context& c, const StepMissing& r) {
  const Build* build = c.floor.build(r.build);
  const auto step = static_cast<std::size_t>(r.step);
  const bool known = build && r.step >= 0 && step < build->steps.size();
  const std::string name = known ? recipe(c, build->steps[step]) : say("step {}", r.step + 1);
  return {"",
          say("{} comes first on {} and is not reserved yet.", name,
              build ? build->name : say("build {}", r.build.value)),
          say("Reserve {} first.", name)};
}

Told below_claims(const Context& c, const BelowClaims& r) {
  const GearKind* kind = c.floor.kind(r.kind);
  std::string held;
  for (const HeldBy& h : r.clashes) held = added(held, holder(c, h));
  return {"",
          say("{} are fewer than are promised: {}.",
              kind ? number(r.wanted, kind->name) : say_n(r.wanted, "{} piece", "{} pieces"), held),
          tr("Move or cancel those first, or tell it as broken gear.")};
}

Told stale_plan(const Context& c, const Body& asked, const PlanStale& r) {
  const std::string title = titled(c, r.glue_up);
  return {"",
          r.why.empty() ? say("{} has had a press since.", title)
                        : say("{} no longer fits there: {}", title, joined(why(c, r.why))),
          std::holds_alternative<UndoPlan>(asked) ? tr("Move them one by one.")
                                                  : tr("Ask for a new plan.")};
}

// Why and next; `what` is left to the caller.
Told reason(const Context& c, const Body& asked, const Refusal& refused) {
  return std::visit(
      Overload{
          [&](const NoSuch& r) -> Told {
            return {"", no_such(r.what, r.id), tr("Look again: it may have been removed.")};
          },
          [&](const DoesNotFit& r) -> Told {
            return {"", joined(why(c, r.why)),
                    r.next ? say("{} can be had.", clock(c, r.next->times.stage_begin))
                           : no_slot(asked, r.why)};
          },
          [&](const NotPossible& r) { return unfit(c, asked, r.why); },
          [&](const WrongProgress& r) { return wrong_progress(titled(c, r.glue_up), r.is); },
          [&](const TooEarly& r) -> Told {
            return {"", too_early(c, asked, r.from), tr("Wait for it, or do it anyway.")};
          },
          [&](const BadTime& r) -> Told {
            return {"", say("{} cannot be.", clock(c, r.given)),
                    say("Give a time from {} to {}.", clock(c, r.least), clock(c, r.most))};
          },
          [&](const BadCount& r) { return bad_count(c, asked, r); },
          [&](const AlreadyReserved& r) { return already_reserved(c, r); },
          [&](const StepMissing& r) { return step_missing(c, r); },
          [&](const BelowClaims& r) { return below_claims(c, r); },
          [&](const NothingToUndo& r) -> Told {
            return {"",
                    say("{} has no press of the last {} to take back.", titled(c, r.glue_up),
                        length(kUndoWindow)),
                    tr("Press what is true now.")};
          },
          [&](const BadShop& r) -> Told {
            std::string all;
            for (const Mistake& m : r.mistakes)
              all += fmt::format("{}{}: {}. {}", all.empty() ? "" : "\n", m.where, m.what, m.mend);
            return {"", all, tr("Mend the shop file and load it again.")};
          },
          [&](const TooMany& r) -> Told {
            return {"", too_many(r.what, r.most), too_many_next(r.what)};
          },
          [&](const PotSpent& r) -> Told {
            const std::string set = clock(c, r.until);
            return {"",
                    r.until <= c.now
                        ? say("That mix has set in the pot, {}.", set)
                        : say("That mix sets in the pot {}, before the clamps would be on.", set),
                    tr("Mix a new pot.")};
          },
          [&](const BadAir& r) { return bad_air(c, r); },
          [&](const PlanStale& r) { return stale_plan(c, asked, r); }},
      refused);
}

}  // namespace

Told refusal(const Context& c, const Body& asked, const Refusal& r) {
  Told told = reason(c, asked, r);
  told.what = what(asked);
  told.why = capital(std::move(told.why));
  return told;
}

}  // namespace squeezeout::words
