#include "client/platform/tones.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace squeezeout::platform {
namespace {

constexpr double kDies = 0.28;  // s, until a struck tone is down to 1/e

double envelope(const Tone& t, double at) {
  const double fade = std::min({1.0, at / kFade, (t.seconds - at) / kFade});
  return std::max(0.0, fade) * (t.shape == Tone::Shape::struck ? std::exp(-at / kDies) : 1.0);
}

}  // namespace

Samples samples_of(const std::vector<Tone>& tones) {
  Samples out;
  for (const Tone& t : tones) {
    const double loudness = std::clamp(t.loudness, 0.0, 1.0) * INT16_MAX;
    const auto count = static_cast<int>(std::lround(t.seconds * kRate));
    for (int i = 0; i < count; ++i) {
      const double at = static_cast<double>(i) / kRate;
      const double wave = std::sin(2 * std::numbers::pi * t.hertz * at);
      out.push_back(static_cast<std::int16_t>(std::lround(loudness * envelope(t, at) * wave)));
    }
  }
  return out;
}

Samples two_tones() { return samples_of({{kHigh, 0.35, 0.8}, {kLow, 0.35, 0.8}}); }

Samples chime() { return samples_of({{kBell, 1.1, 0.6, Tone::Shape::struck}}); }

}  // namespace squeezeout::platform
