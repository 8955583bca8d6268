#include "client/look/frame_draw.h"

#include <imgui.h>

#include <cmath>
#include <utility>

#include "client/look/icon_draw.h"

namespace squeezeout::look {
namespace {

class Painter {
 public:
  Painter(ImDrawList& list, const UiState& ui) : list_(list), ui_(ui) {}

  void operator()(const Box& b) const {
    const ImVec2 low{std::round(b.at.x), std::round(b.at.y)};
    const ImVec2 high{std::round(b.at.right()), std::round(b.at.bottom())};
    switch (b.fill) {
      case Fill::none:
        break;
      case Fill::solid:
        list_.AddRectFilled(low, high, colour(b.ink));
        break;
      case Fill::hatch:
        hatch({low.x + 1, low.y + 1}, {high.x - 1, high.y - 1}, colour(b.ink));
        break;
      case Fill::dots:
        dots(low, high, colour(b.ink));
        break;
    }
    if (b.line == Line::solid) border(low, high, b.edge_px, colour(b.edge));
    if (b.line == Line::dashed) dashes(low, high, b.edge_px, colour(b.edge));
  }
  void operator()(const Words& w) const {
    ImFont* font = ui_.fonts[static_cast<std::size_t>(w.type)];
    list_.AddText(font, font->FontSize, {w.pen.x, w.pen.y}, colour(w.ink), w.text.c_str());
  }
  void operator()(const Icon& i) const { draw_icon(list_, i.glyph, i.at, colour(i.ink)); }

  unsigned colour(Role role) const {
    const Colour c = ui_.palette[role];
    return IM_COL32(c.r, c.g, c.b, 255);
  }

  // Four flat strips: cheaper in software than an outline.
  void border(ImVec2 low, ImVec2 high, float px, unsigned colour) const {
    list_.AddRectFilled(low, {high.x, low.y + px}, colour);
    list_.AddRectFilled({low.x, high.y - px}, high, colour);
    list_.AddRectFilled({low.x, low.y + px}, {low.x + px, high.y - px}, colour);
    list_.AddRectFilled({high.x - px, low.y + px}, {high.x, high.y - px}, colour);
  }

 private:
  void dashes(ImVec2 low, ImVec2 high, float px, unsigned colour) const {
    const float on = 6 * px, off = 4 * px;
    for (float x = low.x; x < high.x; x += on + off) {
      const float end = std::min(x + on, high.x);
      list_.AddRectFilled({x, low.y}, {end, low.y + px}, colour);
      list_.AddRectFilled({x, high.y - px}, {end, high.y}, colour);
    }
    list_.AddRectFilled(low, {low.x + px, high.y}, colour);
    list_.AddRectFilled({high.x - px, low.y}, high, colour);
  }
  // 45-degree lines x + y = c, each cut to the rectangle; their grid is the screen's, so neighbours continue.
  void hatch(ImVec2 low, ImVec2 high, unsigned colour) const {
    constexpr float period = 12, width = 2;
    for (float c = std::ceil((low.x + low.y) / period) * period; c < high.x + high.y; c += period) {
      const float left = std::max(low.x, c - high.y), right = std::min(high.x, c - low.y);
      if (right - left < 1) continue;
      list_.AddLine({left, c - left}, {right, c - right}, colour, width);
    }
  }
  void dots(ImVec2 low, ImVec2 high, unsigned colour) const {
    constexpr float period = 14, size = 2;
    for (float y = low.y + 6; y + size < high.y; y += period)
      for (float x = std::ceil((low.x + 4) / period) * period; x + size < high.x; x += period)
        list_.AddRectFilled({x, y}, {x + size, y + size}, colour);
  }

  ImDrawList& list_;
  const UiState& ui_;
};

std::optional<Pressed> pressed_by_key(const Frame& frame, const std::vector<int>& keys) {
  for (const int key : keys)
    for (const Press& p : frame.presses)
      for (const int own : p.keys)
        if (own == key) return Pressed{p.id, Pressed::By::key, p.intent};
  return std::nullopt;
}

}  // namespace

std::optional<Pressed> draw(const Frame& frame, UiState& ui) {
  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize({frame.width, frame.height});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 0);
  ImGui::Begin("screen", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoBackground |
                   ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                   ImGuiWindowFlags_NoNav | ImGuiWindowFlags_NoBringToFrontOnFocus);
  ImGui::PopStyleVar(2);

  ImDrawList& list = *ImGui::GetWindowDrawList();
  const Painter painter{list, ui};
  for (const Mark& mark : frame.marks) std::visit(painter, mark);

  std::optional<Pressed> pressed = pressed_by_key(frame, std::exchange(ui.keys, {}));
  for (const Press& p : frame.presses) {
    ImGui::SetCursorScreenPos({p.at.x, p.at.y});
    const bool clicked =
        ImGui::InvisibleButton(p.id.c_str(), {std::max(1.0F, p.at.w), std::max(1.0F, p.at.h)});
    if (clicked && !pressed) pressed = Pressed{p.id, Pressed::By::mouse, p.intent};
    if (ImGui::IsItemActive())
      painter.border({p.at.x, p.at.y}, {p.at.right(), p.at.bottom()}, 4,
                     painter.colour(Role::muted));
  }
  ImGui::End();
  return pressed;
}

}  // namespace squeezeout::look
