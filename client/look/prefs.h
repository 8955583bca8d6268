#pragma once
// What one device is set to: kept in its settings file, changed on the set-up screen. Never the shop's business.

#include <string>

#include "client/look/palette.h"

namespace squeezeout {

struct Prefs {
  look::Theme theme = look::Theme::dark;
  float text = 1;       // 1 to 2: how large letters are
  float mm_per_px = 0;  // calibrated with a ruler; 0: as the monitor says
  enum class Sound { on, off } sound = Sound::on;
  std::string lamp;     // a command that is run when a joint is at risk; empty: none
  std::string printer;  // a command that a label's file is given to; empty: no printer
  friend bool operator==(const Prefs&, const Prefs&) = default;
};

}  // namespace squeezeout
