#include "tests/ui/hands.h"

#include <imgui.h>

namespace squeezeout::testing {

Hands::Hands(const Stage& stage) : ui_{fonts_, palette_, {}} {
  ImGui::CreateContext();
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.DisplaySize = {stage.width, stage.height};
  fonts_ = platform::bake_fonts(stage.fonts, stage.letters);
}

Hands::~Hands() { ImGui::DestroyContext(); }

std::optional<look::Pressed> Hands::pass(const look::Frame& frame, look::Point mouse, bool down) {
  mouse_ = mouse;
  ImGuiIO& io = ImGui::GetIO();
  io.DeltaTime = 1.0F / 60;
  io.MousePos = {mouse.x, mouse.y};
  io.MouseDown[0] = down;
  ImGui::NewFrame();
  auto pressed = look::draw(frame, ui_);
  ImGui::Render();
  vertices_ = ImGui::GetDrawData()->TotalVtxCount;
  return pressed;
}

std::optional<look::Pressed> Hands::look_only(const look::Frame& frame) {
  return pass(frame, mouse_, false);
}

std::optional<look::Pressed> Hands::click(const look::Frame& frame, const std::string& id) {
  return slip(frame, id, id);
}

std::optional<look::Pressed> Hands::slip(const look::Frame& frame, const std::string& from,
                                         const std::string& to) {
  const look::Press* a = find(frame, from);
  const look::Press* b = find(frame, to);
  CHECK(a != nullptr && b != nullptr);
  if (auto early = pass(frame, a->at.centre(), false)) return early;
  if (auto early = pass(frame, a->at.centre(), true)) return early;
  if (auto early = pass(frame, b->at.centre(), true)) return early;
  return pass(frame, b->at.centre(), false);
}

std::optional<look::Pressed> Hands::click_at(const look::Frame& frame, look::Point at) {
  for (const bool down : {false, true})
    if (auto early = pass(frame, at, down)) return early;
  return pass(frame, at, false);
}

std::optional<look::Pressed> Hands::wheel(const look::Frame& frame, look::Point at, float steps) {
  ImGui::GetIO().MouseWheel = steps;
  return pass(frame, at, false);
}

std::optional<look::Pressed> Hands::type(const look::Frame& frame, const std::string& strokes) {
  ui_.typed += strokes;
  return look_only(frame);
}

std::optional<look::Pressed> Hands::key(const look::Frame& frame, int key) {
  ui_.keys.push_back(key);
  return look_only(frame);
}

}  // namespace squeezeout::testing
