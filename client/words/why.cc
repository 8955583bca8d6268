// What holds a start back.

#include <algorithm>

#include "client/sync/overload.h"
#include "client/words/parts.h"
#include "client/words/say.h"

namespace squeezeout::words {
namespace {

constexpr std::size_t kHoldersNamed = 2;
constexpr std::size_t kLines = 6;

// "Deep clamps", "Deep clamps or bar clamps", "Go-bar deck A".
std::string kinds(const Context& c, const GearShort& s) {
  std::vector<std::string> out;
  for (const GearKindId id : s.kinds) {
    const GearKind* kind = c.floor.kind(id);
    if (!kind)
      out.push_back(say("gear {}", id.value));
    else if (kind->tag.empty() && kind->stock != 1)
      out.push_back(plural(small(kind->name)));
    else
      out.push_back(small(kind->name));
  }
  return capital(listed(out, Last::with_or));
}

std::string gear_short(const Context& c, const GearShort& s) {
  if (s.kinds.empty()) return say("The shop has nothing that would do for {}.", need(c, s.need));
  if (s.owned < s.wanted)
    return say("{}: {} wanted, the shop owns {}.", kinds(c, s), s.wanted, s.owned);
  const std::string free =
      say("{}: {} wanted, {} of {} free", kinds(c, s), s.wanted, s.free, s.owned);
  // Of many, those that hold longest: they make the start what it is.
  const std::size_t more = s.holders.size() - std::min(s.holders.size(), kHoldersNamed);
  std::string held;
  for (std::size_t i = more; i < s.holders.size(); ++i) held = added(held, holder(c, s.holders[i]));
  if (more > 0) held = added(held, say("+{} more", more));
  return free + (held.empty() ? "." : "; " + held + ".");
}

std::string too_cold(const Context& c, const TooCold& s) {
  const std::string wood = degrees_below(c, s.wood), glue = glue_of(c, s.sheet),
                    wants = degrees(c, s.floor);
  const std::string cold =
      s.at > c.now ? say("Too cold from {}: the wood would be at {}, {} wants {}.", clock(c, s.at),
                         wood, glue, wants)
                   : say("Too cold: the wood is at {}, {} wants {}.", wood, glue, wants);
  return cold + " " +
         (s.until ? say("{} at the earliest.", clock(c, *s.until))
                  : tr("No warmer time is in sight."));
}

std::string beside_heat(const Context& c, const BesideHeat& s) {
  const GlueUp* with = c.floor.glue_up(s.with);
  const Recipe* other = with ? c.floor.recipe(with->recipe) : nullptr;
  if (other && other->heat)
    return say("Solvent never beside a hot form: the form is in use till {} ({}).",
               clock(c, s.until), titled(c, s.with));
  return say("A hot form never beside solvent: vapour is in the air till {} ({}).",
             clock(c, s.until), titled(c, s.with));
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
    return known ? say("{} out of use ({})", h.count, it->second.reason)
                 : say("{} out of use", h.count);
  }
  const GlueUpId id{h.holder.id};
  const GlueUp* g = c.floor.glue_up(id);
  const std::string what = g ? recipe(c, g->recipe) : titled(c, id);
  if (h.span.begin > c.now)
    return say("{} has {} from {} till {} ({})", owner(c, id), h.count, clock(c, h.span.begin),
               clock(c, h.span.end), what);
  return say("{} has {} till {} ({})", owner(c, id), h.count, clock(c, h.span.end), what);
}

std::string fact(const Context& c, const Fact& f) {
  return std::visit(
      Overload{[&](const GearShort& s) { return gear_short(c, s); },
               [&](const ShopClosed& s) { return say("Closed till {}.", clock(c, s.until)); },
               [&](const BuilderBusy& s) {
                 const GlueUp* with = c.floor.glue_up(s.with);
                 const std::string who = builder(c, s.builder), end = clock(c, s.until);
                 return with ? say("{} is busy till {} ({}).", who, end, recipe(c, with->recipe))
                             : say("{} is busy till {}.", who, end);
               },
               [&](const NotReadyYet& s) {
                 return say("Waits for {}, ready {}.", titled(c, s.waits_for), clock(c, s.until));
               },
               [&](const TooCold& s) { return too_cold(c, s); },
               [&](const SkinsFirst& s) {
                 return say("At {} {} stays open {}, you take {}.", degrees(c, s.air),
                            glue_of(c, s.sheet), exact(s.open), exact(s.assembly));
               },
               [&](const BesideHeat& s) { return beside_heat(c, s); },
               [&](const PotGels& s) {
                 return say("The pot of {} sets at {}, before the clamps would be on.",
                            glue_of(c, s.sheet), clock(c, s.until));
               },
               [&](const BenchBusy& s) {
                 const Bench* bench = c.floor.bench(s.bench);
                 return say("{} is for one at a time: {} works there till {}.",
                            bench ? bench->name : tr("The bench"), owner(c, s.with),
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
    lines.push_back(say("And {} more of the kind.", more));
  }
  return lines;
}

}  // namespace squeezeout::words
