#pragma once
// Every sentence of the screens is said through here. A sentence's key is its English text, as gettext keys are; what stands in
// braces is filled in after the look-up, and is never looked up itself: names, numbers, units of measure and clock times.
//   Shape    one language a process, chosen before the first frame
//   Pseudo   a language nobody speaks, 40 % longer, every vowel accented: text that has no room, and text that was never keyed,
//            show themselves on the screen and in tests
//   Refuses  at compile time: arguments that the English text has no braces for

#include <fmt/format.h>

#include <string>

namespace squeezeout::words {

enum class Language { english, pseudo };
void speak(Language language);
[[nodiscard]] Language spoken();

// "Nothing curing." said in the language that is spoken.
[[nodiscard]] std::string tr(const char* text);
// The same with what stands in its braces: say("off {}", clock).
template <class... A>
[[nodiscard]] std::string say(fmt::format_string<A...> text, A&&... args) {
  const fmt::string_view key = text;
  if (spoken() == Language::english) return fmt::vformat(key, fmt::make_format_args(args...));
  const std::string said = tr(std::string(key.data(), key.size()).c_str());
  return fmt::vformat(said, fmt::make_format_args(args...));
}
// "1 press is not sent yet" or "3 presses are not sent yet"; the number comes first, then what else stands in braces.
template <class N, class... A>
[[nodiscard]] std::string say_n(N n, fmt::format_string<N&, A&...> one,
                                fmt::format_string<N&, A&...> more, A&&... args) {
  return n == 1 ? say<N&, A&...>(one, n, args...) : say<N&, A&...>(more, n, args...);
}

// The pseudo language's text for an English one; braces stay as they are.
[[nodiscard]] std::string pseudo(const std::string& english);

}  // namespace squeezeout::words
