#include "client/platform/window.h"

#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <utility>

#include "client/look/typing.h"

namespace squeezeout::platform {
namespace {

// GLFW's numbers for printing keys are ASCII in capitals, which is what Press::keys holds.
static_assert(GLFW_KEY_SPACE == ' ' && GLFW_KEY_A == 'A' && GLFW_KEY_ESCAPE == look::kEscape &&
              GLFW_KEY_ENTER == look::kEnter);

static_assert(GLFW_KEY_TAB == look::kTab && GLFW_KEY_BACKSPACE == look::kBackspace &&
              GLFW_KEY_RIGHT == look::kRight && GLFW_KEY_LEFT == look::kLeft &&
              GLFW_KEY_DOWN == look::kDown && GLFW_KEY_UP == look::kUp);

int plain_key(int key) {
  switch (key) {
    case GLFW_KEY_KP_ENTER:
      return look::kEnter;
    case GLFW_KEY_KP_ADD:
    case GLFW_KEY_EQUAL:
      return '+';
    case GLFW_KEY_KP_SUBTRACT:
      return '-';
    default:
      return key;
  }
}

// What a key does to a field that is typed into.
void add_stroke(std::string& typed, int key) {
  if (key == GLFW_KEY_BACKSPACE) typed += look::kStrokeBack;
  if (key == GLFW_KEY_TAB) typed += look::kStrokeTab;
  if (key == GLFW_KEY_ENTER || key == GLFW_KEY_KP_ENTER) typed += look::kStrokeEnter;
  if (key == GLFW_KEY_ESCAPE) typed += look::kStrokeEscape;
}

void add_letter(std::string& typed, unsigned code) {
  const auto byte = [&](unsigned bits) { typed += static_cast<char>(bits); };
  const auto tail = [&](unsigned shift) { byte(0x80U | (code >> shift & 0x3FU)); };
  if (code < 0x80) return byte(code);
  if (code < 0x800) return byte(0xC0U | code >> 6), tail(0);
  if (code < 0x10000) return byte(0xE0U | code >> 12), tail(6), tail(0);
  byte(0xF0U | code >> 18), tail(12), tail(6), tail(0);
}

}  // namespace

Result<std::unique_ptr<Window>, std::string> Window::open(const WindowWish& wish) {
  const auto why = [] {
    const char* text = nullptr;
    glfwGetError(&text);
    return std::string(text == nullptr ? "no reason was given" : text);
  };
  if (!glfwInit())
    return Unexpected("No window: " + why() +
                      ". Next: run it where there is a display, or draw a picture: --shot FILE.");
  std::unique_ptr<Window> w(new Window);
  glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
  glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 0);
  glfwWindowHint(GLFW_AUTO_ICONIFY, GLFW_FALSE);
  GLFWmonitor* monitor =
      wish.cover == WindowWish::Cover::fullscreen ? glfwGetPrimaryMonitor() : nullptr;
  int width = wish.width, height = wish.height;
  if (monitor != nullptr) {
    const GLFWvidmode* mode = glfwGetVideoMode(monitor);
    width = mode->width, height = mode->height;
  }
  w->window_ = glfwCreateWindow(width, height, wish.title.c_str(), monitor, nullptr);
  if (w->window_ == nullptr) return Unexpected("No window: " + why() + ". Next: use --shot FILE.");
  glfwMakeContextCurrent(w->window_);
  glfwSwapInterval(0);  // drawn on change, not in step with the monitor
  if (wish.pointer == WindowWish::Pointer::hidden)
    glfwSetInputMode(w->window_, GLFW_CURSOR, GLFW_CURSOR_HIDDEN);

