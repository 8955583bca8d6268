#include "client/replay.h"

#include <fmt/format.h>

#include <charconv>
#include <cstdio>
#include <optional>
#include <sstream>

#include "client/look/frame.h"

namespace squeezeout::replay {
namespace {

std::optional<double> number(const std::string& text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::optional<int> key_code(const std::string& name) {
  if (name == "Space") return ' ';
  if (name == "Enter") return look::kEnter;
  if (name == "Esc") return look::kEscape;
  if (name == "F1") return look::kF1;
  if (name.size() == 1 && name[0] > ' ' && name[0] < '\x7f') {
    const char c = name[0];
    return c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c;
  }
  return std::nullopt;
}

std::optional<Screen> screen_of(const std::string& name) {
  for (int i = 0; i < kScreens; ++i)
    if (to_string(static_cast<Screen>(i)) == name) return static_cast<Screen>(i);
  return std::nullopt;
}

std::optional<Size> size_of(const std::string& text) {
  Size s;
  char x = 0, extra = 0;
  if (std::sscanf(text.c_str(), "%d%c%d%c", &s.width, &x, &s.height, &extra) != 3 || x != 'x' ||
      s.width < 640 || s.height < 400 || s.width > 8192 || s.height > 8192)
    return std::nullopt;
  return s;
}

// The id in a line of --record: {"id":"next",...}.
std::optional<std::string> recorded_id(const std::string& line) {
  constexpr std::string_view head = R"({"id":")";
  if (!line.starts_with(head)) return std::nullopt;
  const std::size_t end = line.find('"', head.size());
  if (end == std::string::npos) return std::nullopt;
  return line.substr(head.size(), end - head.size());
}

std::optional<Do> step_of(const std::string& verb, const std::string& rest) {
  if (verb == "press" && !rest.empty()) return PressId{rest};
  if (verb == "until" && !rest.empty()) return Until{rest};
  if (verb == "shot" && !rest.empty() && rest.find("..") == std::string::npos && rest[0] != '/')
    return Shot{rest};
  if (verb == "theme" && (rest == "dark" || rest == "light"))
    return Wear{rest == "dark" ? look::Theme::dark : look::Theme::light};
  if (verb == "key")
    if (const auto key = key_code(rest)) return PressKey{*key};
  if (verb == "screen")
    if (const auto screen = screen_of(rest)) return Show{*screen};
  if (verb == "size")
    if (const auto size = size_of(rest)) return *size;
  const auto n = number(rest);
  if (verb == "wait" && n && *n >= 0 && *n <= 3600) return Wait{*n};
  if (verb == "text" && n && *n >= 1 && *n <= 2) return Text{static_cast<float>(*n)};
  return std::nullopt;
}

}  // namespace

Result<std::vector<Step>, std::string> parse(const std::string& name, const std::string& text) {
  std::vector<Step> out;
  std::istringstream lines(text);
  int number = 0;
  for (std::string line; std::getline(lines, line);) {
    ++number;
    if (!line.empty() && line.back() == '\r') line.pop_back();
    if (line.find_first_not_of(" \t") == std::string::npos || line[0] == '#') continue;
    if (const auto id = recorded_id(line)) {
      if (line.find(R"("do":"typed")") != std::string::npos || *id == "aim" || *id == "dropped" ||
          id->starts_with("wheel."))
        return Unexpected(
            fmt::format("{}:{}: typing, the wheel and dropped files are not carried out again. "
                        "Next: leave that line out.",
                        name, number));
      out.push_back({number, line, PressId{*id}});
      continue;
    }
    const std::size_t space = line.find(' ');
    const auto what =
        step_of(line.substr(0, space), space == std::string::npos ? "" : line.substr(space + 1));
    if (!what)
      return Unexpected(fmt::format(
          "{}:{}: \"{}\" is no step. Next: write press ID, key NAME, until TEXT, wait SECONDS, "
          "screen NAME, theme dark or light, size WIDTHxHEIGHT, text 1 to 2, or shot FILE.",
          name, number, line));
    out.push_back({number, line, *what});
  }
  return out;
}

}  // namespace squeezeout::replay
