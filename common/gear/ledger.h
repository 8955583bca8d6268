#pragma once
// The gear ledger: who holds how many of what, when.
//   Invariant  for every kind and every instant since its stock was last set: claims that contain it sum to at most the stock.
//              put() CHECKs it.
//   Shape      a claim is (kind, count, span) of one holder; breakage and maintenance are claims too: one invariant

#include <cstddef>
#include <cstdint>
#include <map>
#include <vector>

#include "common/base/ids.h"
#include "common/gear/blocks.h"
#include "common/gear/kind.h"
#include "common/gear/usage.h"
#include "common/time/span.h"

namespace squeezeout {

struct Holder {
  enum class What : std::uint8_t { glue_up, outage };
  What what = What::glue_up;
  std::uint32_t id = 0;
  static Holder of(GlueUpId g) { return {What::glue_up, g.value}; }
  static Holder of(OutageId o) { return {What::outage, o.value}; }
  friend auto operator<=>(const Holder&, const Holder&) = default;
};

struct Claim {
  GearKindId kind;
  int count = 0;
  Span span;
  friend auto operator<=>(const Claim&, const Claim&) = default;
};

struct HeldBy {
  Holder holder;
  int count = 0;
  Span span;
  friend auto operator<=>(const HeldBy&, const HeldBy&) = default;
};

class GearLedger {
 public:
  // From `since` on the claims of the kind sum to at most `count`; what was before it keeps its own truth.
  void set_stock(GearKindId kind, int count, Instant since = Instant::min());
  int stock(GearKindId kind) const;
  Instant stock_since(GearKindId kind) const;

  // Replaces all claims of the holder. Empty spans and zero counts are dropped.
  void put(Holder holder, std::vector<Claim> claims);
  const std::vector<Claim>& claims_of(Holder holder) const;

  // Pieces of the kind that are free over the whole span, counting the claims of `except` as free.
  int free_over(GearKindId kind, Span span, Holder except = {}) const;
  Usage::Peak peak(GearKindId kind, Span span, Holder except = {}) const;
  // Those whose claims of the kind overlap the span, ordered by end; the first `most`.
  std::vector<HeldBy> holders(GearKindId kind, Span span, std::size_t most = SIZE_MAX) const;
  const Usage& usage(GearKindId kind) const;
  // What the holder puts on the kind himself, as Usage::peak takes it.
  Usage::Own own(GearKindId kind, Holder holder) const;
  std::size_t size() const { return count_; }

  template <class F>
  void each(F f) const {  // f(Holder, const std::vector<Claim>&), in order of holder
    for (const auto& [holder, claims] : by_holder_) f(holder, claims);
  }

 private:
  struct ByEnd {
    Instant end{}, begin{};
    Holder holder;
    int count = 0;
    friend auto operator<=>(const ByEnd&, const ByEnd&) = default;
  };
  struct Earliest {
    Instant
        begin{};  // of the block's claims: who looks at a span passes the blocks that begin behind it
    void push(const std::vector<ByEnd>&) {}
    void pull(const std::vector<ByEnd>& claims);
  };
  struct Lane {
    int stock = 0;
    Instant since = Instant::min();
    Usage usage;
    Blocks<ByEnd, Earliest> by_end;
  };
  std::map<GearKindId, Lane> lanes_;
  std::map<Holder, std::vector<Claim>> by_holder_;
  std::size_t count_ = 0;
};

}  // namespace squeezeout
