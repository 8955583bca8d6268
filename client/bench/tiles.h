#pragma once
// Tiles: what can be glued next, the next steps of this builder's builds, then the usual recipes or all; each with the earliest
// time that it could have.

#include <string>
#include <vector>

#include "client/view/scene.h"

namespace squeezeout::bench {

struct Tile {
  Reserve wanted;
  std::string title;
};
[[nodiscard]] std::vector<Tile> tiles(const Scene& scene);
void tile_grid(look::Canvas& canvas, look::Rect area, const Scene& scene,
               const std::vector<Tile>& all);

}  // namespace squeezeout::bench
