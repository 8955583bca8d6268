#include "proto/fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

namespace squeezeout {
namespace {

// Takes one code point off the front of `rest`; nullopt when it is not UTF-8.
//   Source   RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF
std::optional<char32_t> take_code_point(std::string_view& rest) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(rest[i]); };
  const unsigned char first = byte(0);
  const std::size_t size = first < 0x80       ? 1
                           : first >> 5 == 6  ? 2
                           : first >> 4 == 14 ? 3
                           : first >> 3 == 30 ? 4
                                              : 0;
  if (size == 0 || size > rest.size()) return std::nullopt;
  char32_t c = size == 1 ? first : first & (0xffU >> (size + 1));
  for (std::size_t i = 1; i < size; ++i) {
    if (byte(i) >> 6 != 2) return std::nullopt;
    c = (c << 6) | (byte(i) & 0x3fU);
  }
  constexpr char32_t kLeast[] = {0, 0, 0x80, 0x800, 0x10000};
  if (c < kLeast[size] || c > 0x10ffff || (0xd800 <= c && c <= 0xdfff)) return std::nullopt;
  rest.remove_prefix(size);
  return c;
}

bool is_control(char32_t c) {
  return c < 0x20 || (0x7f <= c && c < 0xa0) || c == 0x2028 || c == 0x2029;
}

// Marks that turn the reading direction can make a text look like another.
bool is_bidi(char32_t c) {
  return c == 0x61c || c == 0x200e || c == 0x200f || (0x202a <= c && c <= 0x202e) ||
         (0x2066 <= c && c <= 0x2069);
}

// Letters to change, add or drop.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t swap = diagonal + (a[i] != b[j] ? 1 : 0);
      diagonal = row[j + 1];
      row[j + 1] = std::min({swap, row[j] + 1, diagonal + 1});
    }
  }
  return row.back();
}

// How far a choice is from what was written: 0 when it holds it ("clamp" in "GEAR_CLASS_CLAMP"). Capitals are alike, and only
// the beginnings are looked at, so that long texts cost no more.
std::size_t distance(std::string_view written, std::string_view choice) {
  const auto plain = [](std::string_view s) {
    std::string lower(s.substr(0, 32));
    for (char& c : lower)
      if ('A' <= c && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return lower;
  };
  const std::string a = plain(written), b = plain(choice);
  return b.find(a) != std::string::npos ? 0 : edit_distance(a, b);
}

}  // namespace

void At::wrong(std::string what, std::string mend, ErrorCode code) const {
  if (!enough()) mistakes_->push_back({path(), std::move(what), std::move(mend), code});
}

std::string At::path() const {
  std::string path = parent_ ? parent_->path() : "";
  if (!path.empty()) path += '.';
  path += field_;
  if (index_ >= 0) path += fmt::format("[{}]", index_);
  return path;
}

int number(const At& at, std::int64_t v, int least, int most) {
  if (least <= v && v <= most) return static_cast<int>(v);
  at.wrong(fmt::format("is {}", v), fmt::format("use {} to {}", least, most));
  return least;
}

double measure(const At& at, double v, double least, double most) {
  if (least <= v && v <= most) return v + 0.0;  // -0 becomes 0: equal values have equal bytes
  at.wrong(fmt::format("is {}", v), fmt::format("use {} to {}", least, most));
  return least;
}

std::string text(const At& at, const std::string& v) {
  std::string_view rest = v;
  int points = 0;
  for (; !rest.empty(); ++points) {
    const auto c = take_code_point(rest);
    if (!c) return at.wrong("is not valid UTF-8", "write it as UTF-8"), "";
    if (is_control(*c) || is_bidi(*c))
      return at.wrong(fmt::format("holds U+{:04X}", static_cast<std::uint32_t>(*c)),
                      "leave out control and direction marks"),
             "";
  }
  if (points <= kMaxCodePoints) return v;
  return at.wrong(fmt::format("has {} characters", points),
                  fmt::format("use {} at most", kMaxCodePoints)),
         "";
}

Instant instant(const At& at, std::int64_t v) {
  if (-kLastInstant <= v && v <= kLastInstant) return Instant{Seconds{v}};
  at.wrong(fmt::format("is {}", v), "use seconds since 1970, up to the year 9999");
  return {};
}

Seconds length(const At& at, std::int64_t v) {
  if (0 <= v && v <= kMaxClaim.count()) return Seconds{v};
  at.wrong(fmt::format("is {} s", v), fmt::format("use 0 to {} s (366 days)", kMaxClaim.count()));
  return {};
}

Seconds minutes(const At& at, double v) {
  return Seconds{std::llround(60 * measure(at, v, 0, static_cast<double>(kMaxClaim.count()) / 60))};
}

bool few_enough(const At& at, int size, int most) {
  if (size <= most) return true;
  at.wrong(fmt::format("comes {} times", size), fmt::format("use {} at most", most));
  return false;
}

std::string use_one_of(std::string_view written, std::vector<std::string> choices) {
  constexpr std::size_t kShown = 12;
  if (choices.empty()) return "there is none yet: add it first";
  std::vector<std::pair<std::size_t, std::string>> nearest;
  for (std::string& choice : choices)
    nearest.emplace_back(distance(written, choice), std::move(choice));
  std::sort(nearest.begin(), nearest.end());
  std::string list = "use one of: ";
  for (std::size_t i = 0; i < std::min(nearest.size(), kShown); ++i)
    list += (i ? ", " : "") + nearest[i].second;
  return list + (nearest.size() > kShown ? ", ..." : "");
}

}  // namespace squeezeout
