#include "client/look/typing.h"

#include <algorithm>

namespace squeezeout::look {
namespace {

bool begins_letter(char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }
bool leaves(char c) { return c == kStrokeTab || c == kStrokeEnter || c == kStrokeEscape; }

std::size_t letter_bytes(std::string_view s, std::size_t at) {
  std::size_t end = at + 1;
  while (end < s.size() && !begins_letter(s[end])) ++end;
  return end - at;
}

void drop_letter(std::string& text) {
  while (!text.empty() && !begins_letter(text.back())) text.pop_back();
  if (!text.empty()) text.pop_back();
}

std::string next_field(const Frame& frame) {
  bool passed = false;
  for (const Press& p : frame.presses) {
    if (p.kind != Kind::field) continue;
    if (passed) return p.id;
    passed = p.id == frame.typing->field;
  }
  return {};
}

TypedPress left_by(const Frame& frame, char stroke) {
  if (stroke == kStrokeEscape) return {frame.typing->field, Focus{}};
  if (stroke == kStrokeEnter)
    for (const Press& p : frame.presses)
      if (std::find(p.keys.begin(), p.keys.end(), kEnter) != p.keys.end()) return {p.id, p.intent};
  return {frame.typing->field, Focus{next_field(frame)}};
}

}  // namespace

std::size_t letters_in(std::string_view utf8) {
  return static_cast<std::size_t>(std::count_if(utf8.begin(), utf8.end(), begins_letter));
}

bool acts_beside_typing(int key) {
  return key > 0xFF && key != kEscape && key != kEnter && key != kTab && key != kBackspace;
}

std::optional<TypedPress> take_strokes(const Frame& frame, std::string& strokes) {
  if (!frame.typing || strokes.empty()) return std::nullopt;
  if (leaves(strokes.front())) {
    const char stroke = strokes.front();
    strokes.erase(0, 1);
    return left_by(frame, stroke);
  }
  std::string text = frame.typing->afresh ? std::string() : frame.typing->text;
  std::size_t at = 0;
  while (at < strokes.size() && !leaves(strokes[at])) {
    const std::size_t bytes = letter_bytes(strokes, at);
    if (strokes[at] == kStrokeBack)
      drop_letter(text);
    else if (static_cast<unsigned char>(strokes[at]) >= 0x20 &&
             letters_in(text) < frame.typing->most)
      text.append(strokes, at, bytes);
    at += bytes;
  }
  strokes.erase(0, at);
  return TypedPress{frame.typing->field, Typed{frame.typing->field, std::move(text)}};
}

}  // namespace squeezeout::look
