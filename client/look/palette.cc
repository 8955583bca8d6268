#include "client/look/palette.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace squeezeout::look {
namespace {

struct Line {
  Role role;
  Colour dark, light;
};

constexpr Line kLines[] = {
    {Role::background, {18, 20, 23}, {244, 245, 243}},
    {Role::lane, {28, 31, 36}, {230, 233, 232}},
    {Role::panel, {36, 40, 46}, {252, 252, 251}},
    {Role::text, {236, 239, 242}, {17, 20, 24}},
    {Role::muted, {172, 180, 190}, {74, 82, 90}},
    {Role::edge, {150, 160, 172}, {84, 94, 104}},
    {Role::grid, {52, 57, 64}, {206, 210, 210}},
    {Role::closed, {10, 11, 13}, {212, 215, 214}},
    {Role::key, {236, 239, 242}, {17, 20, 24}},
    {Role::on_key, {18, 20, 23}, {244, 245, 243}},
    {Role::open, {250, 251, 252}, {14, 20, 28}},
    {Role::on_open, {10, 12, 14}, {244, 245, 243}},
    {Role::clamped, {114, 147, 181}, {70, 106, 142}},
    {Role::hatch, {89, 121, 154}, {98, 134, 170}},
    {Role::on_clamped, {8, 10, 12}, {255, 255, 255}},
    {Role::waiting, {52, 67, 87}, {178, 194, 208}},
    {Role::dots, {112, 130, 152}, {104, 124, 144}},
    {Role::on_waiting, {236, 239, 242}, {17, 20, 24}},
    {Role::amber, {255, 176, 0}, {255, 176, 0}},
    {Role::on_amber, {10, 12, 14}, {10, 12, 14}},
    {Role::keyline, {255, 176, 0}, {17, 20, 24}},
    {Role::red, {255, 96, 74}, {178, 24, 14}},
};
static_assert(std::size(kLines) == kRoles);

double luminance(Colour c) {
  const auto linear = [](std::uint8_t v) {
    const double s = v / 255.0;
    return s <= 0.04045 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b);
}

}  // namespace

Palette::Palette(Theme theme) {
  for (const Line& line : kLines)
    colours_[static_cast<std::size_t>(line.role)] = theme == Theme::dark ? line.dark : line.light;
}

double contrast(Colour a, Colour b) {
  const double of_a = luminance(a), of_b = luminance(b);
  return (std::max(of_a, of_b) + 0.05) / (std::min(of_a, of_b) + 0.05);
}

std::string to_hex(Colour c) { return fmt::format("#{:02x}{:02x}{:02x}", c.r, c.g, c.b); }

}  // namespace squeezeout::look
