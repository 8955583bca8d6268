#pragma once
// The gear of one question: which kinds would meet which need, worked out once; then asked for many spans.
//   Shape    needs in the order of the demand; of each need, the kinds that are good enough, least capable first. Needs are met
//            together by augmenting paths: a need that finds its kinds taken may push another need on to other kinds
//   Cost     over(): a look into each candidate's usage; the flow only where kinds are shared and each need alone would go

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "common/gear/ledger.h"

namespace squeezeout {

class GearChoice {
 public:
  // Looks at the ledger for as long as it lives; the claims of `except` count as free.
  GearChoice(const GearLedger& gear, std::span<const GearKind> kinds,
             std::span<const GearNeed> needs, Holder except);

  // The need that cannot be met over the whole span.
  struct Short {
    std::size_t need = 0;
    int got = 0;         // of its pieces, at most
    bool alone = false;  // false: the needs before it take what it lacks
    Instant until{};     // a span that begins before, and ends no sooner, is as short
    friend bool operator==(const Short&, const Short&) = default;
  };
  // first  the need that is looked at first: the likeliest
  [[nodiscard]] std::optional<Short> over(Span span, std::size_t first = 0);
  // Whether it is short over the span in the same way: alone, or with the needs before it. What is short over a part of a span is
  // short over the span.
  [[nodiscard]] std::optional<Short> still(const Short& is, Span span);

  // Of the last span asked by over(), which was not short: what to take, in order of kind.
  [[nodiscard]] std::vector<Held> held() const;
  [[nodiscard]] std::vector<GearKindId> kinds_of(std::size_t need) const;
  [[nodiscard]] int owned(std::size_t need) const;

 private:
  struct Lane {
    GearKindId kind;
    const Usage* usage;
    Usage::Own own;
    int stock;
    int free = 0;            // over the span that was looked at last
    Instant until{};         // a span that begins before, and ends no sooner, has no more free
    std::uint64_t seen = 0;  // in which look
  };
  int free_over(std::size_t lane, Span span);
  int sum_over(std::size_t need, Span span);
  Instant until(std::size_t first, std::size_t last) const;  // of what these needs look at
  std::optional<Short> flow(std::size_t needs, Span span);
  int push(std::size_t need, int wanted);

  std::span<const GearNeed> needs_;
  std::vector<Lane> lanes_;
  std::vector<std::vector<std::size_t>> choices_;  // of each need: lanes
  std::uint64_t look_ = 0;
  std::vector<int> left_;                // of each lane's free pieces
  std::vector<std::vector<int>> given_;  // need x lane
  std::vector<bool> tried_;              // lanes of the path that is being looked for
};

}  // namespace squeezeout
