#pragma once
// The earliest slot: where the whole chain of a glue-up fits, over all its gear, its builder and the opening hours.
//   Shape    stage -> open -> clamped -> release -> waiting. Gear is held from stage to the END of release; dwell that ends
//            outside hours holds it until the next opening. Stage and open are one attended stretch, release is another.
//            Open time, dwell and wait are those of the hour (craft/curing.h). Solvent never stands beside a hot form.
//   Units    dwell and wait are elapsed time, hours are civil (time/hours.h)
//   Cost     bounded by kMaxTries rejected stretches and kHorizon

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <variant>
#include <vector>

#include "common/craft/curing.h"
#include "common/craft/recipe.h"
#include "common/gear/ledger.h"
#include "common/plan/builders.h"
#include "common/time/hours.h"

namespace squeezeout {

// The instants of one glue-up. stage_begin <= open_begin <= clamped_begin <= release_begin <= release_end <= ready_at.
struct PhaseTimes {
  Instant stage_begin{}, open_begin{}, clamped_begin{}, release_begin{}, release_end{}, ready_at{};
  Span held() const { return {stage_begin, release_end}; }
  friend auto operator<=>(const PhaseTimes&, const PhaseTimes&) = default;
};

// Why a stretch of starts was rejected, as facts.
struct GearShort {  // of all kinds that would do, too few are free together
  GearNeed need{};
  std::vector<GearKindId>
      kinds{};  // good enough, least capable first; none: the shop owns nothing that would do
  int wanted = 0, free = 0, owned = 0;
  std::vector<HeldBy> holders{};  // ordered by end
  friend bool operator==(const GearShort&, const GearShort&) = default;
};
struct ShopClosed {  // or outside the builder's own hours
  Instant until{};
  friend bool operator==(const ShopClosed&, const ShopClosed&) = default;
};
struct BuilderBusy {
  BuilderId builder;
  GlueUpId with;
  Instant until{};
  friend bool operator==(const BuilderBusy&, const BuilderBusy&) = default;
};
struct NotReadyYet {  // the build's earlier glue-up
  GlueUpId waits_for;
  Instant until{};
  friend bool operator==(const NotReadyYet&, const NotReadyYet&) = default;
};
struct SkinsFirst {  // at that hour the glue stays open shorter than the builder needs
  SheetId sheet;
  Seconds assembly{}, open{};
  Celsius air;
  friend bool operator==(const SkinsFirst&, const SkinsFirst&) = default;
};
struct BesideHeat {  // open solvent and a hot form would be in the shop together
  GlueUpId with;
  Instant until{};
  friend bool operator==(const BesideHeat&, const BesideHeat&) = default;
};
struct PotGels {  // the clamps would be on after the mix that it is to be spread from has set
  PotId pot;
  SheetId sheet;
  Instant until{};
  friend bool operator==(const PotGels&, const PotGels&) = default;
};
struct BenchBusy {  // another builder works at the bench, which is for one at a time
  BenchId bench;
  GlueUpId with;
  Instant until{};
  friend bool operator==(const BenchBusy&, const BenchBusy&) = default;
};
// TooCold (trade/cure.h): the film would not form.
using Fact = std::variant<GearShort, ShopClosed, BuilderBusy, NotReadyYet, TooCold, SkinsFirst,
                          BesideHeat, PotGels, BenchBusy>;

struct Hindrance {
  Span starts;  // the starts that this fact rules out
  Fact fact;
  friend bool operator==(const Hindrance&, const Hindrance&) = default;
};

struct Slot {
  PhaseTimes times;
  std::vector<Held> held;
  std::vector<Hindrance>
      why_not_earlier;  // covers [after, times.stage_begin), in order; the first kMaxWhy
  friend bool operator==(const Slot&, const Slot&) = default;
};
struct NoSlot {
  std::vector<Hindrance> why;  // the first kMaxWhy
};

// What the finder looks at. References: lives no longer than the floor that it looks at.
struct SlotView {
  const GearLedger& gear;
  const BuilderLedger& builders;
  std::span<const GearKind> kinds;
  const Hours& hours;                     // shop and builder together
  const std::map<GlueUpId, Span>& fumes;  // when solvent hangs in the air
  std::function<BenchId(GlueUpId)>
      bench_of{};  // where one is worked on; none: no bench is looked at
};

struct SlotQuery {
  Demand demand;
  BuilderId builder;
  Instant after{};                       // no start before
  std::optional<NotReadyYet> waits_for;  // the build's earlier glue-up, when it ends after `after`
  GlueUpId ignoring;  // this glue-up's own claims count as free (it is being moved)
  enum class Hours {
    keep,
    ignore
  } attended = Hours::keep;              // ignore: a builder works after closing, knowingly
  std::shared_ptr<const Curing> curing;  // null: the demand's lengths hold at any hour
  enum class Open {
    keep,
    ignore
  } open_time = Open::keep;    // ignore: the builder knows that the glue may skin
  std::optional<PotGels> pot;  // spread from this mix
  BenchId bench;               // one that is for one builder at a time; 0: no such rule
};

// The lengths that hang on the hour, for a slot that begins like `times`; as they are where there is no curing.
//   Refuses  TooCold
[[nodiscard]] Result<Demand, TooCold> demand_at(const SlotQuery& query, const PhaseTimes& times);

inline constexpr Seconds kHorizon = std::chrono::hours{24 * 60};
inline constexpr int kMaxTries = 20'000;
inline constexpr std::size_t kMaxWhy = 16;

// A hot form and open solvent in the shop together, were the query run at `times`: all others, the one that stays longest last.
[[nodiscard]] std::vector<BesideHeat> beside_heat(const SlotView& view, const SlotQuery& query,
                                                  const PhaseTimes& times);

// The earliest slot at or after query.after, at a whole minute.
[[nodiscard]] Result<Slot, NoSlot> earliest_slot(const SlotView& view, const SlotQuery& query);
// Whether it fits exactly at `start`; the hindrances when not.
[[nodiscard]] Result<Slot, NoSlot> slot_at(const SlotView& view, const SlotQuery& query,
                                           Instant start);

// When the clamps can next come off at or after `from`: hours open and builder free for the release. Monotone in `from`.
[[nodiscard]] std::optional<Instant> release_after(const SlotView& view, const SlotQuery& query,
                                                   Instant from);

// Meets every need from what is free over the span, least capable first. nullopt: they cannot all be met together.
[[nodiscard]] std::optional<std::vector<Held>> choose_gear(const SlotView& view,
                                                           std::span<const GearNeed> needs,
                                                           Span span, GlueUpId ignoring);

}  // namespace squeezeout
