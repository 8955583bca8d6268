#pragma once
// A replay file: what a person does at a bench, a line a step, carried out with no display. Every picture of the README is
// drawn by one. A file that --record wrote is one too, as far as it holds presses of widgets: typing, the wheel and dropped files
// are not carried out again, and such a line is refused.
//   press ID            the widget of that id, once it is there
//   key NAME            Space, Enter, Esc, F1, or the letter or figure on a key
//   until TEXT          goes on when the screen says so
//   wait SECONDS        lets the shop's time pass
//   screen NAME         goes there
//   theme dark|light    size WIDTHxHEIGHT    text 1.5
//   shot FILE           draws the screen into FILE, below the folder that --replay-into names
//   # ...               a remark
//   Refuses   a line that it does not know, with its number; a widget or text that does not come within 10 s

#include <string>
#include <variant>
#include <vector>

#include "client/look/intent.h"
#include "client/look/palette.h"
#include "common/base/result.h"

namespace squeezeout::replay {

struct PressId {
  std::string id;
};
struct PressKey {
  int key = 0;
};
struct Until {
  std::string text;
};
struct Wait {
  double seconds = 0;
};
struct Show {
  Screen screen = Screen::bench;
};
struct Wear {
  look::Theme theme = look::Theme::dark;
};
struct Size {
  int width = 1920, height = 1080;
};
struct Text {
  float text = 1;
};
struct Shot {
  std::string file;
};
using Do = std::variant<PressId, PressKey, Until, Wait, Show, Wear, Size, Text, Shot>;

struct Step {
  int line = 0;
  std::string text;  // as it was written, for messages
  Do what;
};

[[nodiscard]] Result<std::vector<Step>, std::string> parse(const std::string& name,
                                                           const std::string& text);

}  // namespace squeezeout::replay
