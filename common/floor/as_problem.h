#pragma once
// The floor as a scheduling problem, and back: those that may move are its tasks, all else that is on the floor is taken.
//   Shape    resources: gear kinds in the shop's order, then builders, the shop's air, benches for one at a time; a task is stage and open (attended),
//            what the solvent needs to be gone, the rest of the dwell, release (attended, elastic). Announced: its start, or the
//            one that it had. Behind the tasks come anchors: later steps of a build that stay where they are
//   Units    ticks are minutes from `base`, the next whole minute; lengths are rounded up, what is taken is the most within each
//            minute: what fits here fits the floor, but for what is left out
//   Left out the hour at which a bottle goes stale; weather within a quarter of an hour. Two hot forms never stand beside each
//            other once there is solvent (the floor allows it); one that starts off the minute counts as a minute longer. So a plan
//            is tried on the floor before anybody sees it
//   Lives    no longer than the floor: lengths look at its recipes and glues

#include <vector>

#include "common/floor/ask.h"
#include "common/floor/state.h"
#include "common/plan/slot.h"
#include "common/schedule/problem.h"

namespace squeezeout {

inline constexpr int kOtherGlue =
    500;  // another glue is as bad as so many minutes of another start

enum class Glues { as_they_are, may_change };  // to another that fits and that the recipe names

struct AsProblem {
  struct Task {
    GlueUpId glue_up;
    Instant start{};              // that people have seen
    std::vector<SheetId> sheets;  // of each mode
  };
  schedule::Problem problem;
  Instant base{};
  std::vector<Task> tasks;  // problem.tasks begin with these
  std::vector<GlueUpId>
      left_out;       // asked for, and no query can be made of them: they are taken as they stand
  bool exact = true;  // nothing was rounded or left out: what cannot be here cannot be on the floor

  Instant start_of(std::size_t task, const schedule::Placed& placed) const;
  SheetId sheet_of(std::size_t task, const schedule::Placed& placed) const;
  schedule::Tick tick(Instant t) const;  // rounded down
};

//   movable  reserved or displaced, each once
[[nodiscard]] AsProblem as_problem(const Floor& floor, const std::vector<GlueUpId>& movable,
                                   Instant now, Glues glues);

// What a glue-up that is on record asks of the slot finder, without its build's earlier step; nullopt: nothing can be asked (its
// recipe is gone, its glue never suits).
[[nodiscard]] std::optional<SlotQuery> lone_query(const Floor& floor, const GlueUp& glue_up,
                                                  Instant now, SharedClimate climate = {});

// When a build has to be through with this step, for the steps that have no glue-up yet to be ready when it is due: by the least
// that they take. nullopt: not due, or a later step is on the floor.
[[nodiscard]] std::optional<Instant> due_of_step(const Floor& floor, BuildId build, int step);

}  // namespace squeezeout
