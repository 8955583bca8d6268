#pragma once
// Why not earlier, as few facts as can be named: were any one of them not so, it could start earlier; all together they are enough.
// And the chain of a plan: who waits for whom.
//   Source   QuickXplain: Junker, AAAI (2004)

#include <variant>
#include <vector>

#include "common/base/result.h"
#include "common/floor/command.h"
#include "common/floor/refusal.h"
#include "common/floor/state.h"

namespace squeezeout {

struct
    HeldGear {  // a holder of what is needed: the facts of his claims on these kinds over this time
  std::vector<GearKindId> kinds;
  HeldBy held;
  friend bool operator==(const HeldGear&, const HeldGear&) = default;
};
struct OwnsTooFew {  // the shop's own count, whoever holds what
  GearNeed need;
  int wanted = 0, owned = 0;
  friend bool operator==(const OwnsTooFew&, const OwnsTooFew&) = default;
};
struct ClosedHours {  // one closed stretch, of the shop or of the builder
  Span closed;
  friend bool operator==(const ClosedHours&, const ClosedHours&) = default;
};
using Blocker = std::variant<HeldGear, OwnsTooFew, ClosedHours, BuilderBusy, NotReadyYet, TooCold,
                             SkinsFirst, BesideHeat>;

struct Why {
  std::optional<Instant> start;   // the earliest; none: not at all within kHorizon
  std::vector<Blocker> blockers;  // minimal; empty: it can start when it is wanted
};

// For a wish, and for a glue-up that is reserved (why it stands where it stands; a start later than its earliest was chosen).
[[nodiscard]] Result<Why, Refusal> why_not_earlier(const Floor& floor, const Reserve& wanted,
                                                   Instant now);
[[nodiscard]] Result<Why, Refusal> why_not_earlier(const Floor& floor, GlueUpId glue_up,
                                                   Instant now);

// Another way to an earlier moment, computed; at most kMaxAlternatives, earliest first.
struct OtherGlue {
  SheetId sheet;
};
struct FewerPieces {  // the joint's own least, where the recipe takes more
  GearNeed need;
  int usual = 0;
};
struct AskHolder {  // this one moved to there lets it start earlier
  GlueUpId glue_up;
  Instant from, to;
};
struct Alternative {
  std::variant<OtherGlue, FewerPieces, AskHolder> by;
  Instant start{}, ready{};
};
inline constexpr std::size_t kMaxAlternatives = 3;
[[nodiscard]] std::vector<Alternative> alternatives(const Floor& floor, const Reserve& wanted,
                                                    Instant now);

// From `last` back to what could not start sooner: each starts when it does because of its `because`.
struct ChainLink {
  GlueUpId glue_up;
  std::vector<Blocker> because;  // empty: it starts when it was wanted
};
[[nodiscard]] std::vector<ChainLink> critical_chain(const Floor& floor, GlueUpId last, Instant now);
// The chain of the plan that is on: of the glue-up, not yet over, that is ready last.
[[nodiscard]] std::vector<ChainLink> critical_chain(const Floor& floor, Instant now);

}  // namespace squeezeout
