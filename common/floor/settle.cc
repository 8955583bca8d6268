#include <algorithm>

#include "common/floor/apply.h"
#include "common/floor/decide.h"
#include "common/floor/mend.h"
#include "common/floor/weather.h"

namespace squeezeout {
namespace {

// A claim is at most kMaxClaim long: what is nominally clamped for almost that long has been forgotten, and lets go.
constexpr Seconds kForgotten = kMaxClaim - std::chrono::hours{24 * 7};

std::vector<Event> changed(const Floor& floor, Change what, GlueUp g, Snag snag) {
  auto events = change(floor, what, std::move(g), snag);
  // A running glue-up asks for no more than it holds, and what has started never overlaps beyond the stock.
  CHECK(events.has_value());
  return std::move(*events);
}

std::vector<Event> due_now(const Floor& floor, GlueUp g, Instant at) {
  switch (g.progress) {
    case Progress::reserved: {
      g.progress = Progress::displaced;
      g.held.clear();
      g.snag = Snag::not_started;
      return changed(floor, Change::displaced, std::move(g), Snag::none);
    }
    case Progress::open:
    case Progress::clamped:
      if (at - g.times.stage_begin > kForgotten) {
        g.progress = Progress::waiting;
        g.off_at = std::min(at, g.times.stage_begin + kMaxClaim);
        g.times.clamped_begin = std::min(g.times.clamped_begin, *g.off_at);
        g.times.release_begin = g.times.release_end = g.times.ready_at = *g.off_at;
        return changed(floor, Change::clamps_off, std::move(g), Snag::none);
      }
      if (g.progress == Progress::open) {
        ++g.overruns;
        g.times.clamped_begin = at + kOpenStep * g.overruns;
        plan_release(floor, g);
      } else {
        hold_on(floor, g, at);
      }
      return changed(floor, Change::overran, std::move(g), Snag::other_overran);
    case Progress::waiting:
      g.progress = Progress::done;
      g.ended_at = g.times.ready_at;
      return changed(floor, Change::finished, std::move(g), Snag::none);
    default:
      CHECK(!"nothing is due on what is over");
      return {};
  }
}

// How much of the plan may no longer be that of the weather: after a reading, a forecast, other sheets, a record of before.
std::optional<Reach> weather_reach(const Body& body) {
  if (std::holds_alternative<LoadShop>(body)) return Reach::all;
  const bool near = std::holds_alternative<Undo>(body) || std::holds_alternative<UndoPlan>(body) ||
                    std::holds_alternative<ClimateReading>(body) ||
                    std::holds_alternative<ReadClimate>(body) ||
                    std::holds_alternative<SetForecast>(body);
  return near ? std::optional{Reach::known} : std::nullopt;
}

}  // namespace

std::optional<Instant> next_due(const Floor& floor) {
  if (floor.due.empty()) return std::nullopt;
  return floor.due.begin()->first;
}

std::vector<Event> settle(const Floor& floor, Instant at) {
  if (floor.due.empty() || floor.due.begin()->first > at) return {};
  // Of several that are due at one instant, the lowest id.
  const auto [first, last] = floor.due.equal_range(floor.due.begin()->first);
  const auto lowest = std::min_element(
      first, last, [](const auto& a, const auto& b) { return a.second < b.second; });
  return due_now(floor, floor.glue_ups.at(lowest->second), at);
}

Step step(Floor& floor, const Stamped& command) {
  Step out{{}, std::vector<Event>{}};
  for (std::vector<Event> due = settle(floor, command.at); !due.empty();
       due = settle(floor, command.at)) {
    for (Event& e : due) {
      squeezeout::apply(floor, e);
      out.settled.push_back(std::move(e));
    }
  }
  out.answer = decide(floor, command);
  if (out.answer) {
    for (const Event& e : *out.answer) squeezeout::apply(floor, e);
    if (const auto reach = weather_reach(command.body)) {
      for (Event& e : follow_weather(floor, command.at, *reach))
        out.answer->push_back(std::move(e));
    }
  }
  return out;
}

}  // namespace squeezeout
