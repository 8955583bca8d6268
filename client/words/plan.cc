#include "client/words/plan.h"

#include <fmt/format.h>

#include <array>

#include "client/sync/overload.h"

namespace squeezeout::words {
namespace {

std::string kind_more(const Context& c, const MoreGear& m) {
  const GearKind* kind = c.floor.kind(m.kind);
  const std::string name = kind ? kind->name : "piece of gear";
  const int n = m.more < 0 ? -m.more : m.more;
  const std::string things = n == 1 ? small(name) : plural(small(name));
  if (m.more < 0) return fmt::format("{} {} fewer", n, things);
  if (kind && !kind->tag.empty()) return fmt::format("{} more like {}", n, small(name));
  return fmt::format("{} more {}", n, things);
}

std::string longer(const LongerHours& h) {
  std::string out;
  if (h.earlier > Minutes{0}) out = "Open " + length(h.earlier) + " earlier";
  if (h.later > Minutes{0})
    out += (out.empty() ? "Close " : ", close ") + length(h.later) + " later";
  return out.empty() ? "The hours as they are" : out;
}

std::string open_on(const OpenOn& o) {
  static constexpr std::array<const char*, 7> days{"Sundays",   "Mondays", "Tuesdays", "Wednesdays",
                                                   "Thursdays", "Fridays", "Saturdays"};
  return std::string("Open on ") + days[static_cast<std::size_t>(o.weekday) % days.size()];
}

}  // namespace

std::string from_to(const Context& c, const Shift& s) {
  return (s.from ? clock(c, *s.from) : std::string("no place")) + " → " +
         clock(c, s.to.stage_begin);
}

std::string shift(const Context& c, const Shift& s) {
  const GlueUp* g = c.floor.glue_up(s.glue_up);
  const AdhesiveSheet* sheet = c.floor.sheet(s.sheet);
  const bool other = g && sheet && g->sheet != s.sheet;
  return from_to(c, s) + (other ? ", with " + small(sheet->name) : std::string());
}

std::string cost(const schedule::Cost& cost) {
  const std::string late =
      cost.late == 0 ? "nothing late" : "late " + length(Minutes{cost.late}) + " in all";
  const std::int64_t moved = cost.disturbed / schedule::kMoved;
  if (moved == 0) return late + " · nothing moved";
  return fmt::format("{} · {} moved, by {} in all", late, moved,
                     length(Minutes{cost.disturbed % schedule::kMoved}));
}

std::string proposal(const Proposal& p) { return p.optimal ? "Proven best." : "The best found."; }

std::string at_risk(const Context& c, const AtRisk& r) {
  if (r.ready + Minutes{2} >= c.now + kHorizon)  // asked up to a minute ago
    return fmt::format("due {}, and one of its steps finds no time at all", date(c, r.due));
  const std::string days =
      fmt::format("due {}, ready {}", date(c, r.due),
                  date(c, r.ready) == date(c, r.due) ? clock(c, r.ready) : date(c, r.ready));
  const GlueUp* last = c.floor.glue_up(r.last);
  return days + (last ? ": the " + recipe(c, last->recipe) + " is last"
                      : std::string(": its last steps are not reserved yet"));
}

std::string change(const Context& c, const Hypothesis& h) {
  return std::visit(Overload{[&](const MoreGear& m) { return kind_more(c, m); },
                             [](const LongerHours& l) { return longer(l); },
                             [](const OpenOn& o) { return open_on(o); },
                             [&](const BuilderAway& b) {
                               return fmt::format("{} away from {} till {}", builder(c, b.builder),
                                                  clock(c, b.away.begin), clock(c, b.away.end));
                             }},
                    h);
}

std::string saving(const WhatIf& w) {
  const Seconds saved = w.saved();
  if (saved >= Seconds{0} && saved < Minutes{1}) return "no less waiting";
  return saved > Seconds{0} ? length(saved) + " less waiting" : length(-saved) + " more waiting";
}

std::string counted(const WhatIf& w) {
  std::string out = "over " + number(w.glue_ups, "glue-up");
  if (w.sooner > 0) out += fmt::format(": {} sooner", w.sooner);
  if (w.later > 0) out += fmt::format("{} {} later", w.sooner > 0 ? "," : ":", w.later);
  if (w.no_place > 0) out += fmt::format(", {} without a place", w.no_place);
  return out;
}

}  // namespace squeezeout::words
