#include "common/gear/kind.h"

#include <array>
#include <tuple>

namespace squeezeout {

std::string_view to_string(GearClass c) {
  static constexpr std::array<std::string_view, kGearClasses> kWords{
      "clamp", "go-bar", "caul", "form", "deck", "mould", "other"};
  return kWords.at(static_cast<std::size_t>(c));
}

bool good_enough(const GearKind& kind, const GearNeed& need) {
  return kind.gear_class == need.gear_class && kind.opening >= need.opening &&
         kind.throat >= need.throat && kind.length >= need.length && kind.force >= need.force &&
         (need.style.empty() || kind.style == need.style) &&
         (need.outline.empty() || kind.outline == need.outline);
}

bool less_capable(const GearKind& a, const GearKind& b) {
  return std::tie(a.throat, a.opening, a.force, a.length, a.id) <
         std::tie(b.throat, b.opening, b.force, b.length, b.id);
}

}  // namespace squeezeout
