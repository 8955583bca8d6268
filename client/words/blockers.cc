// What holds a start back, told from few facts; other ways; the critical chain.

#include <fmt/format.h>

#include <algorithm>

#include "client/sync/overload.h"
#include "client/words/why.h"

namespace squeezeout::words {
namespace {

// When a fact is told of: from when it was wanted to the start that it makes.
struct Telling {
  const Context& c;
  Instant from{};
  std::optional<Instant> start;
};

// "until then", "until Thu 8:00".
std::string until(const Telling& t, Instant end) {
  const bool then = t.start && end <= *t.start && *t.start - end < Minutes{1};
  return then ? "until then" : "until " + clock(t.c, end);
}

std::string glue_of(const Context& c, SheetId id) {
  const AdhesiveSheet* sheet = c.floor.sheet(id);
  return sheet ? small(sheet->name) : "the glue";
}

// "3 of the 3 deep clamps and go-bar deck A".
std::string pieces(const Context& c, const std::vector<Held>& held) {
  std::string out;
  for (std::size_t i = 0; i < held.size(); ++i) {
    if (i > 0) out += i + 1 == held.size() ? " and " : ", ";
    const GearKind* kind = c.floor.kind(held[i].kind);
    const int owned = c.floor.gear.stock(held[i].kind);
    if (!kind)
      out += gear(c, {held[i]});
    else if (!kind->tag.empty() || owned == 1)
      out += (kind->tag.empty() ? "the " : "") + small(kind->name);
    else
      out += fmt::format("{} of the {} {}", held[i].count, owned, plural(small(kind->name)));
  }
  return out;
}

std::string told(const Telling& t, const HeldGear& b) {
  if (b.held.holder.what == Holder::What::outage) {
    const auto it = t.c.floor.outages.find(OutageId{b.held.holder.id});
    const bool known = it != t.c.floor.outages.end() && !it->second.reason.empty();
    return fmt::format("{} {} out of use{}", pieces(t.c, b.pieces),
                       b.held.count == 1 ? "is" : "are",
                       known ? " (" + it->second.reason + ")" : "");
  }
  const std::string from =
      b.held.span.begin > t.from ? fmt::format(" from {}", clock(t.c, b.held.span.begin)) : "";
  return fmt::format("{} holds {}{} {}", whose(t.c, GlueUpId{b.held.holder.id}),
                     pieces(t.c, b.pieces), from, until(t, b.held.span.end));
}

std::string told(const Telling& t, const OwnsTooFew& b) {
  if (b.owned == 0) return "the shop has nothing that would do for " + need(t.c, b.need);
  if (b.owned < b.wanted)
    return fmt::format("it takes {}, the shop owns {} that would do", need(t.c, b.need), b.owned);
  return fmt::format("it takes {}, and the shop owns too few for that and the rest of it",
                     need(t.c, b.need));
}

std::string told(const Telling& t, const ClosedHours& b) {
  if (b.builder) return builder(t.c, b.builder) + " is not in " + until(t, b.closed.end);
  return "closed " + until(t, b.closed.end);
}

std::string told(const Telling& t, const BuilderBusy& b) {
  const GlueUp* with = t.c.floor.glue_up(b.with);
  const std::string what = with ? " (" + recipe(t.c, with->recipe) + ")" : "";
  return fmt::format("{} is busy {}{}", builder(t.c, b.builder), until(t, b.until), what);
}

std::string told(const Telling& t, const NotReadyYet& b) {
  const GlueUp* before = t.c.floor.glue_up(b.waits_for);
  return fmt::format("{} is not ready {}", before ? title(t.c, *before) : "the step before it",
                     until(t, b.until));
}

std::string told(const Telling& t, const TooCold& b) {
  const std::string end = b.until ? " " + until(t, *b.until) : ", and no warmer time is in sight";
  return fmt::format("too cold for {}{} (the wood at {}, it wants {})", glue_of(t.c, b.sheet), end,
                     degrees_below(t.c, b.wood), degrees(t.c, b.floor));
}

std::string told(const Telling& t, const SkinsFirst& b) {
  return fmt::format("at {} {} stays open {}, you take {}", degrees(t.c, b.air),
                     glue_of(t.c, b.sheet), exact(b.open), exact(b.assembly));
}

std::string told(const Telling& t, const BesideHeat& b) {
  const GlueUp* with = t.c.floor.glue_up(b.with);
  const Recipe* other = with ? t.c.floor.recipe(with->recipe) : nullptr;
  if (other && other->heat)
    return fmt::format("no solvent beside a hot form: {} has one {}", whose(t.c, b.with),
                       until(t, b.until));
  return fmt::format("no hot form beside solvent: {} leaves vapour {}", whose(t.c, b.with),
                     until(t, b.until));
}

std::string told(const Telling& t, const PotGels& b) {
  return fmt::format("the pot of {} sets at {}", glue_of(t.c, b.sheet), clock(t.c, b.until));
}

std::string told(const Telling& t, const BenchBusy& b) {
  const Bench* bench = t.c.floor.bench(b.bench);
  return fmt::format("{} is for one at a time, and {} is on it {}",
                     bench ? small(bench->name) : "the bench", whose(t.c, b.with),
                     until(t, b.until));
}

// The one that ends last first; nights between are told once.
std::string joined(const Telling& t, const std::vector<Blocker>& blockers) {
  std::string out;
  std::size_t clauses = 0, more = 0, closed = 0;
  for (const Blocker& b : blockers) {
    if (std::holds_alternative<ClosedHours>(b) && ++closed > 1) continue;
    if (clauses == kBlockersTold) {
      ++more;
      continue;
    }
    out += (clauses++ == 0 ? "" : "; ") + std::visit([&](const auto& f) { return told(t, f); }, b);
  }
  if (closed > 1)
    out += fmt::format("; closed {} before",
                       closed == 2 ? "once" : fmt::format("{} times", closed - 1));
  if (more > 0) out += fmt::format("; and {} more", more);
  return out;
}

bool all_closed(const std::vector<Blocker>& blockers) {
  return std::all_of(blockers.begin(), blockers.end(),
                     [](const Blocker& b) { return std::holds_alternative<ClosedHours>(b); });
}

}  // namespace

std::string whose(const Context& c, GlueUpId id) {
  const GlueUp* g = c.floor.glue_up(id);
  if (!g) return fmt::format("glue-up {}", id.value);
  const std::string name = builder(c, g->builder);
  return fmt::format("{}{} {}", name, name.ends_with('s') ? "'" : "'s", recipe(c, g->recipe));
}

std::string blocker(const Context& c, const Blocker& b) {
  return std::visit([&](const auto& fact) { return told({c, c.now, std::nullopt}, fact); }, b);
}

std::string not_before(const Context& c, const Why& why) {
  if (why.blockers.empty())
    return why.start ? fmt::format("Nothing holds it back: {} can be had.", clock(c, *why.start))
                     : "Not at all.";
  if (!why.start && all_closed(why.blockers))
    return "Not at all: no opening is long enough for it.";
  const bool pot = std::any_of(why.blockers.begin(), why.blockers.end(),
                               [](const Blocker& b) { return std::holds_alternative<PotGels>(b); });
  const std::string head = why.start ? "Not before " + clock(c, *why.start)
                           : pot     ? "Not with this pot"
                                     : "Not within " + length(kHorizon);
  return fmt::format("{}: {}.", head, joined({c, why.wanted, why.start}, why.blockers));
}

std::string alternative(const Context& c, const Alternative& a) {
  const std::string start = clock(c, a.start);
  return std::visit(Overload{[&](const OtherGlue& by) {
                               return fmt::format("With {}: {}, ready {}.", glue_of(c, by.sheet),
                                                  start, clock(c, a.ready));
                             },
                             [&](const FewerPieces& by) {
                               const std::string one{to_string(by.need.gear_class)};
                               return fmt::format("With {} instead of {}: {}.",
                                                  number(by.need.count, one), by.usual, start);
                             },
                             [&](const AskHolder& by) {
                               return fmt::format("If {} moves {} -> {}: {}.", whose(c, by.glue_up),
                                                  clock(c, by.from), clock(c, by.to), start);
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
    if (why.empty()) why = g->progress == Progress::reserved ? "as it was wanted" : phase(c, *g);
    lines.push_back(fmt::format("{} {}: {}.", clock(c, start), whose(c, g->id), why));
  }
  return lines;
}

}  // namespace squeezeout::words
