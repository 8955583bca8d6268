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
             set.lanes.front().id == scene.view.lane) {
  const int fitting = rows_in(canvas, room);
  for (const Lane& lane : set.lanes)
    packed_.push_back(
        pack(lane, axis,
             alone_ ? std::numeric_limits<int>::max() : std::min(most_rows(canvas, lane), fitting),
             scene.view.picked));
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

std::size_t Pager::page_of_picked(const std::vector<std::size_t>& begins, std::size_t end) const {
  const auto holds = [&](std::size_t page) {
    const std::size_t last = page + 1 < begins.size() ? begins[page + 1] : end;
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
  std::size_t first = set_.lost, end = packed_.size() - set_.waiting;
  float room = room_;
  const auto everywhere = [&](std::size_t i) { return i < first || i >= end; };
  for (std::size_t i = 0; i < packed_.size(); ++i)
    if (everywhere(i)) room -= height(i);
  if (room < 2 * canvas_.px(kLeastLaneMm)) first = 0, end = packed_.size(), room = room_;
  std::vector<std::size_t> begins{first};
  float used = 0;
  for (std::size_t i = first; i < end; ++i) {
    if (used + height(i) > room && used > 0) begins.push_back(i), used = 0;
    used += height(i);
  }
  const std::size_t page = page_of_picked(begins, end);
  const std::size_t last = page + 1 < begins.size() ? begins[page + 1] : end;
  Shown out;
  for (std::size_t i = 0; i < packed_.size(); ++i)
    if (everywhere(i) || (i >= begins[page] && i < last)) {
      out.lanes.push_back(i);
      out.heights.push_back(height(i));
    }
  out.pages = {{static_cast<int>(begins[page] - first), static_cast<int>(last - begins[page]),
                static_cast<int>(begins.size()), static_cast<int>(page)},
               static_cast<int>(end - first)};
  return out;
}

}  // namespace squeezeout::board
