#pragma once
// Draws a frame with Dear ImGui and says what was pressed. The only place where marks become draw lists.
//   Shape   call between NewFrame and Render; acts on release inside; a key acts on its press, once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "client/look/frame.h"
#include "client/look/palette.h"

struct ImFont;

namespace squeezeout::look {

using Fonts = std::array<ImFont*, kTypes>;

struct UiState {
  const Fonts& fonts;
  const Palette& palette;
  std::vector<int> keys;  // pressed since the last frame; draw() takes them
};

struct Pressed {
  enum class By { mouse, key };
  std::string id;
  By by = By::mouse;
  Intent intent;
};

[[nodiscard]] std::optional<Pressed> draw(const Frame& frame, UiState& ui);

}  // namespace squeezeout::look
