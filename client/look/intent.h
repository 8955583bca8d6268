#pragma once
// Intent: what a press means. Screens say it, the app does it; tests read it.

#include <string>
#include <variant>

#include "common/floor/command.h"

namespace squeezeout {

enum class Screen { bench, reserve, card, board, wall, day, snags, gear, figures, air };
inline constexpr int kScreens = 10;
[[nodiscard]] std::string_view to_string(Screen s);

enum class Lanes { gear, bench, builder };
enum class Tiles { usual, all };

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

using Intent = std::variant<Ask, Go, Back, Pick, ShowTiles, ByLanes, Zoom, Pan, Turn, ShowDay,
                            ChooseGear, ShowFigures, SetAir, Dismiss>;

// As one JSON object: {"do":"ask","command":"start","glue_up":7}. What --record writes.
[[nodiscard]] std::string to_json(const Intent& intent);
[[nodiscard]] std::string json_string(std::string_view text);  // quoted and escaped

}  // namespace squeezeout
