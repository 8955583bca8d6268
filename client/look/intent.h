#pragma once
// Intent: what a press means. Screens say it, the app does it; tests read it.

#include <string>
#include <variant>

#include "client/draft/draft.h"
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
// Where the board looks: the instant `at` stands at that part of its width.
struct Outlook {
  std::optional<Instant> at;  // none: now, and the board goes on with the clock
  float part = 0.3F;
  std::optional<int> page;  // of its lanes; none: as it is
  enum class Find {
    nothing,
    lane,
    bar
  } find = Find::
      nothing;  // of what is picked: its lane's page; that, and its time, where it is not in sight
};
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
  Outlook outlook{};
};  // +1: closer; 0: back to now
struct Pan {
  int by = 0;
  Outlook outlook{};
};  // half a width a step, later is positive
struct Turn {
  int pages = 0;
  std::optional<Outlook> outlook{};  // of the board, that its window stays
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
struct ShowHelp {
  Help help = Help::closed;
};  // what the screen that is open is for
struct ReallyOff {
  GlueUpId glue_up;
  Instant at{};
};  // its clamps, just reported off, came off then: takes the press back and says it again
struct SetPrefs {
  Prefs prefs;
};
struct StandAt {
  BenchId bench;
  BuilderId builder;
};  // this device does from now on
struct Focus {
  std::string field;
};  // letters go there; empty: to no field
struct Typed {
  std::string field, text;
};  // what the field holds from now on
struct ShowSetup {
  draft::Page page = draft::Page::device;
  int day = 1;  // of the week, on the page of the hours
};
struct EditShop {
  draft::Edit edit;
};  // of the draft
struct DoDraft {
  enum class What { try_it, open, put_away, back } what = What::try_it;
};  // back: the shop as it was before the draft was opened
struct ReadFile {
  std::string path;
};  // a shop file or a table of gear into the draft: dropped on the window, or typed
struct FileRead {
  std::string name, text;
  std::string trouble;  // why it could not be read
};
struct WriteShop {
  std::string path;
};  // the draft as a shop file
struct FileWritten {
  std::string name, trouble;
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
  Outlook outlook{};
};  // 0: none
struct OnlyBuild {
  BuildId build;
};  // on the board; 0: all
struct OnlyLane {
  std::string lane;
};  // alone on the board, with all its rows; empty: all
struct OtherTime {
  GlueUpId glue_up;
  Instant wish{};
  Outlook outlook{};
};  // where on the board this one could start instead; 0: leave it as it is
struct AskHolderToMove {
  GlueUpId glue_up;
  Instant to{};
  Instant then{};  // what is wanted starts then
};                 // says whom to ask, and has the move ready
struct Quiet {};   // what sounds now, without the step that it asks for
struct PrintLabel {
  GlueUpId glue_up;
};                   // the tape label, or what to write on it
struct TrySound {};  // the sound of a joint at risk, once

using Intent =
    std::variant<Ask, Go, Back, Pick, ShowTiles, ByLanes, Zoom, Pan, Turn, ShowDay, ChooseGear,
                 ShowFigures, SetAir, PlanAhead, StopPlanning, RefusePlan, ShowChain, PickBar,
                 OnlyBuild, OnlyLane, OtherTime, AskHolderToMove, ReallyOff, ShowHelp, SetPrefs,
                 Quiet, PrintLabel, TrySound, StandAt, Focus, Typed, ShowSetup, EditShop, DoDraft,
                 ReadFile, FileRead, WriteShop, FileWritten>;

// As one JSON object: {"do":"ask","command":"start","glue_up":7}. What --record writes.
[[nodiscard]] std::string to_json(const Intent& intent);
[[nodiscard]] std::string json_string(std::string_view text);  // quoted and escaped

}  // namespace squeezeout
