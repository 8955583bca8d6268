#pragma once
// Frame: one screen, laid out. Marks back to front, and what can be pressed. Data only: it is drawn by frame_draw.cc,
// dumped by dump.cc, compared by tests.
//   Units   pixels; colours by role

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "client/look/geometry.h"
#include "client/look/intent.h"
#include "client/look/palette.h"
#include "client/look/scale.h"

namespace squeezeout::look {

enum class Fill : std::uint8_t { none, solid, hatch, dots };
enum class Line : std::uint8_t { none, solid, dashed };

struct Box {
  Rect at;
  Fill fill = Fill::solid;
  Role ink = Role::background;
  Line line = Line::none;
  Role edge = Role::edge;
  float edge_px = 0;
  friend bool operator==(const Box&, const Box&) = default;
};

struct Words {
  Rect at;    // what the letters cover
  Point pen;  // top left of the line of text
  std::string text;
  Type type = Type::body;
  Role ink = Role::text;
  Role on = Role::background;  // what they stand on
  bool cut = false;            // an ellipsis stands for what found no room
  friend bool operator==(const Words&, const Words&) = default;
};

enum class Glyph : std::uint8_t {
  drop,       // wet
  clamp,      // two boards between wedges
  hourglass,  // waiting
  tick,       // ready
  warn,       // tag with !
  back,
  forward,
  up,
  down,
  plus,
  minus,
  head,  // of the now line
  link,  // of the critical chain
};

struct Icon {
  Glyph glyph = Glyph::tick;
  Rect at;
  Role ink = Role::text;
  friend bool operator==(const Icon&, const Icon&) = default;
};

using Mark = std::variant<Box, Words, Icon>;

// Keys are characters, letters in capitals; these have none.
inline constexpr int kEscape = 256, kEnter = 257, kTab = 258, kBackspace = 259, kRight = 262,
                     kLeft = 263, kDown = 264, kUp = 265, kF1 = 290;

enum class Kind : std::uint8_t {
  button,
  bar,   // a shortcut on the board, also to be had by buttons
  field  // of text: a press makes it the one that is typed into
};

struct Press {
  std::string id, label;
  Rect at;
  std::vector<int> keys;
  Intent intent;
  Kind kind = Kind::button;
};

// The field that is typed into: letters go to it, and not to the keys of presses.
struct Typing {
  std::string field;      // its press
  std::string text;       // as it stands
  std::size_t most = 60;  // letters
  bool afresh = false;    // the first stroke replaces the text
  friend bool operator==(const Typing&, const Typing&) = default;
};

// Where pixels are time: the wheel zooms there, about what the pointer stands on; a press aims, while another time is sought.
struct TimeField {
  struct Knot {
    float x = 0;
    Instant at{};
  };
  Rect at;
  std::vector<Knot> knots;  // rising, at least two; time is linear between them
  GlueUpId aims;            // what a press seeks a time for; 0: a press does nothing
  Seconds aim_step{1};      // it aims at whole ones
  Outlook outlook;          // as it stands
};
[[nodiscard]] Instant instant_at(const TimeField& field, float x);

struct Frame {
  float width = 0, height = 0;
  std::vector<Mark> marks;
  std::vector<Press> presses;
  std::optional<Typing> typing = {};
  std::optional<TimeField> time = {};
  enum class Work {
    done,
    more
  } work = Work::done;  // more: the next frame will know more, without any news
};

// Whether both look the same (what they would do may differ).
[[nodiscard]] bool same_picture(const Frame& a, const Frame& b);

}  // namespace squeezeout::look
