#include "client/platform/headless.h"

#include <EGL/egl.h>
#include <EGL/eglext.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

namespace squeezeout::platform {

Result<std::unique_ptr<Headless>, std::string> Headless::open(int width, int height) {
  std::unique_ptr<Headless> h(new Headless);
  const auto fail = [](const char* why) {
    return Unexpected(std::string("No picture without a display: ") + why +
                      ". Next: install libgl1-mesa-dri and libegl1, or use xvfb-run.");
  };
  const auto get_display = reinterpret_cast<PFNEGLGETPLATFORMDISPLAYEXTPROC>(
      eglGetProcAddress("eglGetPlatformDisplayEXT"));
  if (get_display == nullptr) return fail("this EGL has no platforms");
  h->display_ = get_display(EGL_PLATFORM_SURFACELESS_MESA, nullptr, nullptr);
  if (h->display_ == nullptr || !eglInitialize(h->display_, nullptr, nullptr))
    return fail("EGL has no surfaceless platform");
  const EGLint wanted[] = {EGL_SURFACE_TYPE,
                           EGL_PBUFFER_BIT,
                           EGL_RENDERABLE_TYPE,
                           EGL_OPENGL_BIT,
                           EGL_RED_SIZE,
                           8,
                           EGL_GREEN_SIZE,
                           8,
                           EGL_BLUE_SIZE,
                           8,
                           EGL_NONE};
  EGLConfig config = nullptr;
  EGLint found = 0;
  if (!eglBindAPI(EGL_OPENGL_API) || !eglChooseConfig(h->display_, wanted, &config, 1, &found) ||
      found == 0)
    return fail("EGL has no OpenGL to draw with");
  const EGLint size[] = {EGL_WIDTH, width, EGL_HEIGHT, height, EGL_NONE};
  h->surface_ = eglCreatePbufferSurface(h->display_, config, size);
  h->context_ = eglCreateContext(h->display_, config, EGL_NO_CONTEXT, nullptr);
  if (h->surface_ == nullptr || h->context_ == nullptr ||
      !eglMakeCurrent(h->display_, h->surface_, h->surface_, h->context_))
    return fail("EGL gives no context of this size");
  h->gl_ = std::make_unique<Gl>();
  return h;
}

Headless::~Headless() {
  gl_.reset();
  if (display_ == nullptr) return;
  eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
  if (context_ != nullptr) eglDestroyContext(display_, context_);
  if (surface_ != nullptr) eglDestroySurface(display_, surface_);
  eglTerminate(display_);
}

void Headless::begin_frame(int width, int height) {
  ImGuiIO& io = ImGui::GetIO();
  io.DisplaySize = {static_cast<float>(width), static_cast<float>(height)};
  io.DeltaTime = 1.0F / 60;
  ImGui_ImplOpenGL3_NewFrame();
  ImGui::NewFrame();
}

Picture Headless::end_frame(look::Colour background, int width, int height) {
  ImGui::Render();
  gl_->paint(background, width, height);
  return gl_->picture(width, height);
}

}  // namespace squeezeout::platform
