#include "common/trade/material.h"

#include <array>

namespace squeezeout {
namespace {

// What a wood is besides a key and a figure.
enum class Trait { none, pale, oily };

constexpr Material wood(std::string_view key, std::string_view name, double specific_gravity,
                        Trait trait = Trait::none) {
  return {.key = key,
          .name = name,
          .specific_gravity = specific_gravity,
          .oily = trait == Trait::oily,
          .pale = trait == Trait::pale};
}

// The same with its published movement: USDA Wood Handbook, Table 13-5.
constexpr Material moving(Material m, double radial, double tangential) {
  m.movement_radial = radial;
  m.movement_tangential = tangential;
  m.movement_mark = Mark::published;
  return m;
}

constexpr Material plastic(std::string_view key, std::string_view name, double specific_gravity) {
  return {.key = key, .name = name, .specific_gravity = specific_gravity, .plastic = true};
}

constexpr std::array kAll{
    moving(wood("sitka-spruce", "Sitka spruce", 0.40, Trait::pale), .00148, .00263),
    moving(wood("engelmann-spruce", "Engelmann spruce", 0.35, Trait::pale), .00130, .00248),
    wood("european-spruce", "European spruce", 0.41, Trait::pale),
    wood("red-spruce", "red spruce", 0.40, Trait::pale),
    moving(wood("western-redcedar", "western redcedar", 0.32), .00111, .00234),
    moving(wood("sugar-maple", "sugar maple", 0.63, Trait::pale), .00165, .00353),
    moving(wood("bigleaf-maple", "bigleaf maple", 0.48, Trait::pale), .00126, .00248),
    moving(wood("black-walnut", "black walnut", 0.55), .00190, .00274),
    moving(wood("black-cherry", "black cherry", 0.50), .00126, .00248),
    wood("mahogany", "mahogany", 0.53),
    wood("sapele", "sapele", 0.60),
    wood("koa", "koa", 0.55),
    wood("padauk", "padauk", 0.68),
    wood("wenge", "wenge", 0.76),
    wood("rosewood", "rosewood", 0.78, Trait::oily),
    wood("cocobolo", "cocobolo", 0.95, Trait::oily),
    wood("ebony", "ebony", 0.95, Trait::oily),
    wood("ziricote", "ziricote", 0.78, Trait::oily),
    wood("ash", "ash", 0.60, Trait::pale),
    wood("basswood", "basswood", 0.37, Trait::pale),
    wood("birch-ply", "birch plywood", 0.68, Trait::pale),
    Material{.key = "bone", .name = "bone", .specific_gravity = 1.9, .pale = true},
    plastic("celluloid-binding", "celluloid binding", 1.4),
    plastic("abs-binding", "ABS binding", 1.05),
};

}  // namespace

std::span<const Material> materials() { return kAll; }

Result<const Material*, UnknownMaterial> material(std::string_view key) {
  for (const Material& m : kAll) {
    if (m.key == key) return &m;
  }
  return Unexpected{UnknownMaterial{std::string{key}}};
}

}  // namespace squeezeout
