#pragma once
// What holds a query back, fact by fact, on a small copy of the floor: of the kinds that would do, from when it is wanted on.
// Each fact can be kept or dropped; at first none is kept.
//   Monotone  dropping a fact never makes the earliest start later
//   Limits    beyond kHorizon after the last start and its dwell nothing is open: no release is looked for there
//   For       why.cc, chain.cc and alternatives.cc

#include <map>
#include <optional>
#include <vector>

#include "common/floor/state.h"
#include "common/floor/why.h"

namespace squeezeout {

class WhyFacts {
 public:
  using Index = std::size_t;

  // Starts in [query.after, end) are asked about. The floor must outlive it.
  WhyFacts(const Floor& floor, SlotQuery query, Instant end);

  // These are kept, all others are dropped.
  void keep_only(const std::vector<Index>& kept);
  // The earliest start in [from, end) under what is kept.
  std::optional<PhaseTimes> earliest(Instant from);
  // Keeps, of the facts that are dropped, some that rule these times out (which they do not under what is kept), and says which.
  // None: nothing does, on the whole floor.
  std::vector<Index> rule_out(const PhaseTimes& times);

  // As it is told: of a fact of the weather, its last hour before the end that no other of `with` rules out.
  Blocker told(Index fact, const std::vector<Index>& with);
  // Preferred facts come first: those that the shop cannot change soon, then those that cover most of the time in question.
  std::vector<Index> by_preference(std::vector<Index> facts) const;

 private:
  struct Entry {
    Blocker blocker;
    std::vector<Claim> claims;  // of HeldGear and BesideHeat
    Span span;                  // of its whole effect; of fumes, of what is attended
    std::size_t need = 0;       // of OwnsTooFew
    BuilderId at_work;          // of BuilderBusy and BenchBusy
    bool kept = false;
  };
  void add(Entry entry) { entries_.push_back(std::move(entry)); }
  void add_gear(const Floor& floor);
  void add_counts(const Floor& floor);
  void add_hours(const Floor& floor);
  void add_work(const Floor& floor);
  void set(Index fact, bool kept);
  void put_claims(Holder holder);
  SlotView view() const;
  SlotQuery query() const;  // under what is kept
  bool rules_out(const Entry& entry, const PhaseTimes& times) const;

  SlotQuery asked_;
  const Instant end_, calendar_end_;
  std::span<const GearKind> kinds_;
  std::vector<Entry> entries_;
  std::map<Holder, std::vector<Index>> of_holder_;
  std::map<GlueUpId, std::vector<Index>> of_work_;  // attended stretches

  GearLedger gear_;  // with the claims that are kept
  BuilderLedger builders_;
  std::map<GlueUpId, Span> fumes_;
  mutable std::optional<Hours> hours_;  // made when first asked for
};

// A least set of facts that leave no start in [query.after, end): the one that ends last first. There must be none.
[[nodiscard]] std::vector<Blocker> least_blockers(const Floor& floor, const SlotQuery& query,
                                                  Instant end);

}  // namespace squeezeout
