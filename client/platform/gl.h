#pragma once
// ImGui on OpenGL, the same with a window and without. A context is current whenever these are called.

#include "client/look/palette.h"
#include "client/platform/png.h"

namespace squeezeout::platform {

// ImGui's context and its OpenGL renderer, for as long as it lives.
class Gl {
 public:
  Gl();
  ~Gl();
  Gl(const Gl&) = delete;
  Gl& operator=(const Gl&) = delete;

  void fonts_changed();                                        // after the atlas was baked anew
  void paint(look::Colour background, int width, int height);  // ImGui's last frame
  Picture picture(int width, int height) const;                // what was painted
};

}  // namespace squeezeout::platform
