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

struct HeldGear {            // a holder of what is needed
  std::vector<Held> pieces;  // that he holds of the kinds that would do
  HeldBy held;               // how many together, from the first to the last of his claims
  friend bool operator==(const HeldGear&, const HeldGear&) = default;
};
struct OwnsTooFew {  // the shop's own count, whoever holds what
  GearNeed need;
  int wanted = 0, owned = 0;  // owned is enough where another need takes of the same kinds
  friend bool operator==(const OwnsTooFew&, const OwnsTooFew&) = default;
};
struct ClosedHours {  // one closed stretch
  Span closed;
  BuilderId
      builder;  // the shop is open in part of it, this builder is not there; 0: the shop is closed
  friend bool operator==(const ClosedHours&, const ClosedHours&) = default;
};
using Blocker = std::variant<HeldGear, OwnsTooFew, ClosedHours, BuilderBusy, NotReadyYet, TooCold,
                             SkinsFirst, BesideHeat, PotGels, BenchBusy>;

struct Why {
  Instant wanted{};              // no start before this was asked for
  std::optional<Instant> start;  // the earliest from there on; none: not at all within kHorizon
  std::vector<Blocker>
      blockers;  // minimal, the one that ends last first; empty: it can start when it is wanted
};
// When it no longer holds back; none: it stays as it is.
[[nodiscard]] std::optional<Instant> ends(const Blocker& blocker);
// The glue-up behind it; 0: none.
[[nodiscard]] GlueUpId glue_up_of(const Blocker& blocker);

// For a wish (from its `start` on, when it names one), and for a glue-up that is reserved or displaced: why it could not be had
// sooner since it was wanted. A start later than `Why::start` was chosen.
//   Minimal  under these facts alone there is no start in [wanted, start); without any one of them there is
//   Refuses  as earliest() and earliest_for() do, but DoesNotFit: that is what is explained
//   Cost     of n facts met on the way k are told: some k + k log2(n / k) searches on a small copy of the floor
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
