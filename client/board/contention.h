#pragma once
// Contention: what stands in another's way, or will. Told as a "!" tag on the bar, in words, the whole first, then shorter.
//   Shape   still on past its time while another wants the gear; its place taken by another; its build ready after its day;
//           its glue past the time for the clamps

#include <map>
#include <string>
#include <vector>

#include "client/view/scene.h"

namespace squeezeout::board {

using Tags = std::map<GlueUpId, std::vector<std::string>>;
// Of others nothing while not live: what is past may have been put right.
[[nodiscard]] Tags tags_of(const Scene& scene);

}  // namespace squeezeout::board
