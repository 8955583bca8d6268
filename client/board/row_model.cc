#include "client/board/row_model.h"

#include <algorithm>
#include <functional>
#include <queue>
#include <utility>

namespace squeezeout::board {
namespace {

template <class T>
using Least = std::priority_queue<T, std::vector<T>, std::greater<>>;

bool is(const Bar& bar, GlueUpId id) { return id && bar.glue_up && bar.glue_up->id == id; }

// In order of time; `kept` is passed over.
Packed pack_rest(const Lane& lane, const TimeAxis& axis, int most_rows, GlueUpId kept) {
  Packed out;
  Least<std::pair<float, std::size_t>> busy;  // where each row ends
  Least<std::size_t> free;
  for (const Bar& bar : lane.bars) {
    if (is(bar, kept)) continue;
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

}  // namespace

Packed pack(const Lane& lane, const TimeAxis& axis, int most_rows, GlueUpId keep) {
  Packed out = pack_rest(lane, axis, most_rows, {});
  const auto bar =
      std::find_if(lane.bars.begin(), lane.bars.end(), [&](const Bar& b) { return is(b, keep); });
  if (out.dropped == 0 || bar == lane.bars.end()) return out;
  for (const BarRow& row : out.rows)
    for (const Bar& b : row.bars)
      if (is(b, keep)) return out;
  // The last row is its own.
  out = pack_rest(lane, axis, most_rows - 1, keep);
  out.rows.push_back({{*bar}});
  return out;
}

}  // namespace squeezeout::board
