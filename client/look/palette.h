#pragma once
// Colours by the role that they play, in two themes. Grey is normal; hue means act: amber is the only loud colour.
//   Shape   phases step in lightness (open : clamped : waiting about 3:1), so they survive greyscale; red is ink, never a fill
//   Source  contrast is WCAG 2 relative luminance

#include <array>
#include <cstdint>
#include <string>

namespace squeezeout::look {

enum class Role : std::uint8_t {
  background,
  lane,
  panel,
  text,
  muted,
  edge,
  grid,
  closed,
  key,
  on_key,  // the one filled button
  open,
  on_open,
  clamped,
  hatch,
  on_clamped,
  waiting,
  dots,
  on_waiting,
  amber,
  on_amber,
  keyline,  // keyline: the dark edge that amber needs on light paper
  red,
};
inline constexpr int kRoles = 22;

enum class Theme { dark, light };

struct Colour {
  std::uint8_t r = 0, g = 0, b = 0;
  friend bool operator==(const Colour&, const Colour&) = default;
};

class Palette {
 public:
  explicit Palette(Theme theme);
  Colour operator[](Role role) const { return colours_[static_cast<std::size_t>(role)]; }

 private:
  std::array<Colour, kRoles> colours_{};
};

[[nodiscard]] double contrast(Colour a, Colour b);  // 1..21
[[nodiscard]] std::string to_hex(Colour c);         // "#12141a"

}  // namespace squeezeout::look
