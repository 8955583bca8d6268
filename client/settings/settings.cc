#include "client/settings/settings.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <optional>

namespace squeezeout::settings {
namespace {

constexpr std::ptrdiff_t kLongest = 400;  // letters of a value, as its field counts them

std::string_view trimmed(std::string_view s) {
  constexpr std::string_view kSpaces = " \t\r";
  const std::size_t first = s.find_first_not_of(kSpaces);
  if (first == std::string_view::npos) return {};
  return s.substr(first, s.find_last_not_of(kSpaces) - first + 1);
}

std::optional<float> number(std::string_view text, float least, float most) {
  float value = 0;
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, value);
  if (read.ec != std::errc{} || read.ptr != end || !(value >= least && value <= most))
    return std::nullopt;
  return value;
}

// What would be right, when the value is not; nothing when it was taken.
using Wanted = std::optional<std::string>;

template <class E>
Wanted one_of(std::string_view value, std::initializer_list<std::pair<std::string_view, E>> words,
              E& into) {
  std::string known;
  for (const auto& [word, meaning] : words) {
    if (word == value) {
      into = meaning;
      return std::nullopt;
    }
    known += (known.empty() ? "" : " or ") + std::string(word);
  }
  return known;
}

Wanted between(std::string_view value, float least, float most, float& into) {
  if (const auto read = number(value, least, most)) {
    into = *read;
    return std::nullopt;
  }
  return fmt::format("a number from {:g} to {:g}", least, most);
}

Wanted line(std::string_view value, std::string& into) {
  const auto letters =
      std::count_if(value.begin(), value.end(), [](char c) { return (c & 0xC0) != 0x80; });
  if (letters > kLongest) return fmt::format("at most {} letters", kLongest);
  into = value;
  return std::nullopt;
}

using Take = Wanted (*)(Settings&, std::string_view);
struct Key {
  std::string_view name;
  Take take;
};
constexpr std::array<Key, 8> kKeys{{
    {"theme",
     [](Settings& s, std::string_view v) {
       return one_of<look::Theme>(v, {{"dark", look::Theme::dark}, {"light", look::Theme::light}},
                                  s.prefs.theme);
     }},
    {"text", [](Settings& s, std::string_view v) { return between(v, 1, 2, s.prefs.text); }},
    {"mm_per_px",
     [](Settings& s, std::string_view v) -> Wanted {
       if (number(v, 0, 0)) return between(v, 0, 0, s.prefs.mm_per_px);
       return between(v, 0.05F, 2, s.prefs.mm_per_px);
     }},
    {"sound",
     [](Settings& s, std::string_view v) {
       return one_of<Prefs::Sound>(v, {{"on", Prefs::Sound::on}, {"off", Prefs::Sound::off}},
                                   s.prefs.sound);
     }},
    {"lamp", [](Settings& s, std::string_view v) { return line(v, s.prefs.lamp); }},
    {"printer", [](Settings& s, std::string_view v) { return line(v, s.prefs.printer); }},
    {"bench", [](Settings& s, std::string_view v) { return line(v, s.bench); }},
    {"builder", [](Settings& s, std::string_view v) { return line(v, s.builder); }},
}};

std::string known_keys() {
  std::string out;
  for (const Key& k : kKeys) out += (out.empty() ? "" : ", ") + std::string(k.name);
  return out;
}

const Key* find(std::string_view name) {
  for (const Key& k : kKeys)
    if (k.name == name) return &k;
  return nullptr;
}

// What is wrong with one line; nothing when it was taken.
std::optional<LineMistake> take(std::string_view text, int number,
                                std::map<std::string_view, int>& seen, Settings& into) {
  const std::size_t equals = text.find('=');
  if (equals == std::string_view::npos)
    return LineMistake{number, fmt::format("\"{}\" has no \"=\"", text.substr(0, 40)),
                       "write key = value, or begin the line with # to leave it out"};
  const std::string_view name = trimmed(text.substr(0, equals));
  const std::string_view value = trimmed(text.substr(equals + 1));
  const Key* key = find(name);
  if (key == nullptr)
    return LineMistake{number, fmt::format("\"{}\" is no setting", name.substr(0, 40)),
                       "use one of " + known_keys() + ", or take the line out"};
  if (const auto [it, fresh] = seen.emplace(key->name, number); !fresh)
    return LineMistake{number, fmt::format("\"{}\" stands on line {} already", name, it->second),
                       "keep one of the two"};
  if (const Wanted wanted = key->take(into, value))
    return LineMistake{number, fmt::format("\"{}\" is no value of {}", value.substr(0, 40), name),
                       "give " + *wanted};
  return std::nullopt;
}

}  // namespace

std::string to_text(const std::string& file, const LineMistake& m) {
  return fmt::format("{}:{}: {}. Next: {}.", file, m.line, m.what, m.mend);
}

Result<Settings, std::vector<LineMistake>> read_settings(std::string_view text) {
  Settings settings;
  std::vector<LineMistake> mistakes;
  std::map<std::string_view, int> seen;
  int number = 0;
  while (!text.empty()) {
    ++number;
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view one = trimmed(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
    if (one.empty() || one.front() == '#') continue;
    if (auto mistake = take(one, number, seen, settings)) mistakes.push_back(std::move(*mistake));
  }
  if (!mistakes.empty()) return Unexpected(std::move(mistakes));
  return settings;
}

std::string write_settings(const Settings& s) {
  const Prefs& p = s.prefs;
  std::string out =
      "# Settings of this bench screen. Its set-up screen writes this file, and so can you.\n";
  const auto add = [&](std::string_view key, std::string_view value) {
    if (!trimmed(value).empty()) out += fmt::format("{} = {}\n", key, trimmed(value));
  };
  add("theme", p.theme == look::Theme::dark ? "dark" : "light");
  add("text", fmt::format("{}", p.text));
  if (p.mm_per_px > 0) add("mm_per_px", fmt::format("{}", p.mm_per_px));
  add("sound", p.sound == Prefs::Sound::on ? "on" : "off");
  add("lamp", p.lamp);
  add("printer", p.printer);
  add("bench", s.bench);
  add("builder", s.builder);
  return out;
}

}  // namespace squeezeout::settings
