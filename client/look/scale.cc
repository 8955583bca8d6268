#include "client/look/scale.h"

#include <array>

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

}  // namespace squeezeout::look
