#pragma once
// Letters: how wide a text is, so that layouts need no window and no ImGui.
//   Shape   advances by code point at size 1 of each weight, read from the font once; Inter is not kerned here
//   Units   advances in fractions of the font's size (ascent less descent); pixels out

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "client/look/scale.h"

namespace squeezeout::look {

struct Advances {
  std::vector<float> by_code_point;  // from 0 on
  float other = 0.6F;                // beyond
  float cap = 0.6F;                  // cap height
  float cap_top = 0.17F;             // from the top of the line to the top of a capital
};

class Letters {
 public:
  Letters(Scale scale, std::array<Advances, kWeights> weights)
      : scale_(scale), weights_(std::move(weights)) {}

  float size_px(Type type) const;  // the font's size
  float cap_px(Type type) const { return scale_.cap_px(type); }
  float cap_top_px(Type type) const;
  float width(Type type, std::string_view utf8) const;
  // The text itself, or as much of it as fits with an ellipsis; empty when not even two letters do.
  std::string fitted(Type type, std::string_view utf8, float width) const;
  // Broken at spaces into at most `lines` lines; the last one is fitted.
  std::vector<std::string> wrapped(Type type, std::string_view utf8, float width, int lines) const;

 private:
  const Advances& advances(Type type) const;
  Scale scale_;
  std::array<Advances, kWeights> weights_;
};

}  // namespace squeezeout::look
