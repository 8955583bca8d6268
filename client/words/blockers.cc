// What holds a start back, told from few facts; other ways; the critical chain.

#include <algorithm>

#include "client/sync/overload.h"
#include "client/words/parts.h"
#include "client/words/say.h"
#include "client/words/why.h"

namespace squeezeout::words {
namespace {

// When a fact is told of: from when it was wanted to the start that it makes.
struct Telling {
  const Context& c;
  Instant from{};
  std::optional<Instant> start;
};

// Whether an end is the start that is told of: "then", and no time of its own.
bool is_then(const Telling& t, Instant end) {
  return t.start && end <= *t.start && *t.start - end < Minutes{1};
}

// With what the owner is busy with behind it: "Ida is busy until then (bridge)".
std::string with_what(const Context& c, const std::string& clause, GlueUpId id) {
  const GlueUp* g = c.floor.glue_up(id);
  return g ? say("{} ({})", clause, recipe(c, g->recipe)) : clause;
}

// "3 of the 3 deep clamps and go-bar deck A".
std::string pieces(const Context& c, const std::vector<Held>& held) {
  std::vector<std::string> out;
  for (const Held& h : held) {
    const GearKind* kind = c.floor.kind(h.kind);
    const int owned = c.floor.gear.stock(h.kind);
    if (!kind)
      out.push_back(gear(c, {h}));
    else if (!kind->tag.empty())
      out.push_back(small(kind->name));
    else if (owned == 1)
      out.push_back(say("the {}", small(kind->name)));
    else
      out.push_back(say("{} of the {} {}", h.count, owned, plural(small(kind->name))));
  }
  return listed(out, Last::with_and);
}

std::string out_of_use(const Telling& t, const HeldGear& b) {
  const auto it = t.c.floor.outages.find(OutageId{b.held.holder.id});
  const std::string what = pieces(t.c, b.pieces);
  const std::string out =
      b.held.count == 1 ? say("{} is out of use", what) : say("{} are out of use", what);
  if (it == t.c.floor.outages.end() || it->second.reason.empty()) return out;
  return say("{} ({})", out, it->second.reason);
}

std::string told(const Telling& t, const HeldGear& b) {
  if (b.held.holder.what == Holder::What::outage) return out_of_use(t, b);
  const GlueUpId by{b.held.holder.id};
  const std::string who = owner(t.c, by), what = pieces(t.c, b.pieces);
  const bool then = is_then(t, b.held.span.end);
  const std::string end = clock(t.c, b.held.span.end), begin = clock(t.c, b.held.span.begin);
  std::string clause;
  if (b.held.span.begin <= t.from)
    clause =
        then ? say("{} has {} until then", who, what) : say("{} has {} until {}", who, what, end);
  else
    clause = then ? say("{} has {} from {} until then", who, what, begin)
                  : say("{} has {} from {} until {}", who, what, begin, end);
  return with_what(t.c, clause, by);
}

std::string told(const Telling& t, const OwnsTooFew& b) {
  const std::string wanted = need(t.c, b.need);
  if (b.owned == 0) return say("the shop has nothing that would do for {}", wanted);
  if (b.owned < b.wanted)
    return say("it takes {}, the shop owns {} that would do", wanted, b.owned);
  return say("it takes {}, and the shop owns too few for that and the rest of it", wanted);
}

std::string told(const Telling& t, const ClosedHours& b) {
  const bool then = is_then(t, b.closed.end);
  const std::string end = clock(t.c, b.closed.end);
  if (!b.builder) return then ? tr("closed until then") : say("closed until {}", end);
  const std::string who = builder(t.c, b.builder);
  return then ? say("{} is not in until then", who) : say("{} is not in until {}", who, end);
}

std::string told(const Telling& t, const BuilderBusy& b) {
  const std::string who = builder(t.c, b.builder);
  return with_what(t.c,
                   is_then(t, b.until) ? say("{} is busy until then", who)
                                       : say("{} is busy until {}", who, clock(t.c, b.until)),
                   b.with);
}

std::string told(const Telling& t, const NotReadyYet& b) {
  const GlueUp* before = t.c.floor.glue_up(b.waits_for);
  const std::string end = clock(t.c, b.until);
  if (!before)
    return is_then(t, b.until) ? tr("the step before it is not ready until then")
                               : say("the step before it is not ready until {}", end);
  const std::string what = title(t.c, *before);
  return is_then(t, b.until) ? say("{} is not ready until then", what)
                             : say("{} is not ready until {}", what, end);
}

std::string told(const Telling& t, const TooCold& b) {
  const std::string glue = glue_of(t.c, b.sheet), wood = degrees_below(t.c, b.wood),
                    wants = degrees(t.c, b.floor);
  if (b.until && is_then(t, *b.until))
    return say("too cold for {} until then (the wood at {}, it wants {})", glue, wood, wants);
  if (b.until)
    return say("too cold for {} until {} (the wood at {}, it wants {})", glue, clock(t.c, *b.until),
               wood, wants);
  return say("too cold for {}, and no warmer time is in sight (the wood at {}, it wants {})", glue,
             wood, wants);
}

std::string told(const Telling& t, const SkinsFirst& b) {
  return say("at {} {} stays open {}, you take {}", degrees(t.c, b.air), glue_of(t.c, b.sheet),
             exact(b.open), exact(b.assembly));
}

std::string told(const Telling& t, const BesideHeat& b) {
  const GlueUp* with = t.c.floor.glue_up(b.with);
  const Recipe* other = with ? t.c.floor.recipe(with->recipe) : nullptr;
  const bool then = is_then(t, b.until);
  const std::string who = owner(t.c, b.with), end = clock(t.c, b.until);
  std::string clause;
  if (other && other->heat)
    clause = then ? say("no solvent beside a hot form: {} has one until then", who)
                  : say("no solvent beside a hot form: {} has one until {}", who, end);
  else
    clause = then ? say("no hot form beside solvent: {} leaves vapour until then", who)
                  : say("no hot form beside solvent: {} leaves vapour until {}", who, end);
  return with_what(t.c, clause, b.with);
}

std::string told(const Telling& t, const PotGels& b) {
  return say("the pot of {} sets at {}", glue_of(t.c, b.sheet), clock(t.c, b.until));
}

std::string told(const Telling& t, const BenchBusy& b) {
  const Bench* bench = t.c.floor.bench(b.bench);
  const std::string what = bench ? small(bench->name) : tr("the bench"), who = owner(t.c, b.with);
  return with_what(t.c,
                   is_then(t, b.until)
                       ? say("{} is for one at a time, and {} is on it until then", what, who)
                       : say("{} is for one at a time, and {} is on it until {}", what, who,
                             clock(t.c, b.until)),
                   b.with);
}

// The one that ends last first; nights between are told once.
std::string joined(const Telling& t, const std::vector<Blocker>& blockers,
                   std::size_t most = kBlockersTold) {
  std::string out;
  std::size_t clauses = 0, more = 0, closed = 0;
  for (const Blocker& b : blockers) {
    if (std::holds_alternative<ClosedHours>(b) && ++closed > 1) continue;
    if (clauses == most) {
      ++more;
      continue;
    }
    out += (clauses++ == 0 ? "" : "; ") + std::visit([&](const auto& f) { return told(t, f); }, b);
  }
  if (closed > 1) out += "; " + say_n(closed - 1, "closed once before", "closed {} times before");
  if (more > 0) out += "; " + say("and {} more", more);
  return out;
}

bool all_closed(const std::vector<Blocker>& blockers) {
  return std::all_of(blockers.begin(), blockers.end(),
                     [](const Blocker& b) { return std::holds_alternative<ClosedHours>(b); });
}

// Of a link that nothing holds back.
std::string unheld(const Context& c, const GlueUp& g) {
  if (g.progress != Progress::reserved) return phase(c, g);
  return g.times.stage_begin - g.wanted_from < Minutes{1} ? tr("as it was wanted")
                                                          : tr("a start that was chosen");
}

}  // namespace

std::string whose(const Context& c, GlueUpId id) {
  const GlueUp* g = c.floor.glue_up(id);
  if (!g) return titled(c, id);
  return of_owner(builder(c, g->builder)) + " " + recipe(c, g->recipe);
}

std::string blocker(const Context& c, const Blocker& b) {
  return std::visit([&](const auto& fact) { return told({c, c.now, std::nullopt}, fact); }, b);
}

std::string not_before(const Context& c, const Why& why, std::size_t most) {
  if (why.blockers.empty())
    return why.start ? say("Nothing holds it back: {} can be had.", clock(c, *why.start))
                     : tr("Not at all.");
  if (!why.start && all_closed(why.blockers))
    return tr("Not at all: no opening is long enough for it.");
  const bool pot = std::any_of(why.blockers.begin(), why.blockers.end(),
                               [](const Blocker& b) { return std::holds_alternative<PotGels>(b); });
  const std::string because = joined({c, why.wanted, why.start}, why.blockers, most);
  if (why.start) return say("Not before {}: {}.", clock(c, *why.start), because);
  if (pot) return say("Not with this pot: {}.", because);
  return say("Not within {}: {}.", length(kHorizon), because);
}

std::string alternative(const Context& c, const Alternative& a) {
  const std::string start = clock(c, a.start);
  return std::visit(
      Overload{[&](const OtherGlue& by) {
                 return say("With {}: {}, ready {}.", glue_of(c, by.sheet), start,
                            clock(c, a.ready));
               },
               [&](const FewerPieces& by) {
                 return say("With {} instead of {}: {}.",
                            need(c, {.gear_class = by.need.gear_class, .count = by.need.count}),
                            by.usual, start);
               },
               [&](const AskHolder& by) {
                 return say("With {} moved {} -> {}: {}.", whose(c, by.glue_up), clock(c, by.from),
                            clock(c, by.to), start);
               }},
      a.by);
}

std::vector<std::string> chain(const Context& c, const std::vector<ChainLink>& links) {
  std::vector<std::string> lines;
  for (const ChainLink& link : links) {
    const GlueUp* g = c.floor.glue_up(link.glue_up);
    if (!g) continue;
    const Instant start = g->times.stage_begin;
    std::string why = joined({c, start - Minutes{1}, start}, link.because);
    if (why.empty()) why = unheld(c, *g);
    lines.push_back(say("{} {}: {}.", clock(c, start), whose(c, g->id), why));
  }
  return lines;
}

}  // namespace squeezeout::words
