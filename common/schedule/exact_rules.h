#pragma once
// What the exact search knows of single variables and of pairs: hours that are not allowed, one that follows another by a length
// that hangs on the hour, and pieces that add up.

#include "common/schedule/exact_engine.h"

namespace squeezeout::schedule::exact {

// Only values within one of these; `last` is allowed too.
struct Run {
  Tick first = 0, last = 0;
};
using Runs = std::vector<Run>;  // in order, apart

class Allowed final : public Propagator {
 public:
  Allowed(View view, Runs runs) : view_(view), runs_(std::move(runs)) {}
  std::vector<Pred> wakes() const;
  bool propagate(Engine& engine) override;

 private:
  View view_;
  Runs runs_;
};

// after >= from + length(from), or exactly that. `from + length(from)` never falls.
class Follows final : public Propagator {
 public:
  enum class How { not_before, exactly };
  struct Rule {
    View from, after;
    Tick length = 0;
    std::shared_ptr<const Length> by_begin;  // null: `length`
    How how = How::not_before;
    std::optional<Pred> when;  // only then; none: always
  };
  explicit Follows(Rule rule) : rule_(std::move(rule)) {}
  std::vector<Pred> wakes() const;
  bool propagate(Engine& engine) override;

 private:
  Tick reached(Tick from) const;
  bool imply(Engine& engine, Pred then, Pred since);

  Rule rule_;
};

// Variables of at least 0 that add up to `sum`.
class AddUp final : public Propagator {
 public:
  AddUp(std::vector<Var> vars, int sum) : vars_(std::move(vars)), sum_(sum) {}
  std::vector<Pred> wakes() const;
  bool propagate(Engine& engine) override;

 private:
  std::vector<Var> vars_;
  int sum_;
};

}  // namespace squeezeout::schedule::exact
