#pragma once
// Questions that change nothing: what a joint needs, the earliest moment, and why not sooner. A client asks its own mirror of
// the floor; the answer is a quote, and only Reserve makes it true.

#include <memory>
#include <optional>
#include <variant>
#include <vector>

#include "common/base/result.h"
#include "common/craft/answer.h"
#include "common/floor/command.h"
#include "common/floor/refusal.h"
#include "common/floor/state.h"

namespace squeezeout {

struct Quote {
  Demand demand;  // with the lengths of its hour
  SheetId sheet;
  PotId pot;  // that it is to be spread from; 0: its own
  Slot slot;
  Seconds waited_for_gear{};  // later by this than with unlimited gear
};
// The earliest slot for what `wanted` asks (its `start`, when given, is tried exactly and DoesNotFit says what is next).
[[nodiscard]] Result<Quote, Refusal> earliest(const Floor& floor, const Reserve& wanted,
                                              Instant now);
// The earliest other time for a glue-up that is reserved or displaced.
[[nodiscard]] Result<Quote, Refusal> earliest_for(const Floor& floor, GlueUpId glue_up,
                                                  Instant after, Instant now);

// What the joint needs, worked out for `wanted` at its hour: glues ranked, gear, times, moisture, cautions; each with its formula.
//   at  the hour that is told: a start, or when it is used
//   Refuses  NoSuch
[[nodiscard]] Result<JointAnswer, Refusal> joint_answer(const Floor& floor, const Reserve& wanted,
                                                        Instant at, Instant now);
// The bottle that would be used: of those on record that are not used up, the one that stays good longest. None: none on record.
[[nodiscard]] const Lot* freshest_lot(const Floor& floor, SheetId sheet);
// A mix of that glue that is good until `until`, made last. None: there is none.
[[nodiscard]] const Pot* live_pot(const Floor& floor, SheetId sheet, Instant until);
// How long this recipe took this builder, spreading to the last clamp.
[[nodiscard]] std::vector<Seconds> assembly_times(const Floor& floor, RecipeId recipe,
                                                  BuilderId builder);

// The weather that is known, made once for many queries; a query without one makes its own.
using SharedClimate = std::shared_ptr<Climate>;
[[nodiscard]] SharedClimate climate_of(const Floor& floor, Instant now);

// The query of a wish: from `after` on, not before now; its `start` is left to the caller.
[[nodiscard]] Result<SlotQuery, Refusal> query_of(const Floor& floor, const Reserve& wanted,
                                                  Instant now, SharedClimate climate = {});
// What the slot finder looks at, of this floor. `hours` are the shop's and the builder's together; both outlive the view.
[[nodiscard]] SlotView view_of(const Floor& floor, const Hours& hours);
// The bench where that is for one builder at a time; 0: people make room at it.
[[nodiscard]] BenchId bench_rule(const Floor& floor, BenchId bench);
// The query of a glue-up that is on record, with today's climate, without its build's earlier step. Its pot binds it until a fact
// takes its place, or the mix has set: then a fresh one will be stirred.
[[nodiscard]] Result<SlotQuery, Refusal> query_alone(const Floor& floor, const GlueUp& glue_up,
                                                     Instant after, Instant now,
                                                     SharedClimate climate = {});
// The same, with its build's earlier step.
[[nodiscard]] Result<SlotQuery, Refusal> query_again(const Floor& floor, const GlueUp& glue_up,
                                                     Instant after, Instant now,
                                                     SharedClimate climate = {});
// That query at exactly `start`; DoesNotFit says what is next.
[[nodiscard]] Result<Quote, Refusal> quote_at(const Floor& floor, const SlotQuery& query,
                                              SheetId sheet, Instant start, Instant now);

// The next step of a build that has no glue-up yet; nullopt when the chain is through.
struct NextStep {
  BuildId build;
  int step = 0;
  RecipeId recipe;
};
[[nodiscard]] std::optional<NextStep> next_step(const Floor& floor, BuildId build);

// Gear at an instant: what is free now, and when the next piece comes back.
struct GearNow {
  GearKindId kind;
  int stock = 0, broken = 0, held = 0, free = 0;  // stock = broken + held + free
  std::optional<Instant> more_at{};               // planned
  std::vector<HeldBy> holders{};                  // glue-ups, ordered by end
};
[[nodiscard]] std::vector<GearNow> gear_now(const Floor& floor, Instant now);

}  // namespace squeezeout
