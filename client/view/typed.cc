// Which text a field holds: a setting of this device, or a name of the draft.
#include <charconv>

#include "client/view/view.h"

namespace squeezeout {
namespace {

// The number at the end of "bench.3" after its stem; nullopt: another field.
std::optional<int> number_after(std::string_view field, std::string_view stem) {
  if (!field.starts_with(stem)) return std::nullopt;
  int n = 0;
  const char* end = field.data() + field.size();
  const auto read = std::from_chars(field.data() + stem.size(), end, n);
  if (read.ec != std::errc{} || read.ptr != end) return std::nullopt;
  return n;
}

int digits_of(std::string_view text) {
  int n = 0;
  for (const char c : text)
    if (c >= '0' && c <= '9') n = std::min(n * 10 + (c - '0'), draft::kMostOfAKind);
  return n;
}

std::optional<draft::Edit> edit_of(std::string_view field, const std::string& text) {
  using What = draft::Edit::What;
  constexpr std::string_view kGear = "gear.";
  if (field == "shop.name") return draft::Edit{.what = What::name, .text = text};
  if (const auto at = number_after(field, "bench."))
    return draft::Edit{.what = What::name_bench, .at = *at, .text = text};
  if (const auto at = number_after(field, "builder."))
    return draft::Edit{.what = What::name_builder, .at = *at, .text = text};
  if (field.starts_with(kGear))
    return draft::Edit{.what = What::gear_exactly,
                       .by = digits_of(text),
                       .text = std::string(field.substr(kGear.size()))};
  return std::nullopt;
}

}  // namespace

View with_text(View view, const Typed& typed) {
  constexpr std::size_t kMostOfALine = 400;
  const std::string line = draft::as_name(typed.text, kMostOfALine);
  view.typing = typed.field;
  view.afresh = false;
  if (typed.field == "device.lamp")
    view.prefs.lamp = line;
  else if (typed.field == "device.printer")
    view.prefs.printer = line;
  else if (typed.field == "zone.filter")
    view.draft.filter = line, view.page = 0;
  else if (typed.field == "file.path")
    view.draft.path = line;
  else if (const auto edit = edit_of(typed.field, typed.text))
    view.draft = draft::edited(std::move(view.draft), *edit);
  return view;
}

}  // namespace squeezeout
