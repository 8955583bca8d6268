// What holds a start back.

#include <fmt/format.h>

#include <algorithm>

#include "client/sync/overload.h"
#include "client/words/words.h"

namespace squeezeout::words {
namespace {

constexpr std::size_t kHoldersNamed = 2;
constexpr std::size_t kLines = 6;

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

// "Deep clamps", "Deep clamps or bar clamps", "Go-bar deck A".
std::string kinds(const Context& c, const GearShort& s) {
  std::string out;
  for (std::size_t i = 0; i < s.kinds.size(); ++i) {
    const GearKind* kind = c.floor.kind(s.kinds[i]);
    if (i > 0) out += i + 1 == s.kinds.size() ? " or " : ", ";
    if (!kind)
      out += fmt::format("gear {}", s.kinds[i].value);
    else
      out += kind->tag.empty() && kind->stock != 1 ? plural(small(kind->name)) : small(kind->name);
  }
  return capital(out);
}

std::string gear_short(const Context& c, const GearShort& s) {
  if (s.kinds.empty()) return "The shop has nothing that would do for " + need(c, s.need) + ".";
  if (s.owned < s.wanted)
    return fmt::format("{}: {} wanted, the shop owns {}.", kinds(c, s), s.wanted, s.owned);
  std::string out =
      fmt::format("{}: {} wanted, {} of {} free", kinds(c, s), s.wanted, s.free, s.owned);
  // Of many, those that hold longest: they make the start what it is.
  const std::size_t more = s.holders.size() - std::min(s.holders.size(), kHoldersNamed);
  for (std::size_t i = more; i < s.holders.size(); ++i)
    out += (i == more ? "; " : ", ") + holder(c, s.holders[i]);
  if (more > 0) out += fmt::format(", +{} more", more);
  return out + ".";
}

std::string of_glue_up(const Context& c, GlueUpId id) {
  const GlueUp* g = c.floor.glue_up(id);
  return g ? title(c, *g) : fmt::format("glue-up {}", id.value);
}

std::string glue_of(const Context& c, SheetId id) {
  const AdhesiveSheet* sheet = c.floor.sheet(id);
  return sheet ? small(sheet->name) : "the glue";
}

std::string too_cold(const Context& c, const TooCold& s) {
  const std::string begin = s.at > c.now
                                ? fmt::format("Too cold from {}: the wood would be", clock(c, s.at))
                                : std::string("Too cold: the wood is");
  const std::string end = s.until ? clock(c, *s.until) + " at the earliest."
                                  : std::string("No warmer time is in sight.");
  return fmt::format("{} at {}, {} wants {}. {}", begin, degrees_below(c, s.wood),
                     glue_of(c, s.sheet), degrees(c, s.floor), end);
}

std::string beside_heat(const Context& c, const BesideHeat& s) {
  const GlueUp* with = c.floor.glue_up(s.with);
  const Recipe* other = with ? c.floor.recipe(with->recipe) : nullptr;
  if (other && other->heat)
    return fmt::format("Solvent never beside a hot form: the form is in use till {} ({}).",
                       clock(c, s.until), of_glue_up(c, s.with));
  return fmt::format("A hot form never beside solvent: vapour is in the air till {} ({}).",
                     clock(c, s.until), of_glue_up(c, s.with));
}

// The same gear is often short over several stretches: one line, with all its holders.
bool merge(std::vector<Fact>& into, const Fact& next) {
  const auto* more = std::get_if<GearShort>(&next);
  if (!more) return false;
  for (Fact& fact : into) {
    auto* had = std::get_if<GearShort>(&fact);
    if (!had || had->kinds != more->kinds || had->wanted != more->wanted) continue;
    had->free = std::min(had->free, more->free);
    for (const HeldBy& h : more->holders)
      if (std::find(had->holders.begin(), had->holders.end(), h) == had->holders.end())
        had->holders.push_back(h);
    std::stable_sort(had->holders.begin(), had->holders.end(),
                     [](const HeldBy& a, const HeldBy& b) { return a.span.end < b.span.end; });
    return true;
  }
  return false;
}

}  // namespace

std::string holder(const Context& c, const HeldBy& h) {
  if (h.holder.what == Holder::What::outage) {
    const auto it = c.floor.outages.find(OutageId{h.holder.id});
    const bool known = it != c.floor.outages.end() && !it->second.reason.empty();
    return known ? fmt::format("{} out of use ({})", h.count, it->second.reason)
                 : fmt::format("{} out of use", h.count);
  }
  const GlueUp* g = c.floor.glue_up(GlueUpId{h.holder.id});
  const std::string who = g ? builder(c, g->builder) : "somebody";
  const std::string what = g ? recipe(c, g->recipe) : fmt::format("glue-up {}", h.holder.id);
  if (h.span.begin > c.now)
    return fmt::format("{} has {} from {} till {} ({})", who, h.count, clock(c, h.span.begin),
                       clock(c, h.span.end), what);
  return fmt::format("{} has {} till {} ({})", who, h.count, clock(c, h.span.end), what);
}

std::string fact(const Context& c, const Fact& f) {
  return std::visit(
      Overload{[&](const GearShort& s) { return gear_short(c, s); },
               [&](const ShopClosed& s) { return "Closed till " + clock(c, s.until) + "."; },
               [&](const BuilderBusy& s) {
                 const GlueUp* with = c.floor.glue_up(s.with);
                 const std::string what = with ? " (" + recipe(c, with->recipe) + ")" : "";
                 return fmt::format("{} is busy till {}{}.", builder(c, s.builder),
                                    clock(c, s.until), what);
               },
               [&](const NotReadyYet& s) {
                 return fmt::format("Waits for {}, ready {}.", of_glue_up(c, s.waits_for),
                                    clock(c, s.until));
               },
               [&](const TooCold& s) { return too_cold(c, s); },
               [&](const SkinsFirst& s) {
                 return fmt::format("At {} {} stays open {}, you take {}.", degrees(c, s.air),
                                    glue_of(c, s.sheet), exact(s.open), exact(s.assembly));
               },
               [&](const BesideHeat& s) { return beside_heat(c, s); },
               [&](const PotGels& s) {
                 return fmt::format("The pot of {} sets at {}, before the clamps would be on.",
                                    glue_of(c, s.sheet), clock(c, s.until));
               },
               [&](const BenchBusy& s) {
                 const Bench* bench = c.floor.bench(s.bench);
                 const GlueUp* with = c.floor.glue_up(s.with);
                 return fmt::format("{} is for one at a time: {} works there till {}.",
                                    bench ? bench->name : "The bench",
                                    with ? builder(c, with->builder) : "somebody",
                                    clock(c, s.until));
               }},
      f);
}

std::vector<std::string> why(const Context& c, const std::vector<Hindrance>& h) {
  std::vector<Fact> facts;
  for (const Hindrance& hindrance : h)
    if (!merge(facts, hindrance.fact)) facts.push_back(hindrance.fact);
  std::vector<std::string> lines;
  for (const Fact& f : facts) {
    std::string line = fact(c, f);
    if (std::find(lines.begin(), lines.end(), line) == lines.end())
      lines.push_back(std::move(line));
  }
  if (lines.size() > kLines) {
    const std::size_t more = lines.size() - (kLines - 1);
    lines.resize(kLines - 1);
    lines.push_back(fmt::format("And {} more of the kind.", more));
  }
  return lines;
}

}  // namespace squeezeout::words
