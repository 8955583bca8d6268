#pragma once
// What the set-up pages are made of: steppers, choices, tiles in a grid, and a heading with Undo.

#include <optional>
#include <string>
#include <vector>

#include "client/view/scene.h"

namespace squeezeout::setup {

// The draft, or the shop that it would begin from.
[[nodiscard]] const Shop& shown_shop(const Scene& scene);

// Takes a row off the body: what the page is for, and the key that takes the last change back. Returns what is left of the row, for
// keys of the page.
struct Heading {
  std::string title, sentence;
};
look::Rect heading_row(look::Canvas& canvas, const Scene& scene, look::Rect& body);
void heading(look::Canvas& canvas, look::Rect row, const Heading& heading);

// A key of the usual height off the top of `area`, with the gap below it; empty when there is no room.
look::Rect row_of(const look::Canvas& canvas, look::Rect& area);
// The same row with a word before it; returns the rest.
look::Rect labelled(look::Canvas& canvas, look::Rect row, const std::string& label);

// A value between two keys.
struct Stepper {
  std::string id;
  std::string says;
  std::string less = "–", more = "+";
  std::optional<Intent> to_less, to_more;  // none: no further
  int less_key = 0, more_key = 0;
};
void stepper(look::Canvas& canvas, look::Rect at, const Stepper& s);

// A field of text that is typed into when the view says so; empty when there is no room.
void text_field(look::Canvas& canvas, const Scene& scene, look::Rect at, look::TextField f);

// Keys of one width beside each other.
void choice(look::Canvas& canvas, look::Rect at, std::vector<look::Button> keys);

// Tiles of one size, as many columns as have room.
struct Grid {
  look::Rect area;
  int columns = 1, rows = 1;
  float width = 0, height = 0, gap = 0;
  int fitting() const { return columns * rows; }
  look::Rect cell(int i) const;
};
[[nodiscard]] Grid grid_in(const look::Canvas& canvas, look::Rect area, float least_width,
                           float height);

// A tile with a title and lines below it; chosen or not.
struct Tile {
  std::string id, title;
  std::string short_title = {};  // where the title has no room
  std::vector<std::vector<std::string>>
      lines;  // each in forms, the longest first: the first with room stands
  enum class State { out, in, lacking } state = State::out;
  Intent intent;
  int key = 0;
};
void tile(look::Canvas& canvas, look::Rect at, Tile t);

// The letter of the n-th tile of a page; 0: they are used up. Letters that mean the same everywhere are left out.
[[nodiscard]] int letter(int n);
[[nodiscard]] std::string letter_name(int key);

[[nodiscard]] Intent edit(draft::Edit::What what, int at = 0, int by = 0, std::string text = {});

}  // namespace squeezeout::setup
