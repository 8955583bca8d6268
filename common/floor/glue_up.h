#pragma once
// A glue-up: one recipe on one build, from reserved to done.
//   Shape    `times` is the best that is known: plan, overwritten by facts as they happen. `promised` is what was last
//            granted; reports hold one against the other. Everything a replay needs is in the record itself.

#include <optional>
#include <string>
#include <vector>

#include "common/base/ids.h"
#include "common/craft/lot.h"
#include "common/gear/ledger.h"
#include "common/plan/slot.h"

namespace squeezeout {

// What has happened. "stage" and "ready" are not facts but the clock's view of a state: see phase_at().
enum class Progress {
  reserved,  // gear is promised
  open,      // Start was pressed: the glue is wet
  clamped,   // clamps are on
  waiting,   // clamps are off, gear is free; not yet to be worked, or ready and not yet worked
  done,
  spoiled,
  cancelled,
  displaced,  // a fact took its place away: it holds nothing and asks for a new time (a snag)
};
inline constexpr int kProgresses = 8;

// What a person sees at an instant.
enum class Phase {
  planned,
  stage,
  open,
  clamped,
  release,
  waiting,
  ready,
  done,
  spoiled,
  cancelled,
  displaced
};
inline constexpr int kPhases = 11;
std::string_view to_string(Phase p);  // the glossary's word

enum class Snag {
  none,
  gear_broken,
  other_overran,
  not_started,
  earlier_step,
  started_over,
  weather,   // another's dwell grew in the cold, or its own hour is no longer right for its glue
  too_cold,  // its glue's floor: no start in the weather that is known
};
inline constexpr int kSnags = 8;

// What the weather last did to the plan of a glue-up: told at its bench until the next press on it.
struct WeatherNote {
  Seconds dwell_before{}, dwell{};    // equal: only its start moved
  Celsius coldest;                    // of the wood, in its open time and dwell
  std::optional<Instant> moved_from;  // it started then, before
  GlueUpId because;                   // whose longer dwell took its place; 0: its own weather
  friend bool operator==(const WeatherNote&, const WeatherNote&) = default;
};

struct GlueUp {
  GlueUpId id;
  RecipeId recipe;
  BuildId build;  // 0: not part of a build
  int step = 0;   // index in the build's chain
  BuilderId builder;
  BenchId bench;
  SheetId sheet;  // 0: without glue
  LotId lot;      // the bottle; 0: not said
  PotId pot;      // spread from this mix; 0: its own
  PlanId plan;    // that gave it its place; 0: its own last press did
  Progress progress = Progress::reserved;
  Demand demand;           // lengths as computed when last planned
  std::vector<Held> held;  // gear, while it is held or promised
  PhaseTimes times, promised;
  Instant reserved_at{};
  Instant wanted_from{};      // Reserve's `after`, not before the press
  Instant pressed_at{};       // the last press on it: undo is open for a while from here
  Seconds waited_for_gear{};  // how much later than with unlimited gear the promised start is
  std::optional<Instant> started_at, clamped_at, off_at,
      ended_at;            // facts; ended: done, spoiled or cancelled
  bool off_early = false;  // clamps came off, or work began, before the sheet's time, knowingly
  bool outside_hours = false;
  int overruns = 0;  // times that the plan's end passed with the clamps still on
  Snag snag = Snag::none;
  GlueUpId snag_by;    // who took its place
  std::string note;    // what the builder said when it was spoiled
  std::string reason;  // why a glue was taken that does not suit; empty: it suits
  std::optional<WeatherNote> weather;
  friend bool operator==(const GlueUp&, const GlueUp&) = default;
};

[[nodiscard]] Phase phase_at(const GlueUp& g, Instant now);
// Past the time at which its clamps can come off, and they are still on.
[[nodiscard]] bool over_time(const GlueUp& g, Instant now);
[[nodiscard]] bool running(const GlueUp& g);  // open or clamped: it holds gear in fact
[[nodiscard]] bool live(const GlueUp& g);     // reserved, running, waiting or displaced
// What it holds, as the ledger keeps it, and when its builder is busy with it.
[[nodiscard]] std::vector<Claim> claims_of(const GlueUp& g);
[[nodiscard]] std::vector<Span> attended_of(const GlueUp& g);
// Planned although its glue skins before the clamps are on, for a reason.
[[nodiscard]] bool skins_knowingly(const GlueUp& g);
// "Clamps on by": the glue skins after this. nullopt without glue.
[[nodiscard]] std::optional<Instant> clamps_on_by(const GlueUp& g);
// "Off about": the least dwell ends here.
[[nodiscard]] Instant off_from(const GlueUp& g);

// A proposal that a person accepted: what it moved. The records of before are kept as for any press (Floor::before).
struct PlanRecord {
  PlanId id;
  Instant at{};
  std::vector<GlueUpId> glue_ups;
  bool undone = false;
  friend bool operator==(const PlanRecord&, const PlanRecord&) = default;
};

// Gear that is out of use, as a claim. One that was mended has ended and stays on record.
struct Outage {
  OutageId id;
  GearKindId kind;
  int count = 0;
  Span span;  // open-ended outages end at begin + kMaxClaim
  std::string reason;
  friend bool operator==(const Outage&, const Outage&) = default;
};

}  // namespace squeezeout
