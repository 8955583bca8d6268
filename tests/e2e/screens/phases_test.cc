// The phases as they come out of the graphics library: swatches are drawn with real OpenGL, read back, and looked at as a grey
// picture shows them and as an eye without green cones sees them. Measured on the pixels, hatch and dots included.
//   Source   deuteranopia: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A Physiologically-based Model for Simulation of
//            Color Vision Deficiency", 2009, matrix for severity 1.0, on linear RGB (recalled, checked by its rows' sums of 1)
//            grey, and contrast: WCAG 2 relative luminance

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "client/look/canvas.h"
#include "client/look/frame_draw.h"
#include "client/platform/fonts.h"
#include "client/platform/headless.h"
#include "client/view/scene.h"

namespace squeezeout {
namespace {

using look::Rect;
using look::Role;
using look::Theme;

constexpr int kWidth = 800, kHeight = 200;
constexpr float kSide = 140, kPitch = 200;

struct Rgb {  // linear, 0..1
  double r = 0, g = 0, b = 0;
};
constexpr std::array<std::array<double, 3>, 3> kDeutan{{{0.367322, 0.860646, -0.227968},
                                                        {0.280085, 0.672501, 0.047413},
                                                        {-0.011820, 0.042940, 0.968881}}};

double linear(double byte) {
  const double c = byte / 255;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}
double luminance(Rgb c) { return 0.2126 * c.r + 0.7152 * c.g + 0.0722 * c.b; }
Rgb deutan(Rgb c) {
  const auto row = [&](const std::array<double, 3>& m) {
    return std::clamp(m[0] * c.r + m[1] * c.g + m[2] * c.b, 0.0, 1.0);
  };
  return {row(kDeutan[0]), row(kDeutan[1]), row(kDeutan[2])};
}
double contrast(double a, double b) { return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05); }

constexpr std::array kPhases{Phase::open, Phase::clamped, Phase::waiting, Phase::ready};
constexpr std::array kNames{"open", "clamped", "waiting", "ready"};

// The mean of each phase's swatch, as drawn, in linear light.
std::array<Rgb, kPhases.size()> drawn(Theme theme) {
  auto headless = platform::Headless::open(kWidth, kHeight);
  if (!headless) throw std::runtime_error(headless.error());
  const auto files = platform::read_fonts();
  const look::Scale scale{look::kUsualMmPerPx, kHeight};
  const look::Letters letters = platform::letters_of(*files, scale);
  const look::Fonts fonts = platform::bake_fonts(*files, letters);
  const look::Palette palette{theme};
  (*headless)->gl().fonts_changed();
  (*headless)->begin_frame(kWidth, kHeight);
  look::UiState ui{fonts, palette, {}};
  look::Canvas canvas{scale, letters, kWidth, kHeight};
  canvas.box(canvas.screen(), Role::lane);
  for (std::size_t i = 0; i < kPhases.size(); ++i) {
    const PhaseLook look = look_of(kPhases[i]);
    const Rect at{20 + kPitch * static_cast<float>(i), 30, kSide, kSide};
    canvas.box(at, look.ground);
    if (look.pattern != look::Fill::none) canvas.box(at, look.pattern_ink, look.pattern);
  }
  (void)look::draw(canvas.take(), ui);
  const platform::Picture picture =
      (*headless)->end_frame(palette[Role::background], kWidth, kHeight);
  std::array<Rgb, kPhases.size()> out;
  for (std::size_t i = 0; i < kPhases.size(); ++i) {
    double n = 0;
    for (int y = 35; y < 30 + static_cast<int>(kSide) - 5; ++y)
      for (int x = 0; x < static_cast<int>(kSide) - 10; ++x, ++n) {
        const std::size_t at =
            (static_cast<std::size_t>(y) * kWidth + 25 + i * static_cast<std::size_t>(kPitch) +
             static_cast<std::size_t>(x)) *
            3;
        out[i].r += linear(picture.rgb[at]);
        out[i].g += linear(picture.rgb[at + 1]);
        out[i].b += linear(picture.rgb[at + 2]);
      }
    out[i].r /= n, out[i].g /= n, out[i].b /= n;
  }
  return out;
}

// What tells phases apart when hue does not. A ready one has a thick border beside: its ground is the paper's.
void expect_apart(Theme theme, double (*seen)(Rgb), const char* name) {
  const auto means = drawn(theme);
  for (std::size_t a = 0; a < means.size(); ++a)
    for (std::size_t b = a + 1; b < means.size(); ++b) {
      const double step = contrast(seen(means[a]), seen(means[b]));
      std::printf("%s, %s: %s : %s = %.2f : 1\n", name, theme == Theme::dark ? "dark" : "light",
                  kNames[a], kNames[b], step);
      const bool next = kPhases[b] == Phase::ready && kPhases[a] == Phase::waiting;
      EXPECT_GE(step, next ? 1.4 : 2.0) << kNames[a] << " and " << kNames[b];
    }
}

TEST(Phases, AreApartInGrey) {
  for (const Theme theme : {Theme::dark, Theme::light}) expect_apart(theme, luminance, "grey");
}

TEST(Phases, AreApartWithoutGreenCones) {
  const auto seen = [](Rgb c) { return luminance(deutan(c)); };
  for (const Theme theme : {Theme::dark, Theme::light}) expect_apart(theme, seen, "deutan");
}

// White stays white, so the matrix is the one that its authors printed.
TEST(Phases, TheSimulationKeepsGreys) {
  for (const auto& row : kDeutan) EXPECT_NEAR(row[0] + row[1] + row[2], 1, 2e-5);
  const Rgb grey = deutan({0.5, 0.5, 0.5});
  EXPECT_NEAR(grey.r, 0.5, 1e-4);
  EXPECT_NEAR(grey.g, 0.5, 1e-4);
  EXPECT_NEAR(grey.b, 0.5, 1e-4);
}

}  // namespace
}  // namespace squeezeout
