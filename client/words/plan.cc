#include "client/words/plan.h"

#include <array>
#include <cstdlib>

#include "client/sync/overload.h"
#include "client/words/parts.h"
#include "client/words/say.h"

namespace squeezeout::words {
namespace {

// "go-bar deck" of "Go-bar deck A" with tag "A"; a name that does not say its tag stays.
std::string untagged(const GearKind& kind) {
  std::string name = small(kind.name);
  const std::string tag = " " + kind.tag;
  if (name.size() > tag.size() && name.ends_with(tag)) name.resize(name.size() - tag.size());
  return name;
}

std::string kind_more(const Context& c, const MoreGear& m) {
  const GearKind* kind = c.floor.kind(m.kind);
  const int n = std::abs(m.more);
  if (!kind)
    return m.more < 0 ? say_n(n, "{} piece of gear fewer", "{} pieces of gear fewer")
                      : say_n(n, "{} more piece of gear", "{} more pieces of gear");
  const std::string one = kind->tag.empty() ? small(kind->name) : untagged(*kind);
  const std::string things = n == 1 ? one : plural(one);
  if (m.more < 0) return say("{} {} fewer", n, kind->tag.empty() ? things : small(kind->name));
  if (!kind->tag.empty()) return say("{} more {} like {}", n, things, kind->tag);
  return say("{} more {}", n, things);
}

std::string longer(const LongerHours& h) {
  const bool opens = h.earlier > Minutes{0}, closes = h.later > Minutes{0};
  if (opens && closes)
    return say("Open {} earlier, close {} later", length(h.earlier), length(h.later));
  if (opens) return say("Open {} earlier", length(h.earlier));
  if (closes) return say("Close {} later", length(h.later));
  return tr("The hours as they are");
}

std::string open_on(const OpenOn& o) {
  static constexpr std::array<const char*, 7> days{
      "Open on Sundays",   "Open on Mondays", "Open on Tuesdays", "Open on Wednesdays",
      "Open on Thursdays", "Open on Fridays", "Open on Saturdays"};
  return tr(days[static_cast<std::size_t>(o.weekday) % days.size()]);
}

}  // namespace

std::string from_to(const Context& c, const Shift& s) {
  return (s.from ? clock(c, *s.from) : tr("no place")) + " → " + clock(c, s.to.stage_begin);
}

std::string shift(const Context& c, const Shift& s) {
  const GlueUp* g = c.floor.glue_up(s.glue_up);
  const AdhesiveSheet* sheet = c.floor.sheet(s.sheet);
  const bool other = g && sheet && g->sheet != s.sheet;
  return other ? say("{}, with {}", from_to(c, s), small(sheet->name)) : from_to(c, s);
}

std::string cost(const schedule::Cost& cost) {
  const std::string late =
      cost.late == 0 ? tr("nothing late") : say("late {} in all", length(Minutes{cost.late}));
  const std::int64_t moved = cost.disturbed / schedule::kMoved;
  if (moved == 0) return late + " · " + tr("nothing moved");
  return late + " · " +
         say("{} moved, by {} in all", moved, length(Minutes{cost.disturbed % schedule::kMoved}));
}

std::string proposal(const Proposal& p) {
  return p.optimal ? tr("Proven best.") : tr("The best found.");
}

std::string at_risk(const Context& c, const AtRisk& r) {
  const std::string due = date(c, r.due);
  if (r.ready + Minutes{2} >= c.now + kHorizon)  // asked up to a minute ago
    return say("due {}, and one of its steps finds no time at all", due);
  const std::string ready = date(c, r.ready) == due ? clock(c, r.ready) : date(c, r.ready);
  const GlueUp* last = c.floor.glue_up(r.last);
  return last ? say("due {}, ready {}: the {} is last", due, ready, recipe(c, last->recipe))
              : say("due {}, ready {}: its last steps are not reserved yet", due, ready);
}

std::string change(const Context& c, const Hypothesis& h) {
  return std::visit(Overload{[&](const MoreGear& m) { return kind_more(c, m); },
                             [](const LongerHours& l) { return longer(l); },
                             [](const OpenOn& o) { return open_on(o); },
                             [&](const BuilderAway& b) {
                               return say("{} away from {} till {}", builder(c, b.builder),
                                          clock(c, b.away.begin), clock(c, b.away.end));
                             }},
                    h);
}

std::string saving(const WhatIf& w) {
  const Seconds saved = w.saved();
  if (saved >= Seconds{0} && saved < Minutes{1}) return tr("no less waiting");
  return saved > Seconds{0} ? say("{} less waiting", length(saved))
                            : say("{} more waiting", length(-saved));
}

std::string counted(const WhatIf& w) {
  std::string of;
  if (w.sooner > 0) of = added(of, say("{} sooner", w.sooner));
  if (w.later > 0) of = added(of, say("{} later", w.later));
  if (w.no_place > 0) of = added(of, say("{} without a place", w.no_place));
  const std::string all = say_n(w.glue_ups, "over {} glue-up", "over {} glue-ups");
  return of.empty() ? all : all + ": " + of;
}

}  // namespace squeezeout::words
