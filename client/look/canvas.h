#pragma once
// Canvas: what a model lays a frame out with. Text is centred on its capitals and never leaves its rectangle.

#include <string>
#include <string_view>
#include <vector>

#include "client/look/frame.h"
#include "client/look/letters.h"

namespace squeezeout::look {

enum class Align { left, centre, right };

struct Ink {
  Role ink = Role::text;
  Role on = Role::background;
};

enum class Look {
  key,  // filled: the one next thing
  normal,
  chosen,  // of several, the one in force
  off,     // cannot be pressed now
  act,     // with a tag: needs somebody
};

struct Button {
  std::string id;
  std::string label;
  std::string sub = {};       // second line
  std::string key_name = {};  // "Space", shown in a corner
  std::vector<int> keys = {};
  Intent intent = Back{};
  Look look = Look::normal;
  Role on = Role::background;
  Type type = Type::strong;
};

// A line of text to be typed.
struct TextField {
  std::string id;
  std::string label;      // above the text, small
  std::string text;       // as it stands
  std::size_t most = 60;  // letters
  std::vector<int> keys = {};
  std::string key_name = {};
  enum class Typed { no, here, afresh } typed = Typed::no;  // afresh: what stands there is replaced
};

class Canvas {
 public:
  Canvas(const Scale& scale, const Letters& letters, float width, float height)
      : scale_(scale), letters_(letters) {
    frame_.width = width;
    frame_.height = height;
  }

  const Letters& letters() const { return letters_; }
  float px(float mm) const { return scale_.px(mm); }
  float touch() const { return scale_.touch(); }
  float gap() const { return scale_.gap(); }
  Rect screen() const { return {0, 0, frame_.width, frame_.height}; }
  float width(Type type, std::string_view text) const { return letters_.width(type, text); }
  float cap(Type type) const { return letters_.cap_px(type); }

  void box(Rect at, Role ink, Fill fill = Fill::solid);
  void edge(Rect at, Role ink, float mm, Line line = Line::solid);
  void icon(Glyph glyph, Rect at, Role ink) { frame_.marks.push_back(Icon{glyph, at, ink}); }
  // One line. Too wide, it is set smaller, down to the least size; then in two lines where they have room; then cut with an
  // ellipsis. Returns the letters' rectangle (empty when nothing fits).
  Rect words(Rect in, std::string_view text, Type type, Ink ink, Align align = Align::left);
  // The first form that stands whole as it is, the longest before the shorter; else the first that does in smaller letters or two
  // lines; else the last one as words() sets it.
  Rect one_of(Rect in, const std::vector<std::string>& forms, Type type, Ink ink,
              Align align = Align::left);
  // Several lines from the top, set smaller when they are too many; returns the height used.
  float paragraph(Rect in, std::string_view text, Type type, Ink ink, int lines);
  float line_px(Type type) const { return cap(type) * 1.9F; }

  // A time or a countdown, the same size throughout but for its units: "1 m 47 s", "Fri 8:00". Too wide, it is set smaller.
  void figures(Rect in, std::string_view text, Type type, Ink ink);
  float figures_width(std::string_view text, Type type) const;  // at most
  void warn_tag(Rect at);                                       // ! on amber

  void press(Press press) { frame_.presses.push_back(std::move(press)); }
  void also_by(int key, const std::string& id);  // a press that is there already
  void button(Rect at, Button button);
  // Too long a text shows its end, where the letters go.
  void field(Rect at, TextField field);

  void time_field(TimeField field) { frame_.time = std::move(field); }
  void more_to_come() { frame_.work = Frame::Work::more; }

  Frame take() { return std::move(frame_); }

 private:
  Rect line(Rect in, std::string text, Type type, Ink ink, Align align, bool cut);
  const Scale& scale_;
  const Letters& letters_;
  Frame frame_;
};

}  // namespace squeezeout::look
