// What a bench does to a glue-up.

#include "tools/cli/times.h"
#include "tools/cli/verbs.h"
#include "tools/cli/wanted.h"

namespace squeezeout::cli {
namespace {

struct Press {
  std::uint32_t glue_up = 0, pot = 0;
  std::string at, after, note;
  double by_minutes = 0;
  bool anyway = false;  // as CLI11 fills it in

  GlueUpId id() const { return GlueUpId{glue_up}; }
  Override over() const { return anyway ? Override::knowingly : Override::no; }
  // When it happened; left out: now, as the server has it.
  Instant happened(Tool& tool) const {
    return at.empty() ? kAtServer : read_time(tool.session().context(), at, Tense::past);
  }
};
using Args = std::shared_ptr<Press>;

CLI::App& on_glue_up(CLI::App& app, Tool& tool, const Args& args, const std::string& name,
                     const std::string& says, const std::string& example,
                     std::function<void(Tool&)> run) {
  CLI::App& verb = add_verb(app, tool, name, says, example, std::move(run));
  verb.add_option("glue-up", args->glue_up, "Its number (squeezeout list)")
      ->required()
      ->type_name("N");
  return verb;
}

void add_at(CLI::App& verb, const Args& args) {
  verb.add_option("--at", args->at, "When it really happened")->type_name("TIME");
}

void add_anyway(CLI::App& verb, const Args& args, const std::string& says) {
  verb.add_flag("--anyway", args->anyway, says);
}

void add_reserve(CLI::App& app, Tool& tool) {
  const auto wanted = std::make_shared<Wanted>();
  CLI::App& verb = add_verb(
      app, tool, "reserve", "Reserve a glue-up: its gear, its builder and its times",
      "squeezeout reserve bridge --builder ida --after 14:00\n  squeezeout reserve --build n14",
      [wanted](Tool& t) { t.ask(read_wanted(t.session(), *wanted)); });
  add_wanted(verb, *wanted);
}

// Where it is moved to: the time given, or the earliest that can be had.
Instant new_start(Tool& tool, const Press& p) {
  const words::Context c = tool.session().context();
  if (!p.at.empty()) return read_time(c, p.at, Tense::coming);
  const Instant after = p.after.empty() ? c.now : read_time(c, p.after, Tense::coming);
  const auto quote = earliest_for(c.floor, p.id(), after, c.now);
  if (quote) return quote->slot.times.stage_begin;
  const Body asked = Move{p.id(), after, p.over()};
  throw Stop{Exit::refused, words::refusal(c, asked, quote.error()),
             refusal_json(c, quote.error())};
}

void add_move(CLI::App& app, Tool& tool) {
  const auto args = std::make_shared<Press>();
  CLI::App& verb = on_glue_up(
      app, tool, args, "move", "Give a reserved glue-up, or one that lost its place, another time",
      "squeezeout move 14 --at 15:40\n  squeezeout move 14", [args](Tool& t) {
        t.ask(Move{args->id(), new_start(t, *args), args->over()});
      });
  verb.add_option("--at", args->at, "To exactly this time. Left out: the earliest")
      ->type_name("TIME");
  verb.add_option("--after", args->after, "To the earliest after this time")
      ->type_name("TIME")
      ->excludes("--at");
  add_anyway(verb, args, "Outside opening hours too, knowingly");
}

}  // namespace

void add_press_verbs(CLI::App& app, Tool& tool) {
  add_reserve(app, tool);
  add_move(app, tool);

  const auto args = std::make_shared<Press>();
  on_glue_up(app, tool, args, "cancel", "Give a reserved glue-up up", "squeezeout cancel 14",
             [args](Tool& t) { t.ask(Cancel{args->id()}); });
  CLI::App& start =
      on_glue_up(app, tool, args, "start", "The glue is wet from now on",
                 "squeezeout start 14\n  squeezeout start 14 --pot 3", [args](Tool& t) {
                   t.ask(Start{args->id(), args->over(), PotId{args->pot}});
                 });
  start.add_option("--pot", args->pot, "Spread from this mix (squeezeout mix)")->type_name("N");
  add_anyway(start, args, "Though its gear, an earlier step or the hours speak against it");
  add_at(on_glue_up(app, tool, args, "on", "The clamps are on", "squeezeout on 14 --at 14:12",
                    [args](Tool& t) {
                      t.ask(ClampsOn{args->id(), args->happened(t)});
                    }),
         args);
  CLI::App& off = on_glue_up(app, tool, args, "off", "The clamps are off",
                             "squeezeout off 14 --at 15:40", [args](Tool& t) {
                               t.ask(ClampsOff{args->id(), args->happened(t), args->over()});
                             });
  add_at(off, args);
  add_anyway(off, args, "Before the glue's time, knowingly");
  CLI::App& scraped = on_glue_up(app, tool, args, "scraped", "The work that waited for it is done",
                                 "squeezeout scraped 14", [args](Tool& t) {
                                   t.ask(Scraped{args->id(), args->happened(t), args->over()});
                                 });
  add_at(scraped, args);
  add_anyway(scraped, args, "Before it was ready, knowingly");
  on_glue_up(app, tool, args, "late", "It takes longer: the clamps stay on by so much more",
             "squeezeout late 14 --by 10",
             [args](Tool& t) {
               t.ask(Late{args->id(), Seconds{static_cast<std::int64_t>(args->by_minutes * 60)}});
             })
      .add_option("--by", args->by_minutes, "Minutes longer")
      ->required()
      ->type_name("MIN")
      ->check(CLI::Range(0.0, 1440.0));
  CLI::App& spoiled = on_glue_up(app, tool, args, "spoiled",
                                 "It went wrong: its gear is free, its step is open again",
                                 "squeezeout spoiled 14 --note \"slipped\"", [args](Tool& t) {
                                   t.ask(Spoiled{args->id(), args->happened(t), args->note});
                                 });
  add_at(spoiled, args);
  spoiled.add_option("--note", args->note, "What happened")->type_name("TEXT");
  on_glue_up(app, tool, args, "undo", "Take the last press on it back", "squeezeout undo 14",
             [args](Tool& t) { t.ask(Undo{args->id()}); });
}

}  // namespace squeezeout::cli
