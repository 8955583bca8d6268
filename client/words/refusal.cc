// A refusal as what / why / next.

#include <fmt/format.h>

#include <algorithm>

#include "client/sync/overload.h"
#include "client/words/craft.h"
#include "client/words/words.h"

namespace squeezeout::words {
namespace {

// "Not reserved."
std::string what(const Body& asked) {
  return std::visit(
      Overload{[](const LoadShop&) { return "Shop not loaded."; },
               [](const Reserve&) { return "Not reserved."; },
               [](const Move&) { return "Not moved."; },
               [](const Cancel&) { return "Not cancelled."; },
               [](const Start&) { return "Not started."; },
               [](const ClampsOn&) { return "Clamps on: not taken."; },
               [](const ClampsOff&) { return "Clamps off: not taken."; },
               [](const Scraped&) { return "Scraped: not taken."; },
               [](const Late&) { return "Late: not taken."; },
               [](const Spoiled&) { return "Spoiled: not taken."; },
               [](const Undo&) { return "Nothing undone."; },
               [](const GearBroken&) { return "Broken gear: not taken."; },
               [](const GearMended&) { return "Mended gear: not taken."; },
               [](const SetStock&) { return "Stock not changed."; },
               [](const ClimateReading&) { return "Climate: not taken."; },
               [](const Tick&) { return "Clock tick: not taken."; },
               [](const ReadClimate&) { return "Readings: not taken."; },
               [](const SetForecast&) { return "Forecast: not taken."; },
               [](const PutLot&) { return "Bottle: not taken."; },
               [](const MixPot&) { return "Not mixed."; },
               [](const AdoptPlan&) { return "Plan not taken, nothing has moved."; },
               [](const UndoPlan&) { return "Plan not taken back, nothing has moved."; }},
      asked);
}

const char* thing(Thing t) {
  switch (t) {
    case Thing::shop:
      return "shop";
    case Thing::bench:
      return "bench";
    case Thing::builder:
      return "builder";
    case Thing::gear_kind:
      return "gear kind";
    case Thing::sheet:
      return "glue";
    case Thing::recipe:
      return "recipe";
    case Thing::build:
      return "build";
    case Thing::glue_up:
      return "glue-up";
    case Thing::outage:
      return "outage";
    case Thing::lot:
      return "bottle";
    case Thing::pot:
      return "pot";
    case Thing::air_point:
      return "point of air";
    case Thing::plan:
      return "plan";
  }
  CHECK(!"a thing outside the enumeration");
}

std::string titled(const Context& c, GlueUpId id) {
  const GlueUp* g = c.floor.glue_up(id);
  return g ? title(c, *g) : fmt::format("Glue-up {}", id.value);
}

std::string joined(const std::vector<std::string>& lines) {
  std::string out;
  for (const auto& line : lines) out += (out.empty() ? "" : " ") + line;
  return out;
}

// Where it stands, and the press that comes next.
struct Stand {
  const char* is;
  const char* next;
};
Stand stand(Progress p) {
  switch (p) {
    case Progress::reserved:
      return {"is reserved and not started yet", "Start comes next."};
    case Progress::open:
      return {"is started and its clamps are not on yet", "Clamps on comes next."};
    case Progress::clamped:
      return {"has its clamps on", "Clamps off comes next."};
    case Progress::waiting:
      return {"has its clamps off", "Scraped comes next."};
    case Progress::done:
      return {"is done", "Undo takes the last press back."};
    case Progress::spoiled:
      return {"is spoiled", "Reserve it again."};
    case Progress::cancelled:
      return {"is cancelled", "Reserve it again."};
    case Progress::displaced:
      return {"has lost its place", "Move it to a new time, or cancel it."};
  }
  CHECK(!"a progress outside the enumeration");
}

std::string glue_name(const Context& c, SheetId id) {
  const AdhesiveSheet* sheet = c.floor.sheet(id);
  return sheet ? small(sheet->name) : "this glue";
}

std::string usable_glues(const Context& c, const Body& asked) {
  const auto* reserve = std::get_if<Reserve>(&asked);
  const Recipe* r = reserve ? c.floor.recipe(reserve->recipe) : nullptr;
  if (!r || r->glues.empty()) return "Leave the glue out.";
  std::string out;
  for (SheetId id : r->glues) out += (out.empty() ? "" : " or ") + glue_name(c, id);
  return "It takes " + out + ".";
}

Told unsuited(const Context& c, const Unsuited& u) {
  std::string why;
  const bool blocked = std::any_of(u.reasons.begin(), u.reasons.end(),
                                   [](const Reason& r) { return r.verdict == Verdict::blocked; });
  for (const Reason& r : u.reasons) why += (why.empty() ? "" : "; ") + rule(r.rule);
  return {"", fmt::format("{} does not suit: {}.", glue_name(c, u.sheet), why),
          blocked ? "Take another glue." : "Take another glue, or say why it shall be this one."};
}

Told unfit(const Context& c, const Body& asked, const Unfit& why) {
  return std::visit(
      Overload{
          [&](const BelowFloor& u) -> Told {
            return {"",
                    fmt::format("{} is too cold for {}: it needs {}.", degrees_below(c, u.wood),
                                glue_name(c, u.sheet), degrees(c, u.floor)),
                    "Warm the wood and the shop, or take another glue."};
          },
          [&](const OpenTooShort& u) -> Told {
            return {"",
                    fmt::format("{} stays open {}, but the clamps usually take {}.",
                                glue_name(c, u.sheet), exact(u.open), exact(u.assembly)),
                    "Slower glue, a helper, a dry run."};
          },
          [&](const GlueNotInRecipe& u) -> Told {
            return {"", fmt::format("This recipe does not take {}.", glue_name(c, u.sheet)),
                    usable_glues(c, asked)};
          },
          [&](const Unsuited& u) { return unsuited(c, u); },
          [&](const StaleLot& u) -> Told {
            const Lot* lot = c.floor.lot(u.lot);
            const std::string label = lot && !lot->label.empty() ? " " + lot->label : "";
            return {"",
                    fmt::format("bottle{} of {} is stale since {}, and this joint carries load.",
                                label, glue_name(c, u.sheet), date(c, u.since)),
                    "Open a fresh bottle, or take another glue."};
          }},
      why);
}

// What can be done where the floor offers no other time.
std::string no_slot(const Body& asked, const std::vector<Hindrance>& why) {
  if (std::holds_alternative<Start>(asked)) return "Wait for it, or start anyway.";
  if (std::holds_alternative<Undo>(asked))
    return "It stays as it is: others have been promised that gear.";
  for (const Hindrance& h : why) {
    if (std::holds_alternative<TooCold>(h.fact))
      return "Warm the wood and the shop, or take another glue.";
    if (std::holds_alternative<SkinsFirst>(h.fact)) return "Slower glue, a helper, a dry run.";
  }
  for (const Hindrance& h : why)
    if (const auto* gear = std::get_if<GearShort>(&h.fact))
      for (const HeldBy& by : gear->holders)
        if (by.holder.what == Holder::What::outage)
          return "Mend what is out of use, or get more gear.";
  if (std::holds_alternative<Reserve>(asked)) return "Change the recipe's needs, or get more gear.";
  return "Cancel it and reserve it anew.";
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
            mended ? "None of them is out of use."
                   : "None of them is loose: each is in a joint or out of use already.",
            "Look at the gear list."};
  }
  const auto with_unit = [&](int n) { return counted(c, asked, r, n); };
  return {"", fmt::format("{} cannot be.", with_unit(r.given)),
          r.least == r.most
              ? fmt::format("It can be {}.", with_unit(r.least))
              : fmt::format("It can be {} to {}.", with_unit(r.least), with_unit(r.most))};
}

