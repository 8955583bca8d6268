#pragma once
// Woods and plastics of the trade: what the other formulas need to know of them.
//   Refuses  UnknownMaterial: no such key; materials() lists them
//   Limits   boards of one species differ by a tenth in density
//   Source   trade/SOURCES.md#materials: movement published, densities from memory

#include <span>
#include <string>
#include <string_view>

#include "common/base/result.h"
#include "common/trade/formula.h"

namespace squeezeout {

struct Material {
  std::string_view key, name;   // "sitka-spruce", "Sitka spruce"
  double specific_gravity = 0;  // at about 12 % moisture
  bool oily = false;            // repels glue that is not made for it
  bool pale = false;            // shows a stain
  bool plastic = false;
  // Part of the width that it moves for 1 % of moisture; 0: no published figure.
  double movement_radial = 0, movement_tangential = 0;
  Mark density_mark = Mark::recalled;
  Mark movement_mark = Mark::recalled;
};

struct UnknownMaterial {
  std::string key;
  friend bool operator==(const UnknownMaterial&, const UnknownMaterial&) = default;
};

[[nodiscard]] Result<const Material*, UnknownMaterial> material(std::string_view key);
[[nodiscard]] std::span<const Material> materials();  // softwoods, hardwoods, oily woods, the rest

}  // namespace squeezeout
