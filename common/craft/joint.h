#pragma once
// A joint on paper: its faces, its size and what is asked of it. From it the craft works out glue, gear and times.
//   Shape    length 0: not described; then the recipe's own figures are all there is
//   Units    millimetres, grams of wet glue on a square metre

#include <map>
#include <string>
#include <vector>

#include "common/base/quantity.h"

namespace squeezeout {

// What is asked of the joint, beyond holding.
enum class Trait {
  structural,      // it carries string tension: a stale glue is refused
  reversible,      // it shall come apart again, with heat or water
  pale,            // a stain would show
  beside_neck,     // water would bow the neck
  hot_in_service,  // a car in summer: a glue that creeps or softens lets go
  bracing,         // glued at the humidity that the plate then remembers
};
inline constexpr int kTraits = 6;

// One side of the joint. A build may name its own wood for a part; else it is `material` (trade/material.h).
struct Face {
  std::string part;      // "back"; empty: not a part that builds choose a wood for
  std::string material;  // "sitka-spruce", "celluloid-binding"
  friend bool operator==(const Face&, const Face&) = default;
};
using Woods = std::map<std::string, std::string>;  // of a build: part -> material

// Where the instruments will live: what their plates come to.
struct ServiceAir {
  Celsius celsius{20};
  Percent humidity{45};
  friend bool operator==(const ServiceAir&, const ServiceAir&) = default;
};

struct Joint {
  Millimetre length{}, width{};  // of the glue line
  Face a, b;
  Millimetre
      thickness{};  // of the thinner part: how soon it follows the air, how much of the glue's water it must take
  Millimetre under{};   // caul and part under the pad, which its force spreads through
  Millimetre gap{};     // the worst of the fit
  Millimetre plate{};   // width of face a, a plate, across the grain; 0: none that moves
  Millimetre radius{};  // the tightest bend; 0: nothing is bent
  Megapascal least_pressure{0.25};  // with which such a joint holds when it fits well
  double spread_g_m2 = 150;
  std::vector<Trait> traits;

  bool described() const { return length.value > 0; }
  bool has(Trait t) const;
  // The joint of one build: parts have the build's woods.
  Joint of(const Woods& woods) const;
  friend bool operator==(const Joint&, const Joint&) = default;
};

}  // namespace squeezeout
