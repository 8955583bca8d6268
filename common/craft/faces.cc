#include "common/craft/faces.h"

namespace squeezeout {
namespace {

Result<const Material*, UnknownMaterial> looked_up(const Face& face) {
  if (face.material.empty()) return static_cast<const Material*>(nullptr);
  return material(face.material);
}

}  // namespace

const Material* Faces::softer() const {
  const Material* out = nullptr;
  for (const Material* m : {a, b}) {
    if (!m || m->plastic) continue;
    if (!out || m->specific_gravity < out->specific_gravity) out = m;
  }
  return out;
}

Result<Faces, UnknownMaterial> faces_of(const Joint& joint) {
  const auto a = looked_up(joint.a);
  if (!a) return Unexpected{a.error()};
  const auto b = looked_up(joint.b);
  if (!b) return Unexpected{b.error()};
  return Faces{*a, *b};
}

}  // namespace squeezeout
