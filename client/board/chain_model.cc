#include "client/board/chain_model.h"

#include <algorithm>
#include <cmath>

namespace squeezeout::board {
namespace {

using look::Canvas;
using look::Rect;
using look::Role;

constexpr float kOutlineMm = 0.9F, kPickedMm = 1.5F, kLineMm = 0.6F;

// The bars of two links that stand nearest: in one lane, when they share one.
struct Tie {
  const BarPlace* from = nullptr;
  const BarPlace* to = nullptr;
};
Tie nearest(const Places& places, GlueUpId from, GlueUpId to) {
  Tie best;
  float least = 0;
  for (const BarPlace& a : places.of(from))
    for (const BarPlace& b : places.of(to)) {
      const float apart = a.lane == b.lane ? 0 : std::abs(a.at.centre().y - b.at.centre().y);
      if (best.from != nullptr && apart >= least) continue;
      best = {&a, &b};
      least = apart;
    }
  return best;
}

// From the end of one bar to the begin of the other: along, down or up, and in.
void line_between(Canvas& canvas, Rect a, Rect b) {
  const float px = std::max(2.0F, std::round(canvas.px(kLineMm)));
  const float ya = a.centre().y, yb = b.centre().y;
  const float x = std::max(std::min(a.right(), b.x), b.x - canvas.px(2));
  const auto along = [&](float from, float to, float y) {
    if (to > from) canvas.box({from, y - px / 2, to - from, px}, Role::text);
  };
  along(a.right(), x, ya);
  if (ya != yb)
    canvas.box({x - px / 2, std::min(ya, yb) - px / 2, px, std::abs(ya - yb) + px}, Role::text);
  along(x, b.x, yb);
}

struct ByGlueUp {
  bool operator()(const BarPlace& a, const BarPlace& b) const { return a.glue_up < b.glue_up; }
  bool operator()(const BarPlace& a, GlueUpId b) const { return a.glue_up < b; }
  bool operator()(GlueUpId a, const BarPlace& b) const { return a < b.glue_up; }
};

}  // namespace

Places::Places(std::vector<BarPlace> all) : all_(std::move(all)) {
  std::stable_sort(all_.begin(), all_.end(), ByGlueUp{});
}

std::span<const BarPlace> Places::of(GlueUpId glue_up) const {
  const auto [first, last] = std::equal_range(all_.begin(), all_.end(), glue_up, ByGlueUp{});
  return {first, last};
}

const std::vector<ChainLink>& chain_of(const Scene& scene) {
  static const std::vector<ChainLink> none;
  if (scene.view.chain == Chain::hidden) return none;
  const GlueUp* picked = scene.floor.glue_up(scene.view.picked);
  // A bar on the plan's own chain shows that chain; another shows what leads to it.
  const auto& plan = scene.quotes.chain(scene.floor, {}, scene.now);
  if (picked == nullptr || !live(*picked) || on_chain(plan, picked->id)) return plan;
  return scene.quotes.chain(scene.floor, picked->id, scene.now);
}

bool on_chain(const std::vector<ChainLink>& chain, GlueUpId glue_up) {
  return std::any_of(chain.begin(), chain.end(),
                     [&](const ChainLink& l) { return l.glue_up == glue_up; });
}

void chain_marks(Canvas& canvas, const std::vector<ChainLink>& chain, const Places& places) {
  for (std::size_t i = 0; i + 1 < chain.size(); ++i) {
    const Tie tie = nearest(places, chain[i + 1].glue_up, chain[i].glue_up);
    if (tie.from != nullptr) line_between(canvas, tie.from->at, tie.to->at);
  }
  for (const ChainLink& link : chain)
    for (const BarPlace& p : places.of(link.glue_up))
      canvas.edge(p.at, Role::text, kOutlineMm, p.line);
}

void picked_marks(Canvas& canvas, GlueUpId picked, const Places& places) {
  for (const BarPlace& p : places.of(picked))
    canvas.edge(p.at.inset(-canvas.px(0.4F)), Role::text, kPickedMm);
}

}  // namespace squeezeout::board
