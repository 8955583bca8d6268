#pragma once
// Faces: what is known of the two materials of a joint.
//   Shape    a face without a material is null and asks nothing
//   Refuses  UnknownMaterial: a name that trade/material.h does not list

#include "common/base/result.h"
#include "common/craft/joint.h"
#include "common/trade/material.h"

namespace squeezeout {

struct Faces {
  const Material* a = nullptr;
  const Material* b = nullptr;

  bool named() const { return a || b; }
  bool oily() const { return (a && a->oily) || (b && b->oily); }
  bool plastic() const { return (a && a->plastic) || (b && b->plastic); }
  bool pale() const { return (a && a->pale) || (b && b->pale); }
  // The lighter of those that are no plastic: what a pad crushes first, and what the handbook's pressure goes by. Null: none named.
  const Material* softer() const;
};
[[nodiscard]] Result<Faces, UnknownMaterial> faces_of(const Joint& joint);

}  // namespace squeezeout
