#include "client/look/scale.h"

#include <array>
#include <cmath>
#include <numbers>

namespace squeezeout::look {

TypeFace face_of(Type type) {
  static constexpr std::array<TypeFace, kTypes> faces{{
      {2.8F, Weight::medium},
      {3.4F, Weight::medium},
      {3.4F, Weight::semibold},
      {4.6F, Weight::bold},
      {6.2F, Weight::bold},
      {9.5F, Weight::bold},
      {15.0F, Weight::bold},
      {32.0F, Weight::bold},
      {52.0F, Weight::bold},
      {12.0F, Weight::medium},
      {23.3F, Weight::semibold},
      {37.0F, Weight::bold},
  }};
  return faces[static_cast<std::size_t>(type)];
}

bool on_wall(Type type) { return type >= Type::wall_sub; }

float distance_m(Type type) {
  if (!on_wall(type)) return 0.6F;
  return type == Type::wall_sub ? 2.5F : 5;
}

float arc_minutes(float cap_mm, float distance_m) {
  const double radians = 2 * std::atan2(cap_mm / 2, distance_m * 1000);
  return static_cast<float>(radians * 180 / std::numbers::pi * 60);
}

float fitting_text(float wanted, float width_px, float height_px, float mm_per_px) {
  const float room =
      std::min(width_px * mm_per_px / kLeastWidthMm, height_px * mm_per_px / kLeastHeightMm);
  return std::clamp(std::min(wanted, room), 1.0F, kMostText);
}

}  // namespace squeezeout::look
