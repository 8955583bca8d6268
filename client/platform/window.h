#pragma once
// A window, by GLFW. One a program; it sleeps until something happens.

#include <memory>
#include <string>
#include <vector>

#include "client/platform/gl.h"
#include "common/base/result.h"

struct GLFWwindow;

namespace squeezeout::platform {

struct WindowWish {
  std::string title;
  int width = 1600, height = 900;
  enum class Cover { window, fullscreen } cover = Cover::window;
};

class Window {
 public:
  // Refuses with what, why and next when there is no display.
  [[nodiscard]] static Result<std::unique_ptr<Window>, std::string> open(const WindowWish& wish);
  ~Window();
  Window(const Window&) = delete;
  Window& operator=(const Window&) = delete;

  Gl& gl() { return *gl_; }
  int width() const { return width_; }
  int height() const { return height_; }
  // Of the monitor, as it says itself; 0 when it does not, or says nonsense.
  float mm_per_px() const;

  bool closing() const;
  void wait(double seconds);     // until input, wake() or the time is over
  static void wake();            // from any thread
  bool take_input();             // whether a person did something since the last call
  std::vector<int> take_keys();  // look::Press keys, in order of their presses
  void begin_frame();
  void show();  // what was painted

 private:
  Window() = default;
  GLFWwindow* window_ = nullptr;
  int width_ = 0, height_ = 0;
  bool input_ = true;
  std::vector<int> keys_;
  std::unique_ptr<Gl> gl_;
};

}  // namespace squeezeout::platform
