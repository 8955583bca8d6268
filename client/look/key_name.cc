#include "client/look/key_name.h"

#include "client/look/frame.h"

namespace squeezeout::look {

std::string key_name(int key) {
  switch (key) {
    case ' ':
      return "Space";
    case kEscape:
      return "Esc";
    case kEnter:
      return "Enter";
    case kTab:
      return "Tab";
    case kBackspace:
      return "Backspace";
    case kLeft:
      return "Left";
    case kRight:
      return "Right";
    case kUp:
      return "Up";
    case kDown:
      return "Down";
    case kF1:
      return "F1";
    default:
      return {static_cast<char>(key)};
  }
}

}  // namespace squeezeout::look
