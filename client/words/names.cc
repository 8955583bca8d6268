// What things and people are called.

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <string_view>

#include "client/words/parts.h"
#include "client/words/say.h"

namespace squeezeout::words {
namespace {

bool lower(char ch) { return ch >= 'a' && ch <= 'z'; }
bool upper(char ch) { return ch >= 'A' && ch <= 'Z'; }

// How many bytes of the name say the thing itself: not "600 mm", "(deep)", ", long" or "with ...".
std::size_t head_length(std::string_view name) {
  for (std::size_t at = 0; at < name.size();) {
    const std::size_t end = std::min(name.find_first_of(" ,", at), name.size());
    const std::string_view word = name.substr(at, end - at);
    const bool aside = !word.empty() &&
                       (std::isdigit(static_cast<unsigned char>(word[0])) != 0 || word[0] == '(' ||
                        word == "with" || word == "for" || word == "of" || word == "in");
    if (aside && at > 0) return at - 1;
    if (end == name.size() || name[end] == ',') return end;
    at = end + 1;
  }
  return name.size();
}

bool ends_in(std::string_view text, std::initializer_list<std::string_view> ends) {
  return std::any_of(ends.begin(), ends.end(), [&](auto e) { return text.ends_with(e); });
}

// A name that stands in a list: "form, parlour" would read as two things.
std::string in_list(std::string name) {
  std::erase(name, ',');
  return name;
}

// "clamp", "clamps".
std::string class_word(GearClass of, int n) {
  const auto either = [&](const char* one, const char* more) { return tr(n == 1 ? one : more); };
  switch (of) {
    case GearClass::clamp:
      return either("clamp", "clamps");
    case GearClass::go_bar:
      return either("go-bar", "go-bars");
    case GearClass::caul:
      return either("caul", "cauls");
    case GearClass::form:
      return either("form", "forms");
    case GearClass::deck:
      return either("deck", "decks");
    case GearClass::mould:
      return either("mould", "moulds");
    case GearClass::other:
      return either("piece of gear", "pieces of gear");
  }
  CHECK(!"a gear class outside the enumeration");
}

// "cam clamps"; of other gear the style is its name: "4 straps".
std::string styled(const GearNeed& n, const std::string& one) {
  if (n.gear_class != GearClass::other) return n.style + " " + one;
  return n.count == 1 ? n.style : plural(n.style);
}

}  // namespace

std::string small(const std::string& name) {
  // Only a word of small letters is made small: "PVA" and "No. 14" are names.
  if (name.size() < 2 || !upper(name[0]) || name.starts_with("No.")) return name;
  const std::size_t end = std::min(name.find_first_of(" ,"), name.size());
  if (!std::all_of(name.begin() + 1, name.begin() + static_cast<std::ptrdiff_t>(end),
                   [](char ch) { return lower(ch) || ch == '-'; }))
    return name;
  std::string out = name;
  out[0] = static_cast<char>(out[0] - 'A' + 'a');
  return out;
}

std::string plural(const std::string& one) {
  const std::size_t length = head_length(one);
  std::string head = one.substr(0, length);
  if (ends_in(head, {"s", "x", "ch", "sh"}))
    head += "es";
  else if (head.size() > 1 && head.ends_with('y') && !ends_in(head, {"ay", "ey", "oy", "uy"}))
    head.replace(head.size() - 1, 1, "ies");
  else
    head += "s";
  return head + one.substr(length);
}

std::string number(int n, const std::string& one) {
  return fmt::format("{} {}", n, n == 1 ? small(one) : plural(small(one)));
}

std::string gear(const Context& c, const std::vector<Held>& held) {
  std::string out;
  for (const Held& h : held) {
    const GearKind* kind = c.floor.kind(h.kind);
    if (!kind)
      out = added(out, say_n(h.count, "{} piece of gear no longer listed",
                             "{} pieces of gear no longer listed"));
    else
      out =
          added(out, in_list(kind->tag.empty() ? number(h.count, kind->name) : small(kind->name)));
  }
  return out.empty() ? tr("no gear") : out;
}

std::string recipe(const Context& c, RecipeId id) {
  const Recipe* r = c.floor.recipe(id);
  return r ? small(r->name) : say("recipe {}", id.value);
}

std::string title(const Context& c, const GlueUp& g) {
  const Build* build = c.floor.build(g.build);
  const Recipe* r = c.floor.recipe(g.recipe);
  if (build) return fmt::format("{} · {}", build->name, recipe(c, g.recipe));
  return r ? r->name : recipe(c, g.recipe);
}

std::string glue(const Context& c, const GlueUp& g) {
  if (!g.sheet) return tr("no glue");
  const AdhesiveSheet* sheet = c.floor.sheet(g.sheet);
  return sheet ? small(sheet->name) : say("glue {}", g.sheet.value);
}

std::string builder(const Context& c, BuilderId id) {
  if (!id) return tr("nobody");
  const Builder* b = c.floor.builder(id);
  return b ? b->name : say("builder {}", id.value);
}

std::string bench(const Context& c, BenchId id) {
  if (!id) return tr("no bench");
  const Bench* b = c.floor.bench(id);
  return b ? b->name : say("bench {}", id.value);
}

std::string initials(const Context& c, BuilderId id) {
  const Builder* b = c.floor.builder(id);
  if (!b) return "-";
  std::string out;
  bool begins = true;
  for (std::size_t at = 0; at < b->name.size();) {
    std::size_t end = at + 1;  // a letter is all bytes of its code point
    while (end < b->name.size() && (static_cast<unsigned char>(b->name[end]) & 0xC0U) == 0x80U)
      ++end;
    const bool space = b->name[at] == ' ' || b->name[at] == '-';
    if (begins && !space) out += b->name.substr(at, end - at) + ".";
    begins = space;
    at = end;
  }
  return out;
}

std::string need(const Context& c, const GearNeed& n) {
  std::string one = class_word(n.gear_class, n.count);
  if (!n.style.empty()) one = styled(n, one);
  std::string out = fmt::format("{} {}", n.count, one);
  if (!n.outline.empty()) out = say("{} for the {} outline", out, n.outline);
  std::string least;
  if (n.opening.value > 0) least = added(least, say("{} opening", millimetres_above(c, n.opening)));
  if (n.throat.value > 0) least = added(least, say("{} throat", millimetres_above(c, n.throat)));
  if (n.length.value > 0) least = added(least, say("{} long", millimetres_above(c, n.length)));
  if (n.force.value > 0) least = added(least, say("{:g} N each", n.force.value));
  return least.empty() ? out : say("{}, at least {}", out, least);
}

}  // namespace squeezeout::words
