// Bottles and mixes: what stands on the shelf and how old it is, and glue that was mixed in one go.

#include <fmt/format.h>

#include "client/words/columns.h"
#include "client/words/craft.h"
#include "tools/cli/names.h"
#include "tools/cli/times.h"
#include "tools/cli/verbs.h"

namespace squeezeout::cli {
namespace {

using words::Align;
using Rows = std::vector<std::vector<std::string>>;

std::string date(const words::Context& c, const std::optional<Instant>& t) {
  return t ? words::date(c, *t) : "";
}

const char* age_key(LotAge age) {
  switch (age) {
    case LotAge::unknown:
      return "unknown";
    case LotAge::fresh:
      return "fresh";
    case LotAge::old:
      return "old";
    case LotAge::stale:
      return "stale";
  }
  CHECK(!"an age outside the enumeration");
}

Json lot_json(const words::Context& c, const Lot& lot) {
  const AdhesiveSheet* sheet = c.floor.sheet(lot.sheet);
  return {{"lot", lot.id.value},
          {"glue", sheet ? Json(sheet->key) : Json(nullptr)},
          {"label", lot.label},
          {"made", time_json(c, lot.made)},
          {"opened", time_json(c, lot.opened)},
          {"expires", time_json(c, lot.expires)},
          {"stored", lot.stored == Stored::warm ? "warm" : "cool"},
          {"stale_from", sheet ? time_json(c, stale_from(lot, *sheet)) : Json(nullptr)},
          {"age", sheet ? Json(age_key(age_of(lot, *sheet, c.now))) : Json(nullptr)},
          {"used_up", lot.used_up}};
}

Json pot_json(const words::Context& c, const Pot& pot) {
  const AdhesiveSheet* sheet = c.floor.sheet(pot.sheet);
  const Bench* bench = c.floor.bench(pot.bench);
  return {{"pot", pot.id.value},
          {"glue", sheet ? Json(sheet->key) : Json(nullptr)},
          {"lot", pot.lot ? Json(pot.lot.value) : Json(nullptr)},
          {"bench", bench ? Json(bench->key) : Json(nullptr)},
          {"mixed_at", time_json(c, pot.mixed_at)},
          {"until", time_json(c, pot.until)}};
}

void say_lots(Tool& tool, bool all) {
  (void)tool.session().shop();
  const words::Context c = tool.session().context();
  Rows bottles, mixes;
  Json lots = Json::array(), pots = Json::array();
  for (const auto& [id, lot] : c.floor.lots) {
    const AdhesiveSheet* sheet = c.floor.sheet(lot.sheet);
    if (!sheet || (lot.used_up && !all)) continue;
    const std::string age = lot.used_up ? "used up" : words::lot_age(age_of(lot, *sheet, c.now));
    bottles.push_back({fmt::format("{}", id.value), sheet->name, lot.label, date(c, lot.made),
                       date(c, lot.opened), lot.stored == Stored::warm ? "warm" : "cool",
                       date(c, stale_from(lot, *sheet)), age});
    lots.push_back(lot_json(c, lot));
  }
  for (const auto& [id, pot] : c.floor.pots) {
    const AdhesiveSheet* sheet = c.floor.sheet(pot.sheet);
    if (!sheet || pot.until <= c.now) continue;
    mixes.push_back({fmt::format("{}", id.value), sheet->name, words::bench(c, pot.bench),
                     words::clock(c, pot.mixed_at), words::clock(c, pot.until)});
    pots.push_back(pot_json(c, pot));
  }
  std::string text = bottles.empty() ? "No bottle is on record.\n"
                                     : words::table({{"no.", Align::right},
                                                     {"glue"},
                                                     {"label"},
                                                     {"made"},
                                                     {"opened"},
                                                     {"kept"},
                                                     {"stale from"},
                                                     {"age"}},
                                                    bottles);
  if (!mixes.empty())
    text += "\nmixed\n" +
            words::table({{"pot", Align::right}, {"glue"}, {"bench"}, {"mixed"}, {"sets"}}, mixes);
  tool.print(text, {{"lots", lots}, {"pots", pots}});
}

struct LotArgs {
  std::string glue, lot, bench, label, made, opened, expires;
  bool warm = false;  // as CLI11 fills it in
};

// A day as it stands on a bottle: its beginning; of "good till", its end.
std::optional<Instant> begin_of(const words::Context& c, const std::string& day) {
  if (day.empty()) return std::nullopt;
  return c.floor.zone->day(read_date(c, day)).begin;
}

void add_lot(Tool& tool, const LotArgs& args) {
  Lot lot;
  lot.sheet = find_glue(tool.session().shop(), args.glue);
  const words::Context c = tool.session().context();
  lot.label = args.label;
  lot.made = begin_of(c, args.made);
  lot.opened = begin_of(c, args.opened);
  if (!args.expires.empty()) lot.expires = c.floor.zone->day(read_date(c, args.expires)).end;
  lot.stored = args.warm ? Stored::warm : Stored::cool;
  tool.ask(PutLot{std::move(lot)});
}

void use_up(Tool& tool, const LotArgs& args) {
  (void)tool.session().shop();
  const Floor& floor = tool.session().floor();
  Lot lot = *floor.lot(find_lot(floor, args.lot));
  lot.used_up = true;
  tool.ask(PutLot{std::move(lot)});
}

void mix(Tool& tool, const LotArgs& args) {
  const Shop& shop = tool.session().shop();
  MixPot mix{find_glue(shop, args.glue), {}, {}};
  if (!args.lot.empty()) mix.lot = find_lot(tool.session().floor(), args.lot);
  if (!args.bench.empty()) mix.bench = find_bench(shop, args.bench);
  tool.ask(mix);
}

void add_lot_verb(CLI::App& app, Tool& tool) {
  CLI::App& lot =
      add_verb(app, tool, "lot", "Put a bottle on record, or take it off the shelf",
               "squeezeout lot add hide --label \"A 12\" --made 2026-09-01", [](Tool&) {});
  lot.require_subcommand(1);
  const auto args = std::make_shared<LotArgs>();
  CLI::App& add = add_verb(lot, tool, "add", "A new bottle on the shelf",
                           "squeezeout lot add fish --label \"A 12\" --made 2026-09-01\n  "
                           "squeezeout lot add epoxy --opened today --expires 2027-02-01 --warm",
                           [args](Tool& t) { add_lot(t, *args); });
  add.add_option("glue", args->glue, "Which glue")->required()->type_name("GLUE");
  add.add_option("--label", args->label, "What is written on it")->type_name("TEXT");
  add.add_option("--made", args->made, "When it was made")->type_name("DATE");
  add.add_option("--opened", args->opened, "When it was opened")->type_name("DATE");
  add.add_option("--expires", args->expires, "The last day for which it is said to be good")
      ->type_name("DATE");
  add.add_flag("--warm", args->warm, "It is kept above about 25 C: half as long");
  add_verb(lot, tool, "used-up", "It is empty, or thrown away", "squeezeout lot used-up 3",
           [args](Tool& t) { use_up(t, *args); })
      .add_option("lot", args->lot, "Its number or label (squeezeout lots)")
      ->required()
      ->type_name("LOT");
}

}  // namespace

void add_lot_verbs(CLI::App& app, Tool& tool) {
  const auto all = std::make_shared<bool>(false);
  add_verb(app, tool, "lots", "The bottles of glue, how old they are, and what is mixed",
           "squeezeout lots", [all](Tool& t) { say_lots(t, *all); })
      .add_flag("--all", *all, "Those that are used up, too");
  add_lot_verb(app, tool);

  const auto args = std::make_shared<LotArgs>();
  CLI::App& verb =
      add_verb(app, tool, "mix", "Glue is mixed now: its working life runs",
               "squeezeout mix epoxy --lot \"A 12\" --bench 2", [args](Tool& t) { mix(t, *args); });
  verb.add_option("glue", args->glue, "Which glue")->required()->type_name("GLUE");
  verb.add_option("--lot", args->lot, "From this bottle (squeezeout lots)")->type_name("LOT");
  verb.add_option("--bench", args->bench, "At this bench")->envname("SQUEEZEOUT_BENCH");
}

}  // namespace squeezeout::cli