Told bad_air(const Context& c, const BadAir& r) {
  const auto number = [&](const auto& with_unit) -> Told {
    return {"", fmt::format("{} at {} cannot be.", with_unit(r.given), clock(c, r.at)),
            fmt::format("It can be {} to {}.", with_unit(r.least), with_unit(r.most))};
  };
  switch (r.what) {
    case BadAir::What::celsius:
      return number([&](double v) { return degrees(c, {v}); });
    case BadAir::What::humidity:
      return number([](double v) { return fmt::format("{:g} %", v); });
    case BadAir::What::instant:
      return {"", fmt::format("The time {} cannot be.", clock(c, r.at)),
              fmt::format("Give times from {} to {}, each later than the one before.",
                          clock(c, r.from), clock(c, r.to))};
  }
  CHECK(!"a part of the air outside the enumeration");
}

const char* too_many_next(Thing t) {
  switch (t) {
    case Thing::lot:
      return "Mark bottles as used up, and use their records again.";
    case Thing::pot:
      return "Pots leave the record after two days.";
    case Thing::air_point:
      return "Give fewer, further apart.";
    default:
      return "Finish or cancel some first.";
  }
}

std::string too_early_word(const Body& asked) {
  if (std::holds_alternative<Scraped>(asked)) return "It can be worked";
  return "Clamps can come off";
}