  glfwSetWindowUserPointer(w->window_, w.get());
  glfwSetKeyCallback(w->window_, [](GLFWwindow* g, int key, int, int action, int mods) {
    auto* self = static_cast<Window*>(glfwGetWindowUserPointer(g));
    self->input_ = true;
    // One press, one action: a held key does not repeat.
    if (action == GLFW_PRESS && (mods & (GLFW_MOD_CONTROL | GLFW_MOD_ALT)) == 0)
      self->keys_.push_back(plain_key(key));
    if (action != GLFW_RELEASE) add_stroke(self->typed_, key);  // a held backspace repeats
  });
  glfwSetCharCallback(w->window_, [](GLFWwindow* g, unsigned code) {
    auto* self = static_cast<Window*>(glfwGetWindowUserPointer(g));
    self->input_ = true;
    add_letter(self->typed_, code);
  });
  glfwSetDropCallback(w->window_, [](GLFWwindow* g, int count, const char** paths) {
    auto* self = static_cast<Window*>(glfwGetWindowUserPointer(g));
    self->input_ = true;
    self->dropped_.insert(self->dropped_.end(), paths, paths + count);
  });
  glfwSetMouseButtonCallback(w->window_, [](GLFWwindow* g, int, int, int) {
    static_cast<Window*>(glfwGetWindowUserPointer(g))->input_ = true;
  });
  glfwSetCursorPosCallback(w->window_, [](GLFWwindow* g, double, double) {
    static_cast<Window*>(glfwGetWindowUserPointer(g))->input_ = true;
  });
  glfwSetScrollCallback(w->window_, [](GLFWwindow* g, double, double) {
    static_cast<Window*>(glfwGetWindowUserPointer(g))->input_ = true;
  });
  glfwSetWindowRefreshCallback(w->window_, [](GLFWwindow* g) {
    static_cast<Window*>(glfwGetWindowUserPointer(g))->input_ = true;
  });
  glfwSetFramebufferSizeCallback(w->window_, [](GLFWwindow* g, int new_width, int new_height) {
    auto* self = static_cast<Window*>(glfwGetWindowUserPointer(g));
    self->input_ = true;
    if (new_width > 0 && new_height > 0) self->width_ = new_width, self->height_ = new_height;
  });
  glfwGetFramebufferSize(w->window_, &w->width_, &w->height_);

  w->gl_ = std::make_unique<Gl>();
  ImGui_ImplGlfw_InitForOpenGL(w->window_, true);  // it calls our callbacks after its own
  return w;
}

Window::~Window() {
  if (window_ != nullptr) {
    if (gl_) ImGui_ImplGlfw_Shutdown();
    gl_.reset();
    glfwDestroyWindow(window_);
  }
  glfwTerminate();
}

float Window::mm_per_px() const {
  GLFWmonitor* monitor = glfwGetPrimaryMonitor();
  if (monitor == nullptr) return 0;
  int width_mm = 0, height_mm = 0;
  glfwGetMonitorPhysicalSize(monitor, &width_mm, &height_mm);
  const GLFWvidmode* mode = glfwGetVideoMode(monitor);
  if (mode == nullptr || mode->width <= 0) return 0;
  const float mm = static_cast<float>(width_mm) / static_cast<float>(mode->width);
  return mm >= 0.1F && mm <= 1.0F ? mm : 0;
}

bool Window::closing() const { return glfwWindowShouldClose(window_) != 0; }

void Window::wait(double seconds) { glfwWaitEventsTimeout(seconds); }

void Window::wake() { glfwPostEmptyEvent(); }

bool Window::take_input() { return std::exchange(input_, false); }

std::vector<int> Window::take_keys() { return std::exchange(keys_, {}); }

std::string Window::take_typed() { return std::exchange(typed_, {}); }

std::vector<std::string> Window::take_dropped() { return std::exchange(dropped_, {}); }

void Window::begin_frame() {
  ImGui_ImplOpenGL3_NewFrame();
  ImGui_ImplGlfw_NewFrame();
  ImGui::NewFrame();
}

void Window::show() { glfwSwapBuffers(window_); }

}  // namespace squeezeout::platform
