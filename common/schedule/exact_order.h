#pragma once
// Pairs that cannot run at once: each pair has a 0/1 variable for who goes first, so that orders can be decided and learned.

#include "common/schedule/exact_engine.h"
#include "common/schedule/exact_timetable.h"

namespace squeezeout::schedule::exact {

struct Rigid {  // runs from start to start + length
  View start;
  Tick length = 0;
  friend auto operator<=>(const Rigid&, const Rigid&) = default;
};

struct Ordered {
  Rigid one, two;
  Pred one_first;  // else two goes first
};

// Finds the pairs among what always holds a fixed count for a fixed length. Those whose lags leave one order get it; the others
// are returned. Too many (kMostPairs): none, the timetables stand alone.
std::vector<Ordered> add_orders(Engine& engine, const std::vector<int>& capacity,
                                const std::vector<std::vector<Holding>>& holdings);
inline constexpr std::size_t kMostPairs = 20'000;

// All open pairs of one of them, when it can no longer start so early, or no longer so late.
class Order final : public Propagator {
 public:
  enum class Moved { later, sooner };
  Order(Rigid self, Moved moved) : self_(self), moved_(moved) {}
  void add(const Rigid& other, Pred self_first) { pairs_.push_back({self_, other, self_first}); }
  std::vector<Pred> wakes() const;
  bool propagate(Engine& engine) override;

 private:
  Rigid self_;
  Moved moved_;
  std::vector<Ordered> pairs_;
};

// One pair, when it becomes known who goes first; edges follow from then on.
class Precedence final : public Propagator {
 public:
  explicit Precedence(const Ordered& pair) : pair_(pair) {}
  std::vector<Pred> wakes() const { return {pair_.one_first, !pair_.one_first}; }
  bool propagate(Engine& engine) override;

 private:
  Ordered pair_;
};

}  // namespace squeezeout::schedule::exact
