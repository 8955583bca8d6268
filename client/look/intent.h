#pragma once
// Intent: what a press means. Screens say it, the app does it; tests read it.

#include <string>
#include <variant>

#include "client/look/prefs.h"
#include "client/plan_ahead/report.h"
#include "common/floor/command.h"

namespace squeezeout {

enum class Screen {
  bench,
  reserve,
  card,
  board,
  wall,
  day,
  snags,
  gear,
  figures,
  air,
  plan,     // a repair or a replan: how far it is, and its proposal
  what_if,  // what more gear or longer hours would save
  setup,    // this device's settings, and the shop's own
};
inline constexpr int kScreens = 13;
[[nodiscard]] std::string_view to_string(Screen s);

enum class Lanes { gear, bench, builder };
enum class Tiles { usual, all };
enum class Chain { hidden, shown };
enum class Help { closed, open };

struct Ask {
  Body body;
};  // say it to the server
struct Go {
  Screen screen = Screen::bench;
  GlueUpId glue_up;
};
struct Back {};
struct Pick {
  Reserve wanted;
};  // look at reserving this
struct ShowTiles {
  Tiles tiles = Tiles::usual;
};
struct ByLanes {
  Lanes lanes = Lanes::gear;
};
struct Zoom {
  int by = 0;
};  // +1: closer; 0: back to now
struct Pan {
  int by = 0;
};  // half a width a step, later is positive
struct Turn {
  int pages = 0;
};
struct ShowDay {
  int days = 0;
};  // from the one shown; 0: today
struct ChooseGear {
  GearKindId kind;
};
struct ShowFigures {
  GlueUpId glue_up;
};  // where the figures of it come from; 0: of what the reserve screen asks for

// What is being told of the air, before it is said: steps of a key.
struct AirDraft {
  int celsius = 20, humidity = 50;  // read now
  int low = 10;                     // of a cold night, C
  int from = 22, to = 7;            // its hours, 0..23
  SheetId sheet;                    // of a new bottle
  friend bool operator==(const AirDraft&, const AirDraft&) = default;
};
struct SetAir {
  AirDraft air;
};
struct Dismiss {};  // the last message
struct ShowHelp {
  Help help = Help::closed;
};  // what the screen that is open is for
struct SetPrefs {
  Prefs prefs;
};
struct PlanAhead {
  plan_ahead::Task task = plan_ahead::Task::repair;
};                       // work it out in the background, and look at it
struct StopPlanning {};  // the plan's: what was found until now comes to be looked at
struct RefusePlan {};    // put the proposal away
struct ShowChain {
  Chain chain = Chain::hidden;
};  // of what is picked on the board, or of the whole plan
struct PickBar {
  GlueUpId glue_up;
};  // 0: none
struct AskHolderToMove {
  GlueUpId glue_up;
  Instant to{};
  Instant then{};  // what is wanted starts then
};                 // says whom to ask, and has the move ready

using Intent = std::variant<Ask, Go, Back, Pick, ShowTiles, ByLanes, Zoom, Pan, Turn, ShowDay,
                            ChooseGear, ShowFigures, SetAir, Dismiss, PlanAhead, StopPlanning,
                            RefusePlan, ShowChain, PickBar, AskHolderToMove, ShowHelp, SetPrefs>;

// As one JSON object: {"do":"ask","command":"start","glue_up":7}. What --record writes.
[[nodiscard]] std::string to_json(const Intent& intent);
[[nodiscard]] std::string json_string(std::string_view text);  // quoted and escaped

}  // namespace squeezeout
