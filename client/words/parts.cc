#include "client/words/parts.h"

#include "client/words/say.h"

namespace squeezeout::words {

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string listed(const std::vector<std::string>& items, Last last) {
  if (items.empty()) return "";
  std::string out = items.front();
  for (std::size_t i = 1; i + 1 < items.size(); ++i) out = added(out, items[i]);
  if (items.size() == 1) return out;
  return last == Last::with_and ? say("{} and {}", out, items.back())
                                : say("{} or {}", out, items.back());
}

std::string added(const std::string& list, const std::string& item) {
  return list.empty() ? item : list + ", " + item;
}

std::string glue_of(const Context& c, SheetId id) {
  const AdhesiveSheet* sheet = c.floor.sheet(id);
  return sheet ? small(sheet->name) : tr("the glue");
}

std::string titled(const Context& c, GlueUpId id) {
  const GlueUp* g = c.floor.glue_up(id);
  return g ? title(c, *g) : say("glue-up {}", id.value);
}

std::string owner(const Context& c, GlueUpId id) {
  const GlueUp* g = c.floor.glue_up(id);
  return g ? builder(c, g->builder) : tr("somebody");
}

std::string of_owner(const std::string& name) {
  return name.ends_with('s') ? say("{}'", name) : say("{}'s", name);
}

}  // namespace squeezeout::words
