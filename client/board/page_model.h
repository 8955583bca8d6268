#pragma once
// Pages of the board: lanes do not scroll. What lost its place and what waits stand on every page
// that has room for two lanes beside them; a lane alone has pages of rows.

#include "client/board/controls_model.h"
#include "client/board/row_model.h"

namespace squeezeout::board {

// Of one row of bars, the space below it, above and below all of them.
inline constexpr float kRowMm = 8.5F, kRowGapMm = 1, kLanePadMm = 2.2F;
[[nodiscard]] float lane_px(const look::Canvas& canvas, std::size_t rows);

struct Shown {
  std::vector<std::size_t> lanes;  // places in the set
  std::vector<float> heights;      // of each
  std::size_t first_row = 0;       // of a lane alone
  Pages pages;
};
class Pager {
 public:
  // No lane is taller than what `room` leaves it beside those that stand on every page.
  Pager(const look::Canvas& canvas, const Scene& scene, const LaneSet& set, const TimeAxis& axis,
        float room);
  [[nodiscard]] const Packed& packed(std::size_t lane) const { return packed_[lane]; }
  // What fits, of the page that the view asks for, or on which the picked bar is.
  [[nodiscard]] Shown page() const;

 private:
  void pack_lanes(const TimeAxis& axis);
  [[nodiscard]] bool everywhere(std::size_t lane) const { return lane < first_ || lane >= end_; }
  [[nodiscard]] float height(std::size_t lane) const;
  [[nodiscard]] Shown page_of_rows() const;
  [[nodiscard]] std::size_t page_of_picked(const std::vector<std::size_t>& begins) const;
  const look::Canvas& canvas_;
  const Scene& scene_;
  const LaneSet& set_;
  float room_;  // of the lanes of one page
  bool alone_ = false;
  std::size_t first_ = 0, end_ = 0;  // the lanes that have pages
  std::vector<Packed> packed_;
};

}  // namespace squeezeout::board
