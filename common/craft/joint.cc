#include "common/craft/joint.h"

#include <algorithm>

namespace squeezeout {

bool Joint::has(Trait t) const {
  return std::find(traits.begin(), traits.end(), t) != traits.end();
}

Joint Joint::of(const Woods& woods) const {
  Joint out = *this;
  for (Face* face : {&out.a, &out.b}) {
    if (const auto it = woods.find(face->part); it != woods.end()) face->material = it->second;
  }
  return out;
}

}  // namespace squeezeout
