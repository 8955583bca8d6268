#pragma once
// How the program ends when it cannot go on: words for the person, and an exit code for scripts.

#include <cstdio>
#include <string>

namespace squeezeout {

inline constexpr int kMistake = 2, kNoServer = 3, kNoPicture = 4;

inline int leave(int code, const std::string& text) {
  std::fprintf(stderr, "squeezeout-bench: %s\n", text.c_str());
  return code;
}

}  // namespace squeezeout
