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
  // A full screen keeps the X screen saver away, and stays when it loses the focus. It does not keep the monitor from going to
  // sleep by DPMS: that is for the machine's own set-up (xset -dpms).
  enum class Cover { window, fullscreen } cover = Cover::window;
  enum class Pointer { shown, hidden } pointer = Pointer::shown;
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
  void wait(double seconds);                // until input, wake() or the time is over
  static void wake();                       // from any thread
  bool take_input();                        // whether a person did something since the last call
  std::vector<int> take_keys();             // look::Press keys, in order of their presses
  std::string take_typed();                 // strokes (look/typing.h), in order
  std::vector<std::string> take_dropped();  // paths of files that were dropped on it
  void begin_frame();
  void show();  // what was painted

 private:
  Window() = default;
  GLFWwindow* window_ = nullptr;
  int width_ = 0, height_ = 0;
  bool input_ = true;
  std::vector<int> keys_;
  std::string typed_;
  std::vector<std::string> dropped_;
  std::unique_ptr<Gl> gl_;
};

}  // namespace squeezeout::platform
