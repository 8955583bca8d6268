#pragma once
// The sounds of a bench, made by arithmetic: no files.
//   Shape   one channel, 16 bits, kRate samples a second; every tone swells and fades within kFade, so that nothing clicks
//   Source  pitches between 500 and 1,500 Hz carry over machines and through ear defenders. From memory

#include <cstdint>
#include <vector>

namespace squeezeout::platform {

inline constexpr int kRate = 44'100;
using Samples = std::vector<std::int16_t>;

struct Tone {
  double hertz = 0, seconds = 0;
  double loudness = 0;                                    // 0 to 1, of full scale
  enum class Shape { held, struck } shape = Shape::held;  // struck: dies away like a bell
};
inline constexpr double kFade = 0.012;  // s
inline constexpr double kHigh = 988, kLow = 740, kBell = 659;

// One after another. Never clips: loudness above 1 counts as 1.
[[nodiscard]] Samples samples_of(const std::vector<Tone>& tones);

[[nodiscard]] Samples two_tones();  // a joint is at risk: high, low, 0.7 s
[[nodiscard]] Samples chime();      // clamps are wanted: one soft stroke

}  // namespace squeezeout::platform
