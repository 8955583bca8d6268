#include "client/board/row_model.h"

#include <functional>
#include <queue>
#include <utility>

namespace squeezeout::board {
namespace {

template <class T>
using Least = std::priority_queue<T, std::vector<T>, std::greater<>>;

}  // namespace

Packed pack(const Lane& lane, const TimeAxis& axis, int most_rows) {
  Packed out;
  Least<std::pair<float, std::size_t>> busy;  // where each row ends
  Least<std::size_t> free;
  for (const Bar& bar : lane.bars) {
    const float x0 = axis.x(bar.span.begin), x1 = axis.x(bar.span.end);
    if (x1 - x0 < kStripPx) {
      if (!out.strips.empty() && x0 <= out.strips.back().right() + 1)
        out.strips.back().w = std::max(out.strips.back().w, x1 - out.strips.back().x);
      else
        out.strips.push_back({x0, 0, std::max(1.0F, x1 - x0), 0});
      continue;
    }
    for (; !busy.empty() && busy.top().first <= x0 + 0.5F; busy.pop()) free.push(busy.top().second);
    std::size_t row = out.rows.size();
    if (!free.empty()) {
      row = free.top();
      free.pop();
    } else if (out.rows.size() == static_cast<std::size_t>(most_rows)) {
      ++out.dropped;
      continue;
    } else {
      out.rows.emplace_back();
    }
    busy.emplace(x1, row);
    out.rows[row].bars.push_back(bar);
  }
  return out;
}

}  // namespace squeezeout::board
