#pragma once
// Typing: what letters do to the text field that is typed into.
//   Shape    strokes are UTF-8 in the order of their presses; a backspace, Enter, Tab and Esc stand among them as the control
//            characters that they are

#include <optional>
#include <string>
#include <string_view>

#include "client/look/frame.h"

namespace squeezeout::look {

inline constexpr char kStrokeBack = '\b', kStrokeTab = '\t', kStrokeEnter = '\n',
                      kStrokeEscape = '\x1b';

struct TypedPress {
  std::string id;
  Intent intent;
};
// Takes strokes up to the one that leaves the field, or that one. The rest waits for the next frame, which knows its field.
//   Enter  presses what holds the key Enter, else goes on as Tab does: to the frame's next field, after the last one nowhere
[[nodiscard]] std::optional<TypedPress> take_strokes(const Frame& frame, std::string& strokes);

// A key acts beside a field that is typed into: function keys and the like do, what writes or leaves does not.
[[nodiscard]] bool acts_beside_typing(int key);

[[nodiscard]] std::size_t letters_in(std::string_view utf8);

}  // namespace squeezeout::look
