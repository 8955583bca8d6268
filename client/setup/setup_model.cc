#include "client/setup/setup_model.h"

#include "client/panels/chrome_model.h"

namespace squeezeout::setup {

look::Frame lay_out_setup(const Scene& scene) {
  look::Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  (void)panels::chrome(canvas, scene);
  return canvas.take();
}

}  // namespace squeezeout::setup
