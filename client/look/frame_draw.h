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
  std::string echo = {};  // letters that are still to come of keys that acted: they are not typed
  std::string ring = {};  // the press that Tab went to: Enter presses it. Empty: none
  std::string typed =
      {};  // strokes since then (typing.h); draw() takes those that the frame has a field for
  float wheel = 0;  // part of a step that a smooth wheel has turned
};

struct Pressed {
  enum class By { mouse, key };
  std::string id;
  By by = By::mouse;
  Intent intent;
};

[[nodiscard]] std::optional<Pressed> draw(const Frame& frame, UiState& ui);

}  // namespace squeezeout::look
