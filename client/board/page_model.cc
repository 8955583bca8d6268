#include "client/board/page_model.h"

#include <algorithm>
#include <limits>

#include "client/panels/room.h"

namespace squeezeout::board {
namespace {

constexpr float kLeastLaneMm = 13;
constexpr int kMostRows = 4, kMostWaitingRows = 2, kMostLostRows = 1;

int most_rows(const look::Canvas& canvas, const Lane& lane) {
  switch (lane.shows) {
    case Lane::Shows::waiting:
      return panels::narrow(canvas) ? 1 : kMostWaitingRows;
    case Lane::Shows::lost:
      return kMostLostRows;
    default:
      return kMostRows;
  }
}

int rows_in(const look::Canvas& canvas, float room) {
  const float pitch = canvas.px(kRowMm + kRowGapMm);
  return std::max(1, static_cast<int>((room - canvas.px(2 * kLanePadMm - kRowGapMm)) / pitch));
}

}  // namespace

float lane_px(const look::Canvas& canvas, std::size_t rows) {
  return std::max(canvas.px(kLeastLaneMm),
                  canvas.px(kRowMm + kRowGapMm) * static_cast<float>(rows) +
                      canvas.px(kLanePadMm) * 2 - canvas.px(kRowGapMm));
}

Pager::Pager(const look::Canvas& canvas, const Scene& scene, const LaneSet& set,
             const TimeAxis& axis, float room)
    : canvas_(canvas),
      scene_(scene),
      set_(set),
      room_(room),
      alone_(!scene.view.lane.empty() && set.lanes.size() == 1 &&
             set.lanes.front().id == scene.view.lane),
      end_(set.lanes.size()),
      packed_(set.lanes.size()) {
  pack_lanes(axis);
}

// Those that stand on every page first: the others have the room that they leave.
void Pager::pack_lanes(const TimeAxis& axis) {
  const auto pack_at = [&](std::size_t i, float room) {
    const Lane& lane = set_.lanes[i];
    const int most = alone_ ? std::numeric_limits<int>::max()
                            : std::min(most_rows(canvas_, lane), rows_in(canvas_, room));
    packed_[i] = pack(lane, axis, most, scene_.view.picked);
  };
  if (!alone_) first_ = set_.lost, end_ -= set_.waiting;
  float left = room_;
  for (std::size_t i = 0; i < packed_.size(); ++i)
    if (everywhere(i)) pack_at(i, room_), left -= height(i);
  if (left < 2 * canvas_.px(kLeastLaneMm))
    first_ = 0, end_ = packed_.size();
  else
    room_ = left;
  for (std::size_t i = first_; i < end_; ++i) pack_at(i, room_);
}

float Pager::height(std::size_t lane) const { return lane_px(canvas_, packed_[lane].rows.size()); }

Shown Pager::page_of_rows() const {
  const int fitting = rows_in(canvas_, room_);
  const auto all = static_cast<int>(packed_[0].rows.size());
  const panels::Page page = panels::page_of(all, fitting, scene_.view.page);
  return {{0},
          {lane_px(canvas_, static_cast<std::size_t>(std::max(0, page.count)))},
          static_cast<std::size_t>(page.first),
          {page, all}};
}

std::size_t Pager::page_of_picked(const std::vector<std::size_t>& begins) const {
  const auto holds = [&](std::size_t page) {
    const std::size_t last = page + 1 < begins.size() ? begins[page + 1] : end_;
    for (std::size_t i = begins[page]; i < last; ++i)
      for (const Bar& bar : set_.lanes[i].bars)
        if (bar.glue_up != nullptr && bar.glue_up->id == scene_.view.picked) return true;
    return false;
  };
  const std::size_t asked = std::min(static_cast<std::size_t>(scene_.view.page), begins.size() - 1);
  if (scene_.view.outlook.find == Outlook::Find::nothing || holds(asked)) return asked;
  for (std::size_t page = 0; page < begins.size(); ++page)
    if (holds(page)) return page;
  return asked;
}

Shown Pager::page() const {
  if (alone_) return page_of_rows();
  std::vector<std::size_t> begins{first_};
  float used = 0;
  for (std::size_t i = first_; i < end_; ++i) {
    if (used + height(i) > room_ && used > 0) begins.push_back(i), used = 0;
    used += height(i);
  }
  const std::size_t page = page_of_picked(begins);
  const std::size_t last = page + 1 < begins.size() ? begins[page + 1] : end_;
  Shown out;
  for (std::size_t i = 0; i < packed_.size(); ++i)
    if (everywhere(i) || (i >= begins[page] && i < last)) {
      out.lanes.push_back(i);
      out.heights.push_back(height(i));
    }
  out.pages = {{static_cast<int>(begins[page] - first_), static_cast<int>(last - begins[page]),
                static_cast<int>(begins.size()), static_cast<int>(page)},
               static_cast<int>(end_ - first_)};
  return out;
}

}  // namespace squeezeout::board
