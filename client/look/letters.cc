#include "client/look/letters.h"

#include <cstdint>

namespace squeezeout::look {
namespace {

constexpr std::string_view kEllipsis = "…";

// The code point that begins at `at`, and its length in bytes. Text is valid UTF-8: the codec sees to it.
struct Point {
  std::uint32_t code = 0;
  std::size_t bytes = 1;
};
Point code_point(std::string_view s, std::size_t at) {
  const auto byte = [&](std::size_t i) {
    return at + i < s.size() ? static_cast<std::uint8_t>(s[at + i]) : std::uint8_t{0};
  };
  const std::uint32_t b = byte(0);
  if (b < 0x80) return {b, 1};
  if (b < 0xE0) return {(b & 0x1FU) << 6 | (byte(1) & 0x3FU), 2};
  if (b < 0xF0) return {(b & 0x0FU) << 12 | (byte(1) & 0x3FU) << 6 | (byte(2) & 0x3FU), 3};
  return {(b & 0x07U) << 18 | (byte(1) & 0x3FU) << 12 | (byte(2) & 0x3FU) << 6 | (byte(3) & 0x3FU),
          4};
}

}  // namespace

const Advances& Letters::advances(Type type) const {
  return weights_[static_cast<std::size_t>(face_of(type).weight)];
}

float Letters::size_px(Type type) const { return cap_px(type) / advances(type).cap; }

float Letters::cap_top_px(Type type) const { return advances(type).cap_top * size_px(type); }

float Letters::width(Type type, std::string_view utf8) const {
  const Advances& a = advances(type);
  float sum = 0;
  for (std::size_t at = 0; at < utf8.size();) {
    const Point p = code_point(utf8, at);
    sum += p.code < a.by_code_point.size() ? a.by_code_point[p.code] : a.other;
    at += p.bytes;
  }
  return sum * size_px(type);
}

std::string Letters::fitted(Type type, std::string_view utf8, float width) const {
  const Advances& a = advances(type);
  const float limit = width / size_px(type) + 0.01F;  // a text in its own width fits
  const float dots = 0x2026 < a.by_code_point.size() ? a.by_code_point[0x2026] : a.other;
  float sum = 0;
  std::size_t keep = 0, kept = 0;  // bytes that fit together with the ellipsis
  for (std::size_t at = 0; at < utf8.size();) {
    const Point p = code_point(utf8, at);
    sum += p.code < a.by_code_point.size() ? a.by_code_point[p.code] : a.other;
    if (sum > limit) {
      if (kept < 2) return {};
      while (keep > 0 && utf8[keep - 1] == ' ') --keep;
      return std::string(utf8.substr(0, keep)).append(kEllipsis);
    }
    at += p.bytes;
    if (sum + dots <= limit) keep = at, ++kept;
  }
  return std::string(utf8);
}

std::vector<std::string> Letters::wrapped(Type type, std::string_view utf8, float width,
                                          int lines) const {
  std::vector<std::string> out;
  while (!utf8.empty() && static_cast<int>(out.size()) + 1 < lines) {
    std::size_t end = 0;  // of the longest run of whole words that fits
    for (std::size_t at = 0; at != std::string_view::npos;) {
      const std::size_t space = utf8.find(' ', at);
      if (this->width(type, utf8.substr(0, space)) > width) break;
      end = space == std::string_view::npos ? utf8.size() : space;
      at = space == std::string_view::npos ? space : space + 1;
    }
    if (end == 0) break;  // one word is too wide: cut it below
    out.emplace_back(utf8.substr(0, end));
    utf8.remove_prefix(std::min(utf8.size(), end + 1));
  }
  if (!utf8.empty()) out.push_back(fitted(type, utf8, width));
  return out;
}

}  // namespace squeezeout::look
