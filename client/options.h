#pragma once
// What the program is told on its command line.

#include <optional>
#include <string>

#include "client/look/intent.h"
#include "client/look/palette.h"
#include "client/session.h"
#include "client/sync/connection.h"
#include "client/words/say.h"

namespace squeezeout {

struct Options {
  Address server;
  Identity who;
  Screen screen = Screen::bench;
  std::optional<look::Theme> theme;  // none: as this device is set
  Lanes lanes = Lanes::gear;
  int zoom = 2;
  Chain chain = Chain::hidden;                       // on the board
  plan_ahead::Task plan = plan_ahead::Task::replan;  // of the plan screen
  std::uint32_t glue_up = 0;  // of the card; 0: the most urgent. Picked on the board; 0: none
  std::string recipe,
      glue;  // of the reserve screen, by key; empty: the first usual one, its usual glue
  int width = 1600, height = 900;
  enum class Cover { window, fullscreen } cover = Cover::window;
  float mm_per_px = 0;  // 0: as this device is set, or the monitor says
  float text = 0;       // 1 to 2; 0: as this device is set
  words::Language language = words::Language::english;
  std::string shot;   // draw one PNG and leave
  std::string shots;  // draw all screens into this folder and leave
  std::optional<std::string>
      dump;  // write the widgets as JSON and leave; empty: to the standard output
  std::string dump_every_change;  // keep this file's JSON up to what is drawn
  std::string settings;           // this device's file; empty: the usual one
  std::string record;             // one JSON line a press
  std::string replay,
      replay_into = ".";  // carry out a file's presses and leave; where its pictures go
};

// The options, or how to leave: after --help with 0, after a mistake with 2. The text is for the person.
struct Leave {
  int code = 0;
  std::string text;
};
[[nodiscard]] Result<Options, Leave> parse_options(int argc, const char* const* argv);

}  // namespace squeezeout
