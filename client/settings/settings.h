#pragma once
// The settings file of one device: lines of `key = value`, for a person and this program to write.
//   Shape    # begins a comment line; a value runs to the end of its line, spaces around it are no part of it
//   Keys     theme = dark|light; text = 1 to 2; mm_per_px = 0.05 to 2 (0: as the monitor says); sound = on|off;
//            lamp, printer = a command; bench, builder = a key of the shop
//   Refuses  every mistake at once, each with its line: a key that is unknown or comes twice, a value that is none

#include <string>
#include <string_view>
#include <vector>

#include "client/look/prefs.h"
#include "common/base/result.h"

namespace squeezeout::settings {

struct Settings {
  Prefs prefs;
  std::string bench, builder;  // keys of the shop; empty: the first that fits
  friend bool operator==(const Settings&, const Settings&) = default;
};

struct LineMistake {
  int line = 0;  // from 1
  std::string what, mend;
};
// "bench.conf:3: unknown key "colour". Next: use one of ..."
[[nodiscard]] std::string to_text(const std::string& file, const LineMistake& m);

[[nodiscard]] Result<Settings, std::vector<LineMistake>> read_settings(std::string_view text);
[[nodiscard]] std::string write_settings(
    const Settings& settings);  // read_settings(it) == settings

}  // namespace squeezeout::settings
