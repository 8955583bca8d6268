#pragma once
// Hands: a person at the screen. Real ImGui, a real atlas, no window and no graphics card: the draw lists are thrown away.

#include <optional>
#include <string>

#include "client/look/frame_draw.h"
#include "tests/support/screens/stage.h"

namespace squeezeout::testing {

class Hands {
 public:
  explicit Hands(const Stage& stage);
  ~Hands();
  Hands(const Hands&) = delete;
  Hands& operator=(const Hands&) = delete;

  std::optional<look::Pressed> look_only(
      const look::Frame& frame);  // a frame in which nothing is done
  // Moves to the middle of the widget, presses, lets go there.
  std::optional<look::Pressed> click(const look::Frame& frame, const std::string& id);
  // Presses on one widget and lets go on another.
  std::optional<look::Pressed> slip(const look::Frame& frame, const std::string& from,
                                    const std::string& to);
  std::optional<look::Pressed> key(const look::Frame& frame, int key);
  // Strokes of a keyboard (client/look/typing.h).
  std::optional<look::Pressed> type(const look::Frame& frame, const std::string& strokes);
  std::optional<look::Pressed> click_at(const look::Frame& frame, look::Point at);
  // Turns the wheel by so many steps, up is positive.
  std::optional<look::Pressed> wheel(const look::Frame& frame, look::Point at, float steps);
  int drawn_vertices() const { return vertices_; }

 private:
  std::optional<look::Pressed> pass(const look::Frame& frame, look::Point mouse, bool down);
  look::Palette palette_{look::Theme::dark};
  look::Fonts fonts_{};
  look::UiState ui_;
  look::Point mouse_{-1, -1};
  int vertices_ = 0;
};

}  // namespace squeezeout::testing
