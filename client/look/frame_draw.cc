#include "client/look/frame_draw.h"

#include <imgui.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <utility>

#include "client/look/icon_draw.h"
#include "client/look/ring.h"
#include "client/look/typing.h"

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

// A key brings its letter, perhaps only with the next look at the window: when the key acted, the letter is not typed.
void drop_echo(const Frame& frame, UiState& ui) {
  for (const int key : ui.keys)
    if (!frame.typing && key > ' ' && key < 0x7F) ui.echo += static_cast<char>(key);
  while (!ui.echo.empty() && !ui.typed.empty()) {
    const bool same = std::toupper(static_cast<unsigned char>(ui.typed.front())) == ui.echo.front();
    if (!same) return ui.echo.clear();
    ui.echo.erase(0, 1);
    ui.typed.erase(0, 1);
  }
}

std::optional<Pressed> typed(const Frame& frame, std::string& strokes) {
  if (!frame.typing) strokes.clear();
  auto press = take_strokes(frame, strokes);
  if (!press) return std::nullopt;
  return Pressed{std::move(press->id), Pressed::By::key, std::move(press->intent)};
}

std::optional<Pressed> pressed_by_key(const Frame& frame, const std::vector<int>& keys) {
  for (const int key : keys)
    if (!frame.typing || acts_beside_typing(key))
      for (const Press& p : frame.presses)
        for (const int own : p.keys)
          if (own == key) return Pressed{p.id, Pressed::By::key, p.intent};
  return std::nullopt;
}

// Tab goes round the presses of a frame, arrows walk over them (ring.h), so that each can be had without a mouse.
void turn_ring(const Frame& frame, std::string& ring) {
  const auto same = [&](const Press& p) { return p.id == ring; };
  const auto here = std::find_if(frame.presses.begin(), frame.presses.end(), same);
  if (frame.presses.empty()) return;
  const bool last = here == frame.presses.end() || here + 1 == frame.presses.end();
  ring = last ? frame.presses.front().id : (here + 1)->id;
}

std::optional<Pressed> pressed_by_ring(const Frame& frame, UiState& ui) {
  for (const int key : ui.keys) {
    if (key == kTab) turn_ring(frame, ui.ring);
    if (is_arrow(key) && !pressed_by_key(frame, {key})) ui.ring = walk(frame, ui.ring, key);
    if (key != kEnter || ui.ring.empty()) continue;
    for (const Press& p : frame.presses)
      if (p.id == ui.ring) return Pressed{p.id, Pressed::By::key, p.intent};
  }
  return std::nullopt;
}

// The wheel and a press where pixels are time.
std::optional<Pressed> in_time(const TimeField& field, UiState& ui) {
  const ImGuiIO& io = ImGui::GetIO();
  const auto [x, y] = io.MousePos;
  if (!field.at.contains({x, y, 0, 0})) {
    ui.wheel = 0;
    return std::nullopt;
  }
  ui.wheel += io.MouseWheel;
  const float part = (x - field.at.x) / field.at.w;
  if (std::abs(ui.wheel) >= 1) {
    const int by = std::exchange(ui.wheel, 0.0F) > 0 ? 1 : -1;
    return Pressed{by > 0 ? "wheel.in" : "wheel.out", Pressed::By::mouse,
                   Zoom{by, {.at = instant_at(field, x), .part = part}}};
  }
  if (!field.aims) return std::nullopt;
  ImGui::SetCursorScreenPos({field.at.x, field.at.y});
  if (!ImGui::InvisibleButton("aim", {field.at.w, field.at.h})) return std::nullopt;
  const Instant wish = instant_at(field, x);
  return Pressed{
      "aim", Pressed::By::mouse,
      OtherTime{field.aims, wish - wish.time_since_epoch() % field.aim_step, field.outlook}};
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

  drop_echo(frame, ui);
  if (frame.typing) ui.ring = frame.typing->field;
  std::optional<Pressed> pressed = frame.typing ? std::nullopt : pressed_by_ring(frame, ui);
  if (!pressed) {
    pressed = pressed_by_key(frame, ui.keys);
    if (pressed) ui.ring.clear();
  }
  ui.keys.clear();
  if (!pressed) pressed = typed(frame, ui.typed);
  for (const Press& p : frame.presses) {
    ImGui::SetCursorScreenPos({p.at.x, p.at.y});
    const bool clicked =
        ImGui::InvisibleButton(p.id.c_str(), {std::max(1.0F, p.at.w), std::max(1.0F, p.at.h)});
    if (clicked) ui.ring.clear();
    if (clicked && !pressed) pressed = Pressed{p.id, Pressed::By::mouse, p.intent};
    if (ImGui::IsItemActive() || p.id == ui.ring)
      painter.border({p.at.x, p.at.y}, {p.at.right(), p.at.bottom()}, 4,
                     painter.colour(Role::muted));
  }
  if (frame.time && !pressed) pressed = in_time(*frame.time, ui);
  ImGui::End();
  return pressed;
}

}  // namespace squeezeout::look
