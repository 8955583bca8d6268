#pragma once
// The keys of the board: lanes, what of it is shown, the plan, pages, zoom and where it looks. One row, or two where they have no
// room in one.

#include "client/board/time_axis.h"
#include "client/panels/pages.h"
#include "client/view/scene.h"

namespace squeezeout::board {

// The least width of a key: its label in one line where a second would stand on the key's letter, else its longest word.
[[nodiscard]] float key_px(const look::Canvas& canvas, std::string_view label);

// Where the board looks and where it would look after a key.
struct Looks {
  Outlook here;                                           // as it is drawn
  Outlook zoomed;                                         // after a zoom: what stays in its place
  std::optional<Outlook> earlier, later;                  // none: as far as it goes
  enum class Follows { no, yes } follows = Follows::yes;  // now stands still
};
[[nodiscard]] Looks looks_of(const Scene& scene, const TimeAxis& axis, look::Rect lanes);

// What `page` is of: lanes, or rows of one lane.
struct Pages {
  panels::Page page;
  int all = 0;
};
class Controls {
 public:
  // Without `pages`, how many rows there are is the same: keys of pages are counted in.
  Controls(const look::Canvas& canvas, const Scene& scene, float width);
  [[nodiscard]] float height_px() const { return height_; }
  void lay_out(look::Canvas& canvas, look::Rect at, const Looks& looks, const Pages& pages) const;

 private:
  const Scene& scene_;
  float height_ = 0;
};

}  // namespace squeezeout::board
