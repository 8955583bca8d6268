#include "client/platform/gl.h"

#include <GL/gl.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>

namespace squeezeout::platform {

Gl::Gl() {
  IMGUI_CHECKVERSION();
  ImGui::CreateContext();
  ImGui::GetIO().IniFilename = nullptr;
  ImGui::GetStyle().AntiAliasedLinesUseTex = false;
  ImGui_ImplOpenGL3_Init("#version 130");
}

Gl::~Gl() {
  ImGui_ImplOpenGL3_Shutdown();
  ImGui::DestroyContext();
}

void Gl::fonts_changed() {
  ImGui_ImplOpenGL3_DestroyFontsTexture();
  ImGui_ImplOpenGL3_CreateFontsTexture();
  ImGui::GetIO().Fonts->ClearTexData();  // it is on the card now
}

void Gl::paint(look::Colour background, int width, int height) {
  glViewport(0, 0, width, height);
  glClearColor(static_cast<float>(background.r) / 255, static_cast<float>(background.g) / 255,
               static_cast<float>(background.b) / 255, 1);
  glClear(GL_COLOR_BUFFER_BIT);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
}

Picture Gl::picture(int width, int height) const {
  Picture p{width, height, {}};
  const auto row = static_cast<std::size_t>(width) * 3;
  p.rgb.resize(row * static_cast<std::size_t>(height));
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadPixels(0, 0, width, height, GL_RGB, GL_UNSIGNED_BYTE, p.rgb.data());
  for (std::size_t top = 0, bottom = static_cast<std::size_t>(height) - 1; top < bottom;
       ++top, --bottom)
    std::swap_ranges(p.rgb.begin() + static_cast<std::ptrdiff_t>(top * row),
                     p.rgb.begin() + static_cast<std::ptrdiff_t>((top + 1) * row),
                     p.rgb.begin() + static_cast<std::ptrdiff_t>(bottom * row));
  return p;
}

}  // namespace squeezeout::platform
