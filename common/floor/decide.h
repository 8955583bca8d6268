#pragma once
// decide: what becomes of a command. Pure: it looks at nothing but its arguments.
//   Shape    events in the order in which they are applied: those that free gear come before those that take it
//   Needs    the floor is settled at command.at (step() sees to it)
//   Ties     by id; ids from state; searches bounded by count: the same floor and command give the same answer everywhere

#include <optional>
#include <vector>

#include "common/base/result.h"
#include "common/floor/command.h"
#include "common/floor/event.h"
#include "common/floor/refusal.h"
#include "common/floor/state.h"

namespace squeezeout {

[[nodiscard]] Result<std::vector<Event>, Refusal> decide(const Floor& floor,
                                                         const Stamped& command);

// What time alone has made true by `at`, the first thing that is due: claims of clamps that are still on grow, what was not
// started gives way, waits end. Empty when nothing is due; apply and ask again until then.
[[nodiscard]] std::vector<Event> settle(const Floor& floor, Instant at);
[[nodiscard]] std::optional<Instant> next_due(const Floor& floor);

// One step of the one writer: settle, decide, apply. `settled` is empty when nothing was due; the answer's events (when it is
// no refusal) are applied too.
struct Step {
  std::vector<Event> settled;
  Result<std::vector<Event>, Refusal> answer;
};
[[nodiscard]] Step step(Floor& floor, const Stamped& command);

}  // namespace squeezeout
