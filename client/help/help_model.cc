#include "client/help/help_model.h"

#include "client/panels/chrome_model.h"

namespace squeezeout::help {

look::Frame lay_out_help(const Scene& scene) {
  look::Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  (void)panels::chrome(canvas, scene);
  return canvas.take();
}

}  // namespace squeezeout::help
