#pragma once
// Drawing without a display: EGL on Mesa's surfaceless platform.

#include <memory>
#include <string>

#include "client/platform/gl.h"
#include "common/base/result.h"

namespace squeezeout::platform {

class Headless {
 public:
  // Refuses with what, why and next when there is no EGL that can.
  [[nodiscard]] static Result<std::unique_ptr<Headless>, std::string> open(int width, int height);
  ~Headless();
  Headless(const Headless&) = delete;
  Headless& operator=(const Headless&) = delete;

  Gl& gl() { return *gl_; }
  void begin_frame(int width, int height);  // with no input
  Picture end_frame(look::Colour background, int width, int height);

 private:
  Headless() = default;
  void* display_ = nullptr;
  void* surface_ = nullptr;
  void* context_ = nullptr;
  std::unique_ptr<Gl> gl_;
};

}  // namespace squeezeout::platform
