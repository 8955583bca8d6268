#include "client/words/say.h"

#include <array>
#include <utility>

namespace squeezeout::words {
namespace {

Language language = Language::english;

struct Accented {
  char plain;
  const char* letter;
};
constexpr std::array<Accented, 22> kAccented{
    {{'a', "å"}, {'e', "é"}, {'i', "î"}, {'o', "ö"}, {'u', "ü"}, {'y', "ÿ"}, {'c', "ç"}, {'d', "đ"},
     {'h', "ħ"}, {'l', "ļ"}, {'n', "ñ"}, {'r', "ŕ"}, {'s', "š"}, {'t', "ţ"}, {'A', "Å"}, {'E', "É"},
     {'I', "Î"}, {'O', "Ö"}, {'U', "Ü"}, {'Y', "Ÿ"}, {'S', "Š"}, {'N', "Ñ"}}};
constexpr std::size_t kVowels = 6;  // the first of them
constexpr double kLonger = 0.4;

}  // namespace

void speak(Language wanted) { language = wanted; }
Language spoken() { return language; }

std::string tr(const char* text) { return language == Language::english ? text : pseudo(text); }

std::string pseudo(const std::string& english) {
  std::string out;
  const char* last = nullptr;
  double owed = 0;  // letters that it is still too short by
  int depth = 0;
  for (std::size_t i = 0; i < english.size(); ++i) {
    const char c = english[i];
    const bool brace = c == '{' || c == '}';
    if (brace && i + 1 < english.size() && english[i + 1] == c && depth == 0) {
      out += {c, c};
      ++i;
      continue;
    }
    if (c == '{') ++depth;
    if (depth > 0 || brace) {
      if (c == '}') --depth;
      out += c;
      continue;
    }
    const char* letter = nullptr;
    bool vowel = false;
    for (std::size_t at = 0; at < kAccented.size(); ++at)
      if (kAccented[at].plain == c) letter = kAccented[at].letter, vowel = at < kVowels;
    if (letter == nullptr) {
      out += c;
    } else {
      out += letter;
      if (vowel) last = letter;
    }
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) owed += kLonger;
    for (; vowel && owed >= 1; owed -= 1) out += letter;
  }
  for (; last != nullptr && owed >= 1; owed -= 1) out += last;
  return out;
}

}  // namespace squeezeout::words