// Why and next; `what` is left to the caller.
Told reason(const Context& c, const Body& asked, const Refusal& refused) {
  return std::visit(
      Overload{
          [&](const NoSuch& r) -> Told {
            return {"", fmt::format("There is no {} {} here.", thing(r.what), r.id),
                    "Look again: it may have been removed."};
          },
          [&](const DoesNotFit& r) -> Told {
            const std::string next = r.next ? clock(c, r.next->times.stage_begin) + " can be had."
                                            : no_slot(asked, r.why);
            return {"", joined(why(c, r.why)), next};
          },
          [&](const NotPossible& r) { return unfit(c, asked, r.why); },
          [&](const WrongProgress& r) -> Told {
            const Stand s = stand(r.is);
            return {"", fmt::format("{} {}.", titled(c, r.glue_up), s.is), s.next};
          },
          [&](const TooEarly& r) -> Told {
            const std::string wait =
                r.from > c.now ? fmt::format(", in {}", countdown(r.from - c.now)) : "";
            return {"", fmt::format("{} from {}{}.", too_early_word(asked), clock(c, r.from), wait),
                    "Wait for it, or do it anyway."};
          },
          [&](const BadTime& r) -> Told {
            return {"", fmt::format("{} cannot be.", clock(c, r.given)),
                    fmt::format("Give a time from {} to {}.", clock(c, r.least), clock(c, r.most))};
          },
          [&](const BadCount& r) { return bad_count(c, asked, r); },
          [&](const AlreadyReserved& r) -> Told {
            const GlueUp* g = c.floor.glue_up(r.glue_up);
            return {"",
                    fmt::format("{} has its glue-up already{}.", titled(c, r.glue_up),
                                g ? " (" + phase(c, *g) + ")" : ""),
                    "Move that one, or cancel it first."};
          },
          [&](const StepMissing& r) -> Told {
            const Build* build = c.floor.build(r.build);
            const auto step = static_cast<std::size_t>(r.step);
            const bool known = build && r.step >= 0 && step < build->steps.size();
            const std::string name =
                known ? recipe(c, build->steps[step]) : fmt::format("step {}", r.step + 1);
            return {"",
                    fmt::format("{} comes first on {} and is not reserved yet.", name,
                                build ? build->name : fmt::format("build {}", r.build.value)),
                    fmt::format("Reserve {} first.", name)};
          },
          [&](const BelowClaims& r) -> Told {
            const GearKind* kind = c.floor.kind(r.kind);
            std::string held;
            for (const HeldBy& h : r.clashes) held += (held.empty() ? "" : ", ") + holder(c, h);
            return {"",
                    fmt::format("{} are fewer than are promised: {}.",
                                number(r.wanted, kind ? kind->name : "piece"), held),
                    "Move or cancel those first, or tell it as broken gear."};
          },
          [&](const NothingToUndo& r) -> Told {
            return {"",
                    fmt::format("{} has no press of the last {} to take back.",
                                titled(c, r.glue_up), length(kUndoWindow)),
                    "Press what is true now."};
          },
          [&](const BadShop& r) -> Told {
            std::string all;
            for (const Mistake& m : r.mistakes)
              all += fmt::format("{}{}: {}. {}", all.empty() ? "" : "\n", m.where, m.what, m.mend);
            return {"", all, "Mend the shop file and load it again."};
          },
          [&](const TooMany& r) -> Told {
            return {
                "",
                fmt::format("The floor holds at most {} of its {}.", r.most, plural(thing(r.what))),
                too_many_next(r.what)};
          },
          [&](const PotSpent& r) -> Told {
            return {"",
                    r.until <= c.now
                        ? fmt::format("That mix has set in the pot, {}.", clock(c, r.until))
                        : fmt::format("That mix sets in the pot {}, before the clamps would be on.",
                                      clock(c, r.until)),
                    "Mix a new pot."};
          },
          [&](const BadAir& r) { return bad_air(c, r); },
          [&](const PlanStale& r) -> Told {
            const bool undo = std::holds_alternative<UndoPlan>(asked);
            const char* next = undo ? "Move them one by one." : "Ask for a new plan.";
            if (r.why.empty())
              return {"", fmt::format("{} has had a press since.", titled(c, r.glue_up)), next};
            return {"",
                    fmt::format("{} no longer fits there: {}", titled(c, r.glue_up),
                                joined(why(c, r.why))),
                    next};
          }},
      refused);
}

}  // namespace

Told refusal(const Context& c, const Body& asked, const Refusal& r) {
  Told told = reason(c, asked, r);
  told.what = what(asked);
  if (!told.why.empty() && told.why[0] >= 'a' && told.why[0] <= 'z')
    told.why[0] = static_cast<char>(told.why[0] - 'a' + 'A');
  return told;
}

}  // namespace squeezeout::words
