#pragma once
// View: what this device looks at. It changes by what is pressed and by the server's answers; never by itself.

#include <optional>
#include <string>

#include "client/look/intent.h"
#include "client/look/palette.h"
#include "common/floor/state.h"

namespace squeezeout {

struct Message {  // the line at the foot: what became of the last press
  enum class Tone { done, refused } tone = Tone::done;
  std::string what, why;
  std::optional<Intent> fix;  // [Take it]
  std::string fix_label;
};

struct View {
  Screen screen = Screen::bench;
  Prefs prefs;
  Help help = Help::closed;  // over the screen
  int help_page = 0;
  BenchId bench;      // this device's
  BuilderId builder;  // who stands here
  GlueUpId glue_up;   // the card's
  Reserve wanted;     // what the reserve screen asks for
  Tiles tiles = Tiles::usual;
  Lanes lanes = Lanes::gear;
  int zoom = 2;  // index into kZooms
  Outlook outlook;
  BuildId only;                         // on the board: this build's alone; 0: all
  std::string lane;                     // on the board: this lane alone; empty: all
  std::optional<OtherTime> other_time;  // on the board: where it could be moved to
  int page = 0;
  int day = 0;                                       // from today
  Chain chain = Chain::hidden;                       // on the board
  GlueUpId picked;                                   // on the board: why does it stand there
  plan_ahead::Task plan = plan_ahead::Task::repair;  // on the plan screen
  GearKindId kind;                                   // chosen on the gear screen
  GlueUpId figures_of;                               // the figures screen's; 0: of `wanted`
  std::optional<AirDraft> air;                       // none: nothing has been stepped yet
  GlueUpId touched;     // the glue-up of the last press here: what Undo takes back
  PlanId adopted;       // when the last press here accepted a plan: Undo takes that back
  bool afresh = false;  // nothing was typed into it yet
  std::string typing;   // the field that letters go to; empty: to keys
  draft::Draft draft;   // of a shop, on the set-up screen
  std::optional<Message> message;
};

// Widths of the board, in opening hours: closed hours are folded.
struct ZoomStep {
  const char* label;
  Seconds open_time;
};
inline constexpr ZoomStep kZooms[] = {{"30 min", std::chrono::minutes{30}},
                                      {"2 h", std::chrono::hours{2}},
                                      {"8 h", std::chrono::hours{8}},
                                      {"2 days", std::chrono::hours{18}},
                                      {"1 week", std::chrono::hours{50}}};
inline constexpr int kZoomCount = 5;

// What it looks at after a press. An Ask changes nothing here: the server's answer does.
[[nodiscard]] View after(View view, const Intent& intent);
// What it looks at when a field holds this text from now on.
[[nodiscard]] View with_text(View view, const Typed& typed);

}  // namespace squeezeout
